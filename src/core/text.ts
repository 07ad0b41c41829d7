/** Two spaces in a row, one that does not break, a tab, or a sign without width: nobody sees that they are there. */
const UNSEEN = /\s{2,}|[^\S ]|[\u200B\u2060]/u;

/**
 * Names are compared after trimming, in Unicode NFC and without regard to case and to how wide the spaces inside them are,
 * so that `M.K.`, ` m.k. ` and a name typed with a combining accent on another computer are one athlete.
 */
export function comparable(text: string): string {
  const plain = text.normalize("NFC").trim().toLowerCase();
  return UNSEEN.test(plain)
    ? plain
        .replace(/[\u200B\u2060]/gu, "")
        .replace(/\s+/gu, " ")
        .trim()
    : plain;
}

/**
 * A to Z without regard to case and accents; equal names then by their characters. Written out rather than left to the
 * host's own collation, which differs between computers: the same log must give the same board everywhere.
 */
export function compareNames(one: string, other: string): number {
  return compareSortable(sortableName(one), sortableName(other));
}

/** A name with what it is sorted by: made once a name, where a sort compares each many times. */
export interface SortableName {
  readonly name: string;
  readonly letters: string;
}

export function sortableName(name: string): SortableName {
  return { name, letters: plainLetters(name) };
}

/** As `compareNames`. */
export function compareSortable(one: SortableName, other: SortableName): number {
  if (one.letters !== other.letters) return one.letters < other.letters ? -1 : 1;
  if (one.name === other.name) return 0;
  return one.name < other.name ? -1 : 1;
}

function plainLetters(text: string): string {
  return text
    .normalize("NFD")
    .replace(/\p{Mark}+/gu, "")
    .trim()
    .toLowerCase();
}
