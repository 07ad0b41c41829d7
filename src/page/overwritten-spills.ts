/**
 * A key pressed by mistake on cells that a formula fills. A letter there is in the formula's way, which then shows `#SPILL!`
 * in place of a whole board; on the formula's own cell it takes the formula's place; Delete does nothing that one could
 * see. The page says what has happened, and puts it back.
 */
import "@univerjs/sheets/facade";
import {
  type ICellData,
  ICommandService,
  type Injector,
  type IRange,
  type Nullable,
  type Worksheet,
} from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { FormulaDataModel, FormulaExecutedStateType } from "@univerjs/engine-formula";
import { type ISetRangeValuesMutationParams, SetRangeValuesMutation } from "@univerjs/sheets";

import { blockName, cellName } from "../workbook/plan/address";
import { valueAt } from "../grid/grid";
import { type CellMatrix, writeCells } from "../grid/mends/growing-tables";
import type { GridCell } from "../grid/engine/messages";
import { byId } from "./page-state";

/** A formula that fills further cells. */
interface Spill {
  readonly unitId: string;
  readonly sheetId: string;
  /** The cells that it fills; the first is its own. */
  readonly filled: IRange;
}

/** A cell that was written to, among those that a formula fills. */
interface Hit extends GridCell, Spill {
  /** What it held before, of its own. */
  readonly former: ICellData;
}

interface Notice {
  readonly sentence: string;
  readonly buttons: readonly NoticeButton[];
}

interface NoticeButton {
  readonly words: string;
  readonly act: () => void;
}

interface SpillNotice {
  /** Says anew what is true now: after a calculation. */
  refresh(): void;
}

export function spillNotice(api: FUniver, injector: Injector): SpillNotice {
  const model = injector.get(FormulaDataModel);
  const strip = byId("spill-notice");
  /** By their places, as they were before they were first written to. */
  let hits = new Map<string, Hit>();
  /** Those of them that leave a formula without room, or have taken its place. */
  let broken: readonly Hit[] = [];
  /** As the last calculation has left them: by the time that a write is told of, the engine has let go of what it hits. */
  let spills: readonly Spill[] = [];
  /** What was written to since the last calculation began, which knows nothing of it. */
  const fresh = new Set<string>();
  /** Formulas whose room was taken on purpose, by the places of their own cells. */
  const left = new Map<string, Spill>();
  /** A cell of a spill that somebody has tried to delete: it is empty until a calculation has filled it again. */
  let nothing: Hit | undefined;
  /** Whether what is said needs no mending, and goes with the next thing that is written. */
  let passing = false;

  let said = JSON.stringify(null);
  const show = (shown: Notice | null): void => {
    const key = JSON.stringify(shown);
    // What stays the same stays where it is: one of its buttons may just be pressed.
    if (key === said) return;
    said = key;
    strip.hidden = shown === null;
    const parts = shown === null ? [] : [shown.sentence, ...shown.buttons.map(buttonOf)];
    strip.replaceChildren(...parts.flatMap((part) => [part, " "]));
    // The grid fits itself to the room that is left when it is told that the window's size has changed.
    window.dispatchEvent(new Event("resize"));
  };
  const close = (): void => {
    passing = false;
    show(null);
  };
  const leave = (): void => {
    for (const hit of broken) left.set(keyOfFormula(hit), hit);
    hits = new Map();
    close();
  };

  injector.get(ICommandService).beforeCommandExecuted(({ id, params }, options) => {
    if (id !== SetRangeValuesMutation.id) return;
    const write = params as ISetRangeValuesMutationParams;
    // Answers are written the same way; the formula that is typed over is taken away by a write before the typed one.
    const isByHand = options?.fromFormula !== true;
    if (passing && isByHand) close();
    const sheet = sheetOf(api, write.unitId, write.subUnitId);
    if (sheet === undefined) return;
    // A formula that has no room any more fills nothing, and what else is typed there is in its way too.
    const filled = [...spills, ...hits.values()].filter(
      (spill) => spill.unitId === write.unitId && spill.sheetId === write.subUnitId && !left.has(keyOfFormula(spill)),
    );
    const { changed, deleted } = hitsOf(write, filled, sheet);
    for (const hit of changed) {
      const place = placeOf(hit);
      if (!hits.has(place)) hits.set(place, hit);
      fresh.add(place);
    }
    // More than one write may come of one key, and answers are written after it.
    if (isByHand) nothing = changed.length > 0 ? undefined : (deleted[0] ?? nothing);
  });

  const refresh = (): void => {
    for (const [key, spill] of left) if (!isBlocked(api, spill)) left.delete(key);
    const found = [...hits.values()].filter((hit) => sheetOf(api, hit.unitId, hit.sheetId) !== undefined);
    const lost = found.filter((hit) => isOwnCell(hit) && hasLostFormula(api, hit));
    broken = found.filter((hit) => lost.includes(hit) || isInTheWay(api, hit, lost));
    hits = new Map(
      found
        .filter((hit) => broken.includes(hit) || fresh.has(placeOf(hit)))
        .map((hit): [string, Hit] => [placeOf(hit), hit]),
    );
    if (broken.length > 0) {
      passing = false;
      const putBackButton = { words: "Put it back as it was", act: () => putBack(api, broken) };
      show(brokenNotice(api, broken, [putBackButton, { words: "Leave it so", act: leave }]));
    } else if (nothing && holds(valueAt(api, nothing))) {
      passing = true;
      show({ sentence: deletedNothing(nothing), buttons: [{ words: "Close", act: close }] });
      nothing = undefined;
    } else if (!passing) close();
  };

  const formulas = api.getFormula();
  formulas.calculationStart(() => fresh.clear());
  formulas.calculationEnd((end) => {
    if (end !== FormulaExecutedStateType.STOP_EXECUTION) spills = spillsOf(model);
  });
  return { refresh };
}

