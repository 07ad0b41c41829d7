/** An `.xlsx` file as a workbook of the grid. */
import { DataValidationType, type IRange, type IWorkbookData } from "@univerjs/core";
import type { ITableJson } from "@univerjs/sheets-table";

import { type GridSheets, workbookSnapshot } from "../adapter/grid-writer";
import { Budget } from "../../xlsx/package/budget";
import type { PrintPlan } from "../../workbook/plan/schema";
import { readPrint } from "../../xlsx/parts/print/read";
import { type ReadCharts, readCharts } from "../../xlsx/parts/charts/read";
import { type FormulaReading, readFormula } from "../../xlsx/formulas/reading";
import { growingList } from "./growing-lists";
import { NAMES_RESOURCE, type ReadNames, readNames } from "./names/read";
import { type FileRule, readRules } from "./rules/read";
import { readSharedStrings } from "../../xlsx/parts/strings/read";
import { type ReadSheetPart, readSheetPart } from "./sheets/read";
import { readStyles, type StylesPart } from "./styles/read";
import { type FileTable, readTables } from "../../xlsx/parts/tables/read";
import { gridTable } from "./tables/grid-tables";
import { type FileValidation, readValidations } from "./validations/read";
import { readWorkbookPart, type SheetEntry, type WorkbookPart } from "../../xlsx/parts/workbook/read";
import type { WorkbookPackage } from "../../xlsx/package/workbook-package";

export interface ReadingOptions {
  /** Ids of our own functions. */
  readonly ownFunctions: readonly string[];
  /** Names of all functions that the grid's engine works out, in capitals; undefined where that is not known. */
  readonly knownFunctions?: ReadonlySet<string>;
  /** The grid's id of a sheet, by its part: for sheets that were put into the grid before they came into the file. */
  readonly sheetIds?: ReadonlyMap<string, string>;
}

export interface ReadTable {
  readonly file: FileTable;
  /** Undefined for a table without headings, which the grid does not know. */
  readonly grid: ITableJson | undefined;
}

export interface ReadSheet extends ReadSheetPart {
  readonly id: string;
  readonly entry: SheetEntry;
  readonly tables: readonly ReadTable[];
  readonly rules: readonly FileRule[];
  readonly validations: readonly FileValidation[];
  readonly charts: ReadCharts;
  readonly print: PrintPlan;
}

export interface ReadWorkbook {
  readonly part: WorkbookPart;
  readonly sheets: readonly ReadSheet[];
  readonly styles: StylesPart;
  readonly stylesPart: string | undefined;
  readonly names: ReadNames;
  readonly formulas: FormulaReading;
}

/** The grid's id of a sheet of the file. */
export function sheetIdOf({ index }: SheetEntry): string {
  return `sheet-${index + 1}`;
}

/**
 * @param wanted the worksheets that are read; all of them when left out
 * @throws FileRefused where the package is no workbook that this page can open
 */
