/** Names that were given, changed or taken away in the grid, back in the file. */
import { element, escapeText } from "../../../xlsx/xml/write";
import { isFormula } from "../../../xlsx/formulas/check";
import { writeFormula } from "../../../xlsx/formulas/writing";
import type { GridState } from "../grid-state";
import { EVERY_SHEET, type GridName, nameId } from "./read";
import type { ReadWorkbook } from "../open";
import type { XmlElement } from "../../../xlsx/xml/tree";

/** Where sheets stood and where they stand: by the file's number, the new one, or undefined for a sheet that is gone. */
export type SheetNumbers = ReadonlyMap<number, number | undefined>;

/**
 * All names as the workbook's part lists them, or undefined where none has changed.
 * @param sheetNumber the new number of a sheet by the grid's id
 */
export function namesXml(
  workbook: ReadWorkbook,
  state: GridState,
  elements: readonly XmlElement[],
  numbers: SheetNumbers,
  sheetNumber: (id: string) => number | undefined,
  prefix: string,
): string[] | undefined {
  const before = workbook.names.names;
  const changed = new Set<string>();
  for (const id of new Set([...Object.keys(before), ...Object.keys(state.names)])) {
    if (!sameName(before[id], state.names[id])) changed.add(id);
  }
  const isMoved = [...numbers].some(([from, to]) => from !== to);
  if (changed.size === 0 && !isMoved) return undefined;

  const kept = elements.flatMap((xml, index): string[] => {
    const id = nameId(index);
    if (changed.has(id)) return [];
    const local = xml.attributes["localSheetId"];
    const number = local === undefined ? undefined : numbers.get(Number(local));
    // A name that held in one sheet only goes with it.
    if (local !== undefined && number === undefined) return [];
    return [element(xml.qualifiedName, { ...xml.attributes, localSheetId: number }, escapeText(xml.text))];
  });
  const written = [...changed].flatMap((id) => {
    const name = state.names[id];
    return name === undefined ? [] : nameXml(name, sheetNumber, prefix);
  });
  return [...kept, ...written];
}

function sameName(one: GridName | undefined, other: GridName | undefined): boolean {
  if (one === undefined || other === undefined) return one === other;
  const parts = ({ name, formulaOrRefString, comment, localSheetId, hidden }: GridName): string =>
    JSON.stringify([name, formulaOrRefString, comment || "", localSheetId || EVERY_SHEET, Boolean(hidden)]);
  return parts(one) === parts(other);
}

function nameXml(name: GridName, sheetNumber: (id: string) => number | undefined, prefix: string): string[] {
  const formula = name.formulaOrRefString.replace(/^=/, "");
  if (!isFormula(formula)) return [];
  const isEverywhere = !name.localSheetId || name.localSheetId === EVERY_SHEET;
  const number = isEverywhere ? undefined : sheetNumber(name.localSheetId);
  if (!isEverywhere && number === undefined) return [];
  return [
    element(
      `${prefix}definedName`,
      {
        name: name.name,
        localSheetId: number,
        hidden: name.hidden ? 1 : undefined,
        comment: name.comment || undefined,
      },
      escapeText(writeFormula(formula)),
    ),
  ];
}
