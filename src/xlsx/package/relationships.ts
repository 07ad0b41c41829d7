/** What a part of the package says about the other parts that belong to it (ECMA-376 part 2, 9.3). */
import type { WorkbookPackage } from "./workbook-package";
import { children, parseXml } from "../xml/tree";

export interface Relationship {
  readonly id: string;
  /** The last word of its type, such as `worksheet`: the words before it differ between editions of the format. */
  readonly kind: string;
  readonly type: string;
  /** The other part's name, or an address outside the package. */
  readonly target: string;
  readonly isExternal: boolean;
}

/** The name of the part that lists the relationships of `part`; `""` stands for the package itself. */
export function relationshipsName(part: string): string {
  const slash = part.lastIndexOf("/") + 1;
  return `${part.slice(0, slash)}_rels/${part.slice(slash)}.rels`;
}

export function relationshipsOf(source: WorkbookPackage, part: string): Relationship[] {
  const name = relationshipsName(part);
  if (!source.has(name)) return [];
  return children(parseXml(source.text(name)).root, "Relationship").map(({ attributes }) => {
    const type = attributes["Type"] ?? "";
    const isExternal = attributes["TargetMode"] === "External";
    const target = attributes["Target"] ?? "";
    return {
      id: attributes["Id"] ?? "",
      kind: type.slice(type.lastIndexOf("/") + 1),
      type,
      target: isExternal ? target : resolvePart(part, target),
      isExternal,
    };
  });
}

/** The name of a part from an address relative to another one's folder. */
export function resolvePart(from: string, target: string): string {
  const steps = target.startsWith("/") ? [] : from.split("/").slice(0, -1);
  for (const step of target.split("/")) {
    if (step === "" || step === ".") continue;
    if (step === "..") steps.pop();
    else steps.push(step);
  }
  return steps.join("/");
}

/** The address of one part from another one's folder. */
export function relativeTarget(from: string, to: string): string {
  const here = from.split("/").slice(0, -1);
  const there = to.split("/");
  let shared = 0;
  while (shared < here.length && shared < there.length - 1 && here[shared] === there[shared]) shared += 1;
  return [...here.slice(shared).map(() => ".."), ...there.slice(shared)].join("/");
}
