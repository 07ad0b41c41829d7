/** The workbook's own part with its sheets as the grid has them now: their order, names, and which are hidden. */
import { BooleanNumber } from "@univerjs/core";

import { element } from "../../../xlsx/xml/write";
import type { GridState } from "../grid-state";
import { namesXml, type SheetNumbers } from "../names/write";
import { removeRelationship } from "../../../xlsx/package/package-editing";
import type { ReadSheet, ReadWorkbook } from "../open";
import { relationshipsOf } from "../../../xlsx/package/relationships";
import type { WorkbookPackage } from "../../../xlsx/package/workbook-package";
import { insertInWorkbook } from "../../../xlsx/parts/workbook/insert";
import { XmlEdits } from "../../../xlsx/xml/edits";
import { child, children, prefixedAttribute, prefixOf, wholeNumber, type XmlElement } from "../../../xlsx/xml/tree";

interface WorkbookChanges {
  /** Formulas were typed, changed or cleared: the order in which to work them out is another. */
  readonly hasFormulaEdits: boolean;
  /** Some formulas could not be worked out here: the program is to do so when it opens the file. */
  readonly wantsCalculation: boolean;
  /** The id of the sheet that is to be shown first; left out where that stays as it is. */
  readonly inSight: string | undefined;
}

export function writeWorkbookPart(
  target: WorkbookPackage,
  workbook: ReadWorkbook,
  state: GridState,
  changes: WorkbookChanges,
): void {
  const { root, source, name } = workbook.part;
  const prefix = prefixOf(root);
  const edits = new XmlEdits(source);
  const list = child(root, "sheets");
  if (list === undefined) throw new Error("The workbook has no list of sheets.");
  const elements = children(list, "sheet");
  const order = sheetOrder(workbook, state, elements.length);
  const numbers: SheetNumbers = new Map(
    elements.map((_, index) => [index, order.includes(index) ? order.indexOf(index) : undefined]),
  );
  const isMoved = order.length !== elements.length || order.some((from, to) => from !== to);
  const sheets = new Map(workbook.sheets.map((sheet) => [sheet.entry.index, sheet]));
  const gone = workbook.sheets.filter(({ entry }) => numbers.get(entry.index) === undefined);

  const written = order.map((index) => sheetXml(source, elements[index], sheets.get(index), state));
  const before = order.map((index) => slice(source, elements[index]));
  if (isMoved || written.some((xml, index) => xml !== before[index])) {
    edits.replace(list.contentStart, list.contentEnd, written.join(""));
  }
  const shown = workbook.sheets.find(({ id }) => id === changes.inSight)?.entry.index;
  if (isMoved || shown !== undefined) writeViews(edits, root, numbers, shown);
  for (const { entry } of gone) {
    const id = prefixedAttribute(elements[entry.index] ?? list, "id");
    if (id !== undefined) removeRelationship(target, name, id);
  }

  const nameList = child(root, "definedNames");
  const names = namesXml(
    workbook,
    state,
    children(nameList, "definedName"),
    numbers,
    (id) => numbers.get(workbook.sheets.find((sheet) => sheet.id === id)?.entry.index ?? -1),
    prefix,
  );
  if (names !== undefined) {
    const xml = names.length === 0 ? "" : element(`${prefix}definedNames`, {}, ...names);
    if (nameList) edits.replaceElement(nameList, xml);
    else if (xml !== "") insertInWorkbook(edits, root, "definedNames", xml);
  }

  if (changes.wantsCalculation) {
    const calculation = child(root, "calcPr");
    if (calculation) edits.setAttribute(calculation, "fullCalcOnLoad", 1);
    else insertInWorkbook(edits, root, "calcPr", element(`${prefix}calcPr`, { fullCalcOnLoad: 1 }));
  }
  if (changes.hasFormulaEdits || gone.length > 0) dropCalculationOrder(target, name);
  if (!edits.isEmpty) target.set(name, edits.apply());
}

/** The file's numbers of the sheets in their new order. Sheets that the grid does not show keep their places. */
function sheetOrder(workbook: ReadWorkbook, state: GridState, count: number): number[] {
  const byId = new Map(workbook.sheets.map((sheet) => [sheet.id, sheet.entry.index]));
  const waiting = state.sheets.flatMap(({ id }) => byId.get(id) ?? []);
  const shown = new Set(byId.values());
  const order: number[] = [];
  for (let index = 0; index < count; index += 1) {
    if (!shown.has(index)) order.push(index);
    else {
      const next = waiting.shift();
      if (next !== undefined) order.push(next);
    }
  }
  return [...order, ...waiting];
}

function slice(source: string, sheet: XmlElement | undefined): string {
  return sheet === undefined ? "" : source.slice(sheet.start, sheet.end);
}

function sheetXml(
  source: string,
  sheet: XmlElement | undefined,
  file: ReadSheet | undefined,
  state: GridState,
): string {
  const grid = state.sheets.find(({ id }) => id === file?.id);
  if (sheet === undefined || file === undefined || grid === undefined) return slice(source, sheet);
  const edits = new XmlEdits(source, sheet.start, sheet.end);
  if (grid.name !== file.entry.name) edits.setAttribute(sheet, "name", grid.name);
  const isHidden = grid.sheet.hidden === BooleanNumber.TRUE;
  if (isHidden !== file.entry.isHidden) edits.setAttribute(sheet, "state", isHidden ? "hidden" : undefined);
  return edits.apply();
}

/**
 * The sheet that is shown, and the first of the tabs, by their new numbers.
 * @param shown the number in the file of another one that is to be shown
 */
function writeViews(edits: XmlEdits, root: XmlElement, numbers: SheetNumbers, shown: number | undefined): void {
  for (const view of children(child(root, "bookViews"), "workbookView")) {
    const [active, first] = [wholeNumber(view, "activeTab"), wholeNumber(view, "firstSheet")];
    const present = shown ?? active;
    const number = present === undefined ? undefined : (numbers.get(present) ?? 0);
    // The first sheet is the one where nothing is said.
    if (number !== undefined && number !== (active ?? 0)) edits.setAttribute(view, "activeTab", number);
    if (first !== undefined) edits.setAttribute(view, "firstSheet", numbers.get(first) ?? 0);
  }
}

function dropCalculationOrder(target: WorkbookPackage, workbook: string): void {
  for (const { kind, id } of relationshipsOf(target, workbook)) {
    if (kind === "calcChain") removeRelationship(target, workbook, id);
  }
}
