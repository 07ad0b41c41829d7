/**
 * A workbook with its answers in its formulas' place: for a program that does not know our functions, and works every
 * formula out anew when it opens a file.
 */
import { FILE_NAMESPACE } from "../workbook/plan/namespace";
import { formulaTokens } from "./formulas/tokens";
import { removeRelationship, removeUnreachable } from "./package/package-editing";
import { relationshipsOf } from "./package/relationships";
import type { WorkbookPackage } from "./package/workbook-package";
import { readWorkbookPart, type WorkbookPart } from "./parts/workbook/read";
import { XmlEdits } from "./xml/edits";
import { child, children, descendants, parseXml, type XmlElement } from "./xml/tree";

interface AnswersOnly {
  readonly package: WorkbookPackage;
  /** What cannot be without a formula that the copy no longer has, and is left out: each in one sentence. */
  readonly losses: readonly string[];
}

/**
 * @param source the workbook with its formulas and their answers of now; it stays as it is
 * @returns a copy in which no cell has a formula; looks, tables, lists, rules, charts and names are in it
 * @throws FileRefused where a part of the workbook is damaged
 */
export function answersOnly(source: WorkbookPackage): AnswersOnly {
  const target = source.copy();
  const workbook = readWorkbookPart(target);
  const lost = lostNames(workbook);
  const losses = [...lost].map((name) => `The name ${name} ${LEFT_OUT}`);
  withoutNames(target, workbook, lost);
  for (const { name, part, isWorksheet } of workbook.sheets) {
    if (!isWorksheet) continue;
    losses.push(...withoutFormulas(target, part, lost).map((what) => `${name}: ${what} ${LEFT_OUT}`));
    for (const { kind, isExternal, target: table } of relationshipsOf(target, part)) {
      if (kind === "table" && !isExternal && target.has(table)) withoutColumnFormulas(target, table);
    }
  }
  withoutRecords(target, workbook);
  removeUnreachable(target, source);
  return { package: target, losses };
}

const LEFT_OUT = "needs a formula that the copy does not hold, and is left out.";

/* ---- cells ---- */

/** @returns what the sheet loses with its formulas, such as a rule */
function withoutFormulas(target: WorkbookPackage, part: string, lost: ReadonlySet<string>): string[] {
  const edits = new XmlEdits(target.text(part));
  const { root } = parseXml(edits.source, {
    parent: "sheetData",
    each: (row) => {
      for (const cell of row.children) if (cell.name === "c") keepAnswer(edits, cell);
    },
  });
  const leans = (element: XmlElement): boolean => element.name in SHEET_THINGS && leansOnLost(element, lost);
  const going = emptied(root, leans);
  for (const element of going) edits.removeElement(element);
  // What a list says of its length may be left out, and must not be wrong.
  for (const list of descendants(root, "dataValidations")) {
    if (list.children.some((inner) => going.includes(inner))) edits.setAttribute(list, "count", undefined);
  }
  if (!edits.isEmpty) target.set(part, edits.apply());
  return Object.entries(SHEET_THINGS).flatMap(([name, words]) => (descendants(root, name).some(leans) ? [words] : []));
}

const SHEET_THINGS: Readonly<Record<string, string>> = {
  cfRule: "a rule that colours cells",
  dataValidation: "a check of what is typed",
};

function keepAnswer(edits: XmlEdits, cell: XmlElement): void {
  let hasFormula = false;
  let hasValue = false;
  for (const inner of cell.children) {
    if (inner.name === "f") {
      edits.removeElement(inner);
      hasFormula = true;
    } else if (inner.name === "v" || inner.name === "is") hasValue = true;
  }
  // A kind without a value is none.
  if (hasFormula && !hasValue) edits.setAttribute(cell, "t", undefined);
  if (cell.attributes["cm"] !== undefined) edits.setAttribute(cell, "cm", undefined);
}

/* ---- what leans on a formula that is gone ---- */

