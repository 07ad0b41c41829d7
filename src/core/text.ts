/**
 * Names are compared after trimming, in Unicode NFC and without regard to case, so that `M.K.`, ` m.k. ` and a name
 * typed with a combining accent on another computer are one athlete.
 */
export function comparable(text: string): string {
  return text.normalize("NFC").trim().toLowerCase();
}

/**
 * A to Z without regard to case and accents; equal names then by their characters. Written out rather than left to the
 * host's own collation, which differs between computers: the same log must give the same board everywhere.
 */
export function compareNames(one: string, other: string): number {
  const oneLetters = plainLetters(one);
  const otherLetters = plainLetters(other);
  if (oneLetters !== otherLetters) return oneLetters < otherLetters ? -1 : 1;
  if (one === other) return 0;
  return one < other ? -1 : 1;
}

function plainLetters(text: string): string {
  return text
    .normalize("NFD")
    .replace(/\p{Mark}+/gu, "")
    .trim()
    .toLowerCase();
}
