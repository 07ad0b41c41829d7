/** Loads the built `functions.js` and `functions.json` into the page, as a host loads them: as files. */
import { type CellFunction, createFunctionsGlobal, type FunctionsMetadata } from "./custom-functions";

export interface LoadedFunctions {
  readonly metadata: FunctionsMetadata;
  readonly implementations: ReadonlyMap<string, CellFunction>;
}

/** Rejects if one of the two files cannot be had. */
export async function loadBuiltFunctions(): Promise<LoadedFunctions> {
  const { customFunctions, associated } = createFunctionsGlobal();
  Object.assign(globalThis, { CustomFunctions: customFunctions });
  const [metadata] = await Promise.all([readJson<FunctionsMetadata>("functions.json"), runScript("functions.js")]);
  return { metadata, implementations: associated };
}

/** A JSON file that the build has put beside the page. */
async function readJson<Content>(file: string): Promise<Content> {
  const response = await fetch(file);
  if (!response.ok) throw new Error(`${file} could not be loaded (${response.status}).`);
  return (await response.json()) as Content;
}

/** Any file that the build has put beside the page. */
export async function readBytes(file: string): Promise<Uint8Array> {
  const response = await fetch(file);
  if (!response.ok) throw new Error(`${file} could not be loaded (${response.status}).`);
  return new Uint8Array(await response.arrayBuffer());
}

function runScript(file: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const script = document.createElement("script");
    script.src = file;
    script.addEventListener("load", () => resolve());
    script.addEventListener("error", () => reject(new Error(`${file} could not be loaded.`)));
    document.head.append(script);
  });
}