export function readWorkbook(
  source: WorkbookPackage,
  options: ReadingOptions,
  wanted: (entry: SheetEntry) => boolean = () => true,
): ReadWorkbook {
  const part = readWorkbookPart(source);
  const related = (kind: string): string | undefined =>
    part.relationships.find((relationship) => relationship.kind === kind && !relationship.isExternal)?.target;
  const stylesPart = related("styles");
  const styles = readStyles(source, stylesPart, related("theme"));
  const strings = readSharedStrings(source, related("sharedStrings"));
  const idOf = (entry: SheetEntry): string => options.sheetIds?.get(entry.part) ?? sheetIdOf(entry);

  const worksheets = part.sheets.filter(({ isWorksheet }) => isWorksheet);
  const tablesOf = new Map(worksheets.map((entry) => [entry.part, readTables(source, entry.part)]));
  const tables = new Map([...tablesOf.values()].flat().map((table) => [table.name.toLowerCase(), table]));
  const withoutNames: FormulaReading = {
    ownFunctions: options.ownFunctions,
    ...(options.knownFunctions === undefined ? {} : { knownFunctions: options.knownFunctions }),
    tables,
    unknownNames: new Set(),
  };
  const names = readNames(part.names, part.sheets, idOf, withoutNames);
  const formulas = { ...withoutNames, unknownNames: names.unknown };
  const budget = new Budget();

  const sheets = worksheets.filter(wanted).map((entry): ReadSheet => {
    const id = idOf(entry);
    const fileTables = tablesOf.get(entry.part) ?? [];
    const read = readSheetPart(source.text(entry.part), entry, id, {
      strings,
      styles,
      formulas,
      tables: fileTables,
      from1904: part.from1904,
      budget,
    });
    const fit = fitting(read.sheet);
    return {
      ...read,
      id,
      entry,
      tables: fileTables.map((file, index) => ({
        file,
        grid: file.hasHeadings ? gridTable(file, `${id}-table-${index + 1}`, columnFormula(formulas)) : undefined,
      })),
      rules: readRules(read.root, id, styles, formulas, fit),
      validations: readValidations(read.root, id, formulas, fit),
      charts: readCharts(source, entry.part, entry.name),
      print: readPrint(read.root, entry, part.names),
    };
  });
  return { part, sheets: sheets.map((sheet) => withGrowingLists(sheet, sheets)), styles, stylesPart, names, formulas };
}

function withGrowingLists(own: ReadSheet, sheets: readonly ReadSheet[]): ReadSheet {
  const validations = own.validations.map(({ element, rule }) => {
    if (rule?.type !== DataValidationType.LIST || rule.formula1 === undefined) return { element, rule };
    return { element, rule: { ...rule, formula1: growingList(rule.formula1, own, sheets) } };
  });
  return { ...own, validations };
}

function columnFormula(formulas: FormulaReading): (formula: string, table: FileTable) => string | undefined {
  return (formula, table) => {
    const { text, isWorkable } = readFormula(formula, formulas, table.name);
    return isWorkable ? text : undefined;
  };
}

/** Cuts blocks to the cells of the grid's sheet, which ends where nothing is used any more. */
function fitting({ rowCount, columnCount }: { rowCount: number; columnCount: number }) {
  return ({ startRow, endRow, startColumn, endColumn }: IRange): IRange | undefined => {
    if (startRow >= rowCount || startColumn >= columnCount) return undefined;
    return {
      startRow,
      endRow: Math.min(endRow, rowCount - 1),
      startColumn,
      endColumn: Math.min(endColumn, columnCount - 1),
    };
  };
}

/** The sheets as the grid takes them. */
export function toGridSheets({ part, sheets, styles }: ReadWorkbook): GridSheets {
  const shown = sheets.find(({ entry }) => entry.index === part.activeIndex && !entry.isHidden);
  const active = shown ?? sheets.find(({ entry }) => !entry.isHidden) ?? sheets[0];
  const { ff, fs, cl } = styles.cellStyles[0] ?? {};
  // The grid takes a cell without a look of its own from its sheet, never from the workbook.
  const defaultStyle = { ...(ff ? { ff } : {}), ...(fs === undefined ? {} : { fs }), ...(cl ? { cl } : {}) };
  return {
    sheets: sheets.map(({ sheet, tables, rules, validations, charts, print }) => ({
      sheet: { ...sheet, defaultStyle },
      tables: tables.flatMap(({ grid }) => grid ?? []),
      rules: rules.flatMap(({ rule }) => rule ?? []),
      validations: validations.flatMap(({ rule }) => rule ?? []),
      charts: charts.charts,
      print,
    })),
    styles: Object.fromEntries(styles.cellStyles.map((style, number) => [`x${number}`, style])),
    activeId: active?.id ?? "",
  };
}

/** The whole workbook as the grid opens it. */
export function toGridWorkbook(workbook: ReadWorkbook, name: string): IWorkbookData {
  const snapshot = workbookSnapshot(toGridSheets(workbook), name);
  return {
    ...snapshot,
    resources: [...(snapshot.resources ?? []), { name: NAMES_RESOURCE, data: JSON.stringify(workbook.names.names) }],
  };
}
