/** From the bytes of a part to its text and back, and the strings of the file format to plain ones. */
import { strToU8 } from "fflate";

import { refuse } from "../package/file-refused";

/** @throws FileRefused where the bytes are no text in the encoding that they claim */
export function decodeXml(bytes: Uint8Array): string {
  try {
    return new TextDecoder(encodingOf(bytes), { fatal: true }).decode(bytes);
  } catch (cause) {
    return refuse("damaged", cause);
  }
}

/** By the byte order mark, else as the declaration says, else UTF-8 (XML 1.0, appendix F). */
function encodingOf(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return "utf-16be";
  const beginning = String.fromCharCode(...bytes.subarray(0, 200));
  return /^(?:\u00EF\u00BB\u00BF)?<\?xml[^>]*?encoding\s*=\s*["']([\w.:-]+)["']/.exec(beginning)?.[1] ?? "utf-8";
}

/** As UTF-8, with the declaration saying so. */
export function encodeXml(text: string): Uint8Array {
  return strToU8(
    text.replace(/^(<\?xml[^>]*?encoding\s*=\s*)(["'])[\w.:-]+\2/, (_, before: string, quote: string) => {
      return `${before}${quote}UTF-8${quote}`;
    }),
  );
}

/** A string of the file format as the sheet shows it: `_x000D_` stands for one character (ECMA-376 part 1, 22.9.2.19). */
export function decodeString(text: string): string {
  if (!text.includes("_x")) return text;
  return text.replace(/_x([0-9a-fA-F]{4})_/g, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16)));
}
