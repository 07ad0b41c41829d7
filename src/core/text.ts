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
