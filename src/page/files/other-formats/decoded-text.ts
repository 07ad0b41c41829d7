/** The characters of a text file, whatever program wrote it. */

const NUL = 0;
/** Looked at for the bytes that letters of the Latin alphabet leave empty in UTF-16. */
const BYTES_LOOKED_AT = 4096;
const LEAST_SHARE = 0.4;

/** What Windows-1252 has from 80 to 9F (Unicode consortium, CP1252.TXT); unused places stay what they are. */
const SIGNS = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008DŽ\u008F\u0090‘’“”•–—˜™š›œ\u009DžŸ";
const FIRST_SIGN = 0x80;

/** Some runtimes read Latin-1 by that name, which has controls in the place of these signs. */
function withItsSigns(text: string): string {
  return text.replace(/[\u0080-\u009F]/g, (sign) => SIGNS[sign.charCodeAt(0) - FIRST_SIGN] ?? sign);
}

/**
 * By the mark at its beginning; without one as UTF-16 where every other byte is empty, else as UTF-8, and where it is none,
 * as Windows-1252, which spreadsheet programs write in Western Europe.
 */
export function decodedText(bytes: Uint8Array): string {
  const [first, second, third] = bytes;
  if (first === 0xef && second === 0xbb && third === 0xbf) return new TextDecoder("utf-8").decode(bytes);
  if (first === 0xff && second === 0xfe) return new TextDecoder("utf-16le").decode(bytes);
  if (first === 0xfe && second === 0xff) return new TextDecoder("utf-16be").decode(bytes);
  const looked = bytes.subarray(0, BYTES_LOOKED_AT - 1);
  const empty = [0, 0];
  looked.forEach((byte, at) => {
    if (byte === NUL) empty[at % 2] = (empty[at % 2] ?? 0) + 1;
  });
  const half = looked.length / 2;
  if ((empty[1] ?? 0) > LEAST_SHARE * half) return new TextDecoder("utf-16le").decode(bytes);
  if ((empty[0] ?? 0) > LEAST_SHARE * half) return new TextDecoder("utf-16be").decode(bytes);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return withItsSigns(new TextDecoder("windows-1252").decode(bytes));
  }
}
