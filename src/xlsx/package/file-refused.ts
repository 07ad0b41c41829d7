/** Why a file is not opened, in the one sentence that the coach reads. */
export class FileRefused extends Error {
  constructor(sentence: string, options?: ErrorOptions) {
    super(sentence, options);
    this.name = "FileRefused";
  }
}

/** The sentences, each in one place. None names what is inside the file's parts: that helps nobody at the gym. */
export const refusals = {
  tooLarge: "This file is larger than 20 MB, the most that this page opens.",
  empty: "This file is empty.",
  encrypted:
    "This file is protected by a password: take the password away in the spreadsheet program, then open it here.",
  olderFormat:
    "This file is in the older .xls format: save it as an .xlsx workbook in the spreadsheet program, then open it here.",
  binaryWorkbook:
    "This file is a binary workbook (.xlsb): save it as an .xlsx workbook in the spreadsheet program, then open it here.",
  openDocument:
    "This file is an OpenDocument spreadsheet: save it as an .xlsx workbook in the program it comes from, then open it here.",
  noWorkbook: "This file is not an .xlsx workbook.",
  damaged: "This file is damaged and cannot be opened.",
  inflatesTooMuch: "This file unpacks to far more than a workbook holds, so it was not opened.",
  tooManyParts: "This file holds more parts than a workbook has, so it was not opened.",
  unsafeNames: "This file names parts outside itself, so it was not opened.",
  documentType: "This file holds a document type declaration, which no workbook has, so it was not opened.",
  tooManyRows: "This file has cells beyond the last row or column of a sheet, so it was not opened.",
  tooManyCells: "This workbook has more cells than this page can hold (two million).",
  tooMuchText: "This workbook holds more text than this page can hold.",
  noSheet: "This workbook has no sheet with cells that this page could show.",
} as const;

export function refuse(reason: keyof typeof refusals, cause?: unknown): never {
  throw new FileRefused(refusals[reason], cause === undefined ? undefined : { cause });
}
