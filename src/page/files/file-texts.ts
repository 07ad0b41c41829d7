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
  openedInPlace: (name: string) => `${name} is open. Save writes into this file.`,
  alreadyOpen: (name: string) => `${name} is open here already, with changes that are not saved yet.`,
  workbooks: "Workbooks",
  saveInto: (name: string) => `Ctrl+S: writes into ${name}`,
  saveAsks: "Ctrl+S: asks where to put the file",
  saveDownloads: "Ctrl+S: puts the file among your downloads",
  savedInto: (name: string) => `Saved into ${name}.`,
  savedBefore: (name: string) =>
    `Saved into ${name}. What was typed during the saving is not in it yet: save once more.`,
  noPlace: "Nothing was saved: no file was chosen.",
  changedTitle: (name: string) => `${name} has been changed since it was opened here`,
  changedWords: (moment: string) =>
    `Another program or another page wrote into it, ${moment}. What was changed there is not here, and saving now would replace it.`,
  changedMeanwhile: (name: string) =>
    `${name} has been changed by another program or another page since it was opened here, and what was changed is not in this window. Open it again to go on with it as it is now.`,
  saveElsewhere: "Save as another file…",
  replaceFile: "Replace what was changed",
  notInPlaceTitle: (name: string) => `${name} was not saved`,
  nothingLost: "All that you typed is still open here.",
  downloadCopy: "Put a copy among your downloads",
  copyDownloaded: (name: string) =>
    `A copy is among your downloads as ${name}. The file itself was not written, so the workbook still counts as not saved.`,
  notYet: "Not now",
  mayNotWrite: (name: string) => `The browser was not allowed to write into ${name}.`,
  mayNotRead: (name: string) => `The browser was not allowed to read ${name}.`,
  gone: (name: string) => `${name} is no longer where it was: it was moved, renamed or deleted.`,
  locked: (name: string) => `Another program or another tab holds ${name} just now, or it may only be read.`,
  full: "There is not enough room for it on the disk.",
  stopped: "The browser stopped it for safety, as it does in folders of the system.",
  notAsWritten: (name: string) =>
    `${name} does not hold what was written into it: another program may write into it too.`,
  notWritten: (name: string, reason: string) => `${name} could not be written: ${reason}`,
  wrongEnding: (chosen: string, ending: string) =>
    `Nothing was saved: ${chosen} does not end in ${ending}, and other programs would not open it. Choose a name that does.`,
  pressTitle: "One more press is needed",
  pressWords: "The browser lets a page reach a file right after a press only, and the work before it took too long.",
  goOn: "Go on",
  sameFile: (name: string) =>
    `${name} is open in another tab or window as well. Each has its own changes, and whichever is saved later replaces what the other saved. Go on in one, and close the other.`,
  recentOpen: (name: string, day: string) => `${name}, ${day}`,
  forget: "Forget",
  forgotten: (name: string) => `${name} is no longer in the list. The file itself stays where it is.`,
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

/** `3 March` in the browser's own language, for `2027-03-03`. */
export function dayWords(day: string): string {
  return new Date(`${day}T12:00`).toLocaleDateString(undefined, { day: "numeric", month: "long" });
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