/* ---- what was hit ---- */

interface Hits {
  readonly changed: readonly Hit[];
  /** Cells that held nothing of their own before, and hold nothing now. */
  readonly deleted: readonly Hit[];
}

function hitsOf(write: ISetRangeValuesMutationParams, spills: readonly Spill[], sheet: Worksheet): Hits {
  const { unitId, subUnitId: sheetId, cellValue } = write;
  const [changed, deleted]: [Hit[], Hit[]] = [[], []];
  if (spills.length === 0) return { changed, deleted };
  for (const [rowKey, cells] of Object.entries(cellValue ?? {})) {
    const row = Number(rowKey);
    const here = spills.filter(({ filled }) => row >= filled.startRow && row <= filled.endRow);
    if (here.length === 0) continue;
    for (const [columnKey, written] of Object.entries((cells ?? {}) as Record<string, Nullable<ICellData>>)) {
      const column = Number(columnKey);
      const spill = here.find(({ filled }) => column >= filled.startColumn && column <= filled.endColumn);
      if (spill === undefined || !changesContent(written)) continue;
      const former = { ...sheet.getCellRaw(row, column) };
      const kind = holdsSomething(written) || holdsSomething(former) ? changed : deleted;
      kind.push({ unitId, sheetId, row, column, filled: spill.filled, former });
    }
  }
  return { changed, deleted };
}

function spillsOf(model: FormulaDataModel): Spill[] {
  return Object.entries(model.getArrayFormulaRange()).flatMap(([unitId, sheets]) =>
    Object.entries(sheets ?? {}).flatMap(([sheetId, rows]) =>
      Object.values(rows ?? {})
        .flatMap((cells) => Object.values((cells ?? {}) as Record<string, IRange | null>))
        .flatMap((filled) => (filled ? [{ unitId, sheetId, filled: { ...filled } }] : [])),
    ),
  );
}

function changesContent(written: Nullable<ICellData>): boolean {
  return !written || "v" in written || "f" in written || "p" in written;
}

function holdsSomething(cell: Nullable<ICellData>): boolean {
  return Boolean(cell?.f) || Boolean(cell?.si) || Boolean(cell?.p) || holds(cell?.v);
}

function holds(value: unknown): boolean {
  return value !== undefined && value !== null && value !== "";
}

function placeOf({ unitId, sheetId, row, column }: Hit): string {
  return [unitId, sheetId, row, column].join(" ");
}

