/** What kind each part of the package is (ECMA-376 part 2, 10.1.2). */
import type { WorkbookPackage } from "./workbook-package";
import { children, parseXml } from "../xml/tree";

export const CONTENT_TYPES_PART = "[Content_Types].xml";

/** Answers the content type of a part by its name, or undefined. */
export function contentTypes(source: WorkbookPackage): (part: string) => string | undefined {
  if (!source.has(CONTENT_TYPES_PART)) return () => undefined;
  const { root } = parseXml(source.text(CONTENT_TYPES_PART));
  const byPart = new Map(
    children(root, "Override").map(({ attributes }) => [
      (attributes["PartName"] ?? "").replace(/^\//, "").toLowerCase(),
      attributes["ContentType"] ?? "",
    ]),
  );
  const byEnding = new Map(
    children(root, "Default").map(({ attributes }) => [
      (attributes["Extension"] ?? "").toLowerCase(),
      attributes["ContentType"] ?? "",
    ]),
  );
  return (part) => byPart.get(part.toLowerCase()) ?? byEnding.get(part.slice(part.lastIndexOf(".") + 1).toLowerCase());
}
