/** functions.json: what the host knows of the cell functions before it loads them. */
import { generateCustomFunctionsMetadata } from "custom-functions-metadata";
import { headings } from "../functions/headings";
import { functionFilePath, plainName } from "./function-docs";

interface Metadata {
  allowErrorForDataTypeAny?: boolean;
  functions: { id: string; name: string; description?: string; helpUrl?: string; parameters: { name: string }[] }[];
}

/**
 * The metadata with every function's help address.
 *
 * @param baseUrl where the files are hosted, with a slash at its end
 */
export async function makeMetadata(baseUrl: string): Promise<string> {
  const generated = await generateCustomFunctionsMetadata(headings.map(({ file }) => functionFilePath(file)));
  if (generated.errors.length > 0) throw new Error(generated.errors.join("\n"));
  const metadata = JSON.parse(generated.metadataJson) as Metadata;
  // Without this an error in a range would stop the call before the function could say where it is; the generator
  // has no tag for it.
  metadata.allowErrorForDataTypeAny = true;
  for (const entry of metadata.functions) {
    entry.helpUrl = `${baseUrl}help.html#${entry.id}`;
    for (const parameter of entry.parameters) parameter.name = plainName(parameter.name);
  }
  return `${JSON.stringify(metadata, null, 2)}\n`;
}

/** The same metadata for files that are hosted somewhere else. */
export function moveMetadata(metadataJson: string, fromUrl: string, toUrl: string): string {
  const metadata = JSON.parse(metadataJson) as Metadata;
  for (const entry of metadata.functions) {
    if (!entry.helpUrl?.startsWith(fromUrl)) throw new Error(`The help of ${entry.id} is not below ${fromUrl}.`);
    entry.helpUrl = toUrl + entry.helpUrl.slice(fromUrl.length);
  }
  return `${JSON.stringify(metadata, null, 2)}\n`;
}