function sheetOf(api: FUniver, unitId: string, sheetId: string): Worksheet | undefined {
  const workbook = api.getActiveWorkbook();
  return workbook?.getId() === unitId ? workbook.getSheetBySheetId(sheetId)?.getSheet() : undefined;
}

function ownCell(api: FUniver, { unitId, sheetId, row, column }: Hit): Nullable<ICellData> {
  return sheetOf(api, unitId, sheetId)?.getCellRaw(row, column);
}

function isOwnCell({ row, column, filled }: Hit): boolean {
  return row === filled.startRow && column === filled.startColumn;
}

function hasLostFormula(api: FUniver, hit: Hit): boolean {
  const now = ownCell(api, hit);
  return Boolean(hit.former.f ?? hit.former.si) && !(now?.f ?? now?.si);
}

function isInTheWay(api: FUniver, hit: Hit, lost: readonly Hit[]): boolean {
  if (isOwnCell(hit) || !holdsSomething(ownCell(api, hit))) return false;
  // It would be, once the formula is back.
  return lost.some((own) => keyOfFormula(own) === keyOfFormula(hit)) || isBlocked(api, hit);
}

function isBlocked(api: FUniver, { sheetId, filled }: Spill): boolean {
  return valueAt(api, { sheetId, row: filled.startRow, column: filled.startColumn }) === "#SPILL!";
}

function keyOfFormula({ unitId, sheetId, filled }: Spill): string {
  return [unitId, sheetId, filled.startRow, filled.startColumn].join(" ");
}

/* ---- what is said and done ---- */

function nameOf({ row, column }: { readonly row: number; readonly column: number }): string {
  return cellName({ row: row + 1, column: column + 1 });
}

function formulaCell({ filled }: Hit): string {
  return nameOf({ row: filled.startRow, column: filled.startColumn });
}

function brokenNotice(api: FUniver, broken: readonly Hit[], buttons: readonly NoticeButton[]): Notice | null {
  const hit = broken.find(isOwnCell) ?? broken[0];
  if (hit === undefined) return null;
  const sheet = api.getActiveWorkbook()?.getSheetBySheetId(hit.sheetId)?.getSheetName() ?? "";
  const { startRow, startColumn, endRow, endColumn } = hit.filled;
  const filled = blockName({
    row: startRow + 1,
    column: startColumn + 1,
    rows: endRow - startRow + 1,
    columns: endColumn - startColumn + 1,
  });
  const sentence = isOwnCell(hit)
    ? `${sheet}: the formula in ${formulaCell(hit)}, which fills ${filled}, is gone. Ctrl+Z puts it back, or:`
    : `${sheet}: ${nameOf(hit)} is filled by the formula in ${formulaCell(hit)}, and what stands in it now leaves that formula no room. Ctrl+Z takes it out, or:`;
  return { sentence, buttons };
}

function deletedNothing(hit: Hit): string {
  return `${nameOf(hit)} keeps what it shows: the formula in ${formulaCell(hit)} fills it, and it changes with what that formula reads.`;
}

function buttonOf({ words, act }: NoticeButton): HTMLButtonElement {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = words;
  button.addEventListener("click", () => {
    act();
    // Not to the sheet itself: the next key would go to the same cell.
    byId("to-sheet").focus();
  });
  return button;
}

/** What the cells held of their own, in one step for Undo on each sheet. */
function putBack(api: FUniver, hits: readonly Hit[]): void {
  const bySheet = new Map<string, CellMatrix>();
  for (const { sheetId, row, column, former } of hits) {
    const cells = bySheet.get(sheetId) ?? {};
    bySheet.set(sheetId, cells);
    // What is worked out comes back by itself.
    const content =
      (former.f ?? former.si)
        ? { f: former.f ?? null, si: former.si ?? null, v: null }
        : { v: former.v ?? null, f: null, si: null };
    (cells[row] ??= {})[column] = { ...content, p: former.p ?? null, t: former.t ?? null, s: former.s ?? null };
  }
  for (const [sheetId, cells] of bySheet) {
    const sheet = api.getActiveWorkbook()?.getSheetBySheetId(sheetId);
    if (sheet) writeCells(sheet, cells);
  }
}
