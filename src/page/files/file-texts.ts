/** All that the page says about files, in one place. */
import type { Unshown } from "../../grid/file/unshown";

export const fileTexts = {
  open: "Open…",
  save: "Save",
  opening: (name: string) => `Opening ${name}…`,
  saving: "Saving…",
  saved: (name: string) => `Saved as ${name}, among your downloads.`,
  savedCopy: (copy: string, name: string) =>
    `Saved a copy with answers only as ${copy}, among your downloads. ${name} stays open here as it is.`,
  answersName: (name: string) => name.replace(/(\.xl[a-z]+)?$/i, (ending) => ` (answers)${ending || ".xlsx"}`),
  opened: (name: string) => `${name} is open.`,
  openedAsWorkbook: (name: string, workbook: string, formulas: number) =>
    `${name} is open as a new workbook; Save makes ${workbook} of it.` +
    (formulas > 0 ? ` Its formulas (${String(formulas)}) came in as their last answers.` : ""),
  refused: (name: string, sentence: string) =>
    `${name} was not opened. ${sentence} The workbook that is open stays as it was.`,
  failedToSave: (reason: string) => `Nothing was saved: ${reason}`,
  unexpected: (reason: string) => `Something went wrong: ${reason}`,
  oneFile: "Drop one file at a time.",
  changed: "not saved",
  beforeSave: "Before this is saved",
  holdsToo: "The file also holds what this page does not show. It stays in the file as it is:",
  notSaved: "Not all that was done here fits into the file:",
  beforeCopy: "Before the copy is saved",
  copyHoldsToo: "What this page does not show goes into the copy as well, of formulas the last answers:",
  notInCopy: "Not all of it can be in the copy:",
  saveAnyway: "Save",
  cancel: "Cancel",
  replaceTitle: "The open workbook has changes that are not saved",
  replace: (name: string) => `Save them before ${name} is opened?`,
  saveFirst: "Save first",
  dropChanges: "Open without saving",
  unsavedWork: "Work that was not saved:",
  bringBack: "Bring back",
  discard: "Discard",
  openElsewhere: (name: string) => `Another page has ${name} open again: go on there.`,
  broughtBack: (name: string) => `${name} is back as it was left.`,
  notKept:
    "This browser keeps no copy of the workbook: it is full, or the window is a private one. Save before you leave the page.",
  sampleSeason: "the sample season",
  notResumed: (name: string, reason: string) =>
    `${name}, which was open here last, could not be opened again: ${reason} This is the sample season.`,
  fixedPlaces: (sheet: string, what: string) =>
    `Rows and columns of ${sheet} cannot be put in or taken out here: this page could not move the ${what} along.`,
  fixedSheet: (sheet: string, what: string) =>
    `${sheet} cannot be renamed or taken out here: the ${what} would lose it.`,
} as const;

/** `charts (Board 2027, Lab)` */
export function unshownWords({ what, sheets, cells }: Unshown): string {
  const places = cells.length > 0 ? [...cells.slice(0, 3), ...(cells.length > 3 ? ["…"] : [])] : sheets;
  return places.length === 0 ? what : `${what} (${places.join(", ")})`;
}

/** `Tuesday 3 March, 14:05` in the browser's own language. */
export function momentWords(moment: Date): string {
  return moment.toLocaleString(undefined, {
    weekday: "long",
    day: "numeric",
    month: "long",
    hour: "2-digit",
    minute: "2-digit",
  });
}
