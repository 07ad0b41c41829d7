/** Files of other formats as the workbook that the page opens: told by what they hold, and of texts by their name. */
import { writeWorkbookFile } from "../../../xlsx/write-plan";
import type { SheetPlan } from "../../../workbook/plan/schema";
import { limits } from "../../../xlsx/package/limits";
import { WorkbookPackage } from "../../../xlsx/package/workbook-package";
import { readCsv } from "./read-csv";
import { isOpenDocument, readOds } from "./read-ods";
import { sheetName, sheetOfCells } from "./sheet-of-cells";

export interface AsWorkbook {
  /** With the workbook's ending: as it is saved. */
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Formulas of which the answers alone came in. */
  readonly formulas: number;
}

const TEXT_NAME = /\.(?:csv|tsv|tab|txt)$/i;
const ZIP_START = [0x50, 0x4b] as const;

/**
 * Null for a workbook, and for what is neither: opening that says why.
 * @throws FileRefused where the file is of one of these formats and cannot be opened
 */
export function asWorkbook(name: string, bytes: Uint8Array): AsWorkbook | null {
  const isZip = ZIP_START.every((byte, at) => bytes[at] === byte);
  if (!isZip && TEXT_NAME.test(name)) {
    const sheet = sheetOfCells(sheetName(withoutEnding(name), new Set()), readCsv(bytes));
    return { name: workbookName(name), bytes: written([sheet]), formulas: 0 };
  }
  if (!isZip || bytes.length > limits.fileBytes) return null;
  const source = WorkbookPackage.open(bytes);
  if (!isOpenDocument(source)) return null;
  const taken = new Set<string>();
  const read = readOds(source);
  const sheets = read.map(({ name: wanted, cells }) => {
    const own = sheetName(wanted, taken);
    taken.add(own.toLowerCase());
    return sheetOfCells(own, cells);
  });
  const formulas = read.reduce((sum, sheet) => sum + sheet.formulas, 0);
  return { name: workbookName(name), bytes: written(sheets), formulas };
}

function written(sheets: readonly SheetPlan[]): Uint8Array {
  return writeWorkbookFile({ sheets, active: sheets[0]?.name ?? "" });
}

const withoutEnding = (name: string): string => name.replace(/\.[^.]*$/, "");
const workbookName = (name: string): string => `${withoutEnding(name)}.xlsx`;
