/** Which tests can run before anything is built. */

/** Folders of tests that read nothing which is built; `unbuilt-tests.test.ts` holds them to it. */
export const UNBUILT_FOLDERS = ["tests/core"] as const;

/** @param words as they go to jest: places, and options with what belongs to them */
export function needsBuild(words: readonly string[]): boolean {
  const places = words.filter((word) => !word.startsWith("-"));
  const isUnbuilt = (place: string): boolean =>
    UNBUILT_FOLDERS.some((folder) => place === folder || place.startsWith(`${folder}/`));
  return places.length === 0 || !places.every(isUnbuilt);
}