const SPILL_CALL = "_XLFN.ANCHORARRAY";

/** Names of the workbook that lean on one of our functions or on a spill, in a round or two: one name may use another. */
function lostNames({ names }: WorkbookPart): Set<string> {
  const lost = new Set<string>();
  let before: number;
  do {
    before = lost.size;
    for (const { name, formula } of names) if (formulaLeans(formula, lost)) lost.add(name);
  } while (lost.size > before);
  return lost;
}

function formulaLeans(formula: string, lost: ReadonlySet<string>): boolean {
  return formulaTokens(formula).some(({ kind, text }) => {
    const name = text.toUpperCase();
    if (kind === "call") return name === SPILL_CALL || name.startsWith(FILE_NAMESPACE.toUpperCase());
    return kind === "word" && [...lost].some((one) => one.toUpperCase() === name);
  });
}

/** Whether any formula in the element does: of a rule, of a bar's end in it, of a check. */
function leansOnLost(element: XmlElement, lost: ReadonlySet<string>): boolean {
  return (
    [element.text, element.attributes["val"] ?? ""].some((formula) => formulaLeans(formula, lost)) ||
    element.children.some((inner) => leansOnLost(inner, lost))
  );
}

/** The elements that are meant, and each that holds nothing without them; of what lies in another only the outer one. */
function emptied(element: XmlElement, isMeant: (element: XmlElement) => boolean): XmlElement[] {
  if (isMeant(element)) return [element];
  const going = element.children.flatMap((inner) => emptied(inner, isMeant));
  const keeps = element.children.some((inner) => inner.name !== "sqref" && !going.includes(inner));
  return going.length === 0 || keeps ? going : [element];
}

function withoutNames(target: WorkbookPackage, workbook: WorkbookPart, lost: ReadonlySet<string>): void {
  const edits = new XmlEdits(workbook.source);
  const isLost = ({ name, attributes }: XmlElement): boolean =>
    name === "definedName" && lost.has(attributes["name"] ?? "");
  for (const element of emptied(workbook.root, isLost)) edits.removeElement(element);
  if (!edits.isEmpty) target.set(workbook.name, edits.apply());
}

/* ---- what says elsewhere that a cell has a formula ---- */

function withoutColumnFormulas(target: WorkbookPackage, part: string): void {
  const edits = new XmlEdits(target.text(part));
  for (const column of descendants(parseXml(edits.source).root, "tableColumn")) {
    for (const inner of column.children) {
      if (inner.name === "calculatedColumnFormula" || inner.name === "totalsRowFormula") edits.removeElement(inner);
    }
    if (column.attributes["totalsRowFunction"] !== undefined) {
      edits.setAttribute(column, "totalsRowFunction", undefined);
    }
  }
  if (!edits.isEmpty) target.set(part, edits.apply());
}

/** The order of calculation, cells that listen to other programs, and which formulas spill. */
function withoutRecords(target: WorkbookPackage, { name, relationships }: WorkbookPart): void {
  for (const { kind, id, target: part } of relationships) {
    const isWhole = kind === "sheetMetadata" && keepsValueRecords(target, part);
    if (isWhole) withoutCellRecords(target, part);
    else if (["calcChain", "volatileDependencies", "sheetMetadata"].includes(kind)) {
      removeRelationship(target, name, id);
    }
  }
}

/** Pictures and linked data inside cells have their records in the same part, and stay. */
function keepsValueRecords(target: WorkbookPackage, part: string): boolean {
  return target.has(part) && child(parseXml(target.text(part)).root, "valueMetadata") !== undefined;
}

function withoutCellRecords(target: WorkbookPackage, part: string): void {
  const edits = new XmlEdits(target.text(part));
  for (const records of children(parseXml(edits.source).root, "cellMetadata")) edits.removeElement(records);
  if (!edits.isEmpty) target.set(part, edits.apply());
}
