/**
 * Days as clubs type and paste them. The grid reads what is typed as Americans write it and nothing else: 13/10/2026 stays a
 * text, 03/04/2026 is a day of March for everybody, and 10 in a cell for days is the 10th of January 1900. Here each cell
 * for days (formatted as one, or checked to hold one) is read by the one reader of days, in the order of the page's
 * language, and what is none is refused in words.
 */
import "@univerjs/sheets/facade";
import "@univerjs/sheets-table/facade";
import {
  CellValueType,
  DataValidationType,
  getNumfmtParseValueFilter,
  type ICellData,
  type IMutationInfo,
  type Injector,
  type ISheetDataValidationRule,
  isTextFormat,
  IUniverInstanceService,
  type Nullable,
  numfmt,
  type ObjectMatrix,
  UniverInstanceType,
  type Workbook,
  type Worksheet,
} from "@univerjs/core";
import { DataValidatorRegistryService } from "@univerjs/data-validation";
import {
  AFTER_CELL_EDIT,
  type ISetRangeValuesMutationParams,
  SetRangeValuesMutation,
  SetRangeValuesUndoMutationFactory,
  SheetInterceptorService,
} from "@univerjs/sheets";
import { SheetDataValidationModel } from "@univerjs/sheets-data-validation";
import { TableManager } from "@univerjs/sheets-table";
import { ISheetClipboardService } from "@univerjs/sheets-ui";

import {
  dayOrder,
  type DayOrder,
  numberedDayTyped,
  pastedNoDays,
  showsDay,
  type TypedDay,
  typedDay,
} from "../../taskpane/words/typed-day";
import { cellName } from "../../workbook/plan/address";
import { tableNames } from "../../workbook/season/season";
import type { GridCell } from "../engine/messages";

interface TypedDaysOptions {
  /** Told which pasted cells are no days: they are not refused, since that would lose the rest of the block. */
  readonly tell: (words: string) => void;
  readonly order?: () => DayOrder;
  readonly now?: () => Date;
}

interface TypedDays {
  /** Why the text that was just typed into a cell is refused where no rule of the sheet says so; undefined where it is not. */
  refusal(cell: GridCell): string | undefined;
}

/** Has days read from now on, once the grid is drawn: the grid's own readers are there by then. */
export function readTypedDays(
  injector: Injector,
  { tell, order = dayOrder, now = () => new Date() }: TypedDaysOptions,
): TypedDays {
  const reader = new DayReader(injector, order, now);
  const typed = readWhatIsTyped(injector, reader);
  checkDays(injector, reader);
  readWhatIsPasted(injector, reader, tell);
  return typed;
}

/** What a text is in its cell. Undefined: none of this file's business, and the grid reads it. */
type Reading =
  | { readonly kind: "day"; readonly serial: number; readonly pattern: string }
  /** A cell for days, and this is none. */
  | { readonly kind: "refused"; readonly words: string; readonly checked: boolean }
  | undefined;

class DayReader {
  private readonly rules: SheetDataValidationModel;
  private readonly tables: TableManager;

  constructor(
    injector: Injector,
    private readonly order: () => DayOrder,
    private readonly now: () => Date,
  ) {
    this.rules = injector.get(SheetDataValidationModel);
    this.tables = injector.get(TableManager);
  }

  read(worksheet: Worksheet, row: number, column: number, text: string): Reading {
    if (text.trim() === "") return undefined;
    const pattern = worksheet.getComposedCellStyle(row, column)?.n?.pattern ?? "";
    const checked = this.isChecked(worksheet, row, column);
    if (!checked && isTextFormat(pattern)) return undefined;
    const isForDays = showsDay(pattern);
    if (!checked && !isForDays) return this.elsewhere(text);
    // What the editor shows of a day that is there already comes back as it was: 03/04/2026 may be written in another order.
    const held = worksheet.getCellRaw(row, column);
    if (isForDays && typeof held?.v === "number" && numfmt.format(pattern, held.v) === text) {
      return { kind: "day", serial: held.v, pattern };
    }
    const { day, time } = isForDays ? withTime(text, pattern) : { day: text, time: 0 };
    const read = this.readDay(worksheet, day);
    if (read.kind === "day") {
      return { kind: "day", serial: read.serial + time, pattern: isForDays ? pattern : USUAL_PATTERN };
    }
    // Where nothing is checked a word may stand; what the grid would take for a number of days may not.
    if (!checked && read.isNoDay && getNumfmtParseValueFilter(text.trim()) === null) return undefined;
    return { kind: "refused", words: read.words, checked };
  }

  /** What is wrong with a text in a cell for days; undefined where nothing is. */
  wordsFor(worksheet: Worksheet, text: string): string | undefined {
    const read = this.readDay(worksheet, text);
    return read.kind === "wrong" ? read.words : undefined;
  }

  wordsForPasted(cells: readonly string[]): string {
    const named = cells.slice(0, CELLS_NAMED).join(", ") + (cells.length > CELLS_NAMED ? ", …" : "");
    return pastedNoDays(cells.length, named, this.order(), this.now());
  }

  /** In any other cell: a whole day in numbers, which the grid would read as Americans write it. */
  private elsewhere(text: string): Reading {
    const read = numberedDayTyped(text, this.order());
    return read === null ? undefined : { kind: "day", ...read };
  }

  private readDay(worksheet: Worksheet, text: string): TypedDay {
    const tables = this.tables
      .getTableList(worksheet.getUnitId())
      .filter(({ subUnitId }) => subUnitId === worksheet.getSheetId());
    const isCalendar = tables.some(({ name }) => CALENDARS.some((start) => name.startsWith(start)));
    return typedDay(text, { of: isCalendar ? "calendar" : "log", order: this.order(), now: this.now() });
  }

  private isChecked(worksheet: Worksheet, row: number, column: number): boolean {
    const rule = this.rules.getRuleByLocation(worksheet.getUnitId(), worksheet.getSheetId(), row, column);
    return rule?.type === DataValidationType.DATE;
  }
}

/** Sheets with one of these tables hold days that come as well as days that have been. */
const CALENDARS = [tableNames("").contests, tableNames("").athletes];

/** For a cell that is checked to hold a day and not formatted as one. */
const USUAL_PATTERN = "d mmm yyyy";

/** A time of day behind the day, where the cell shows one. */
function withTime(text: string, pattern: string): { readonly day: string; readonly time: number } {
  const found = /h/i.test(pattern) ? /^(.*\S)\s+(\d{1,2}:\d{2}.*)$/.exec(text.trim()) : null;
  const time = found?.[2] === undefined ? null : numfmt.parseTime(found[2]);
  if (typeof time?.v !== "number" || found?.[1] === undefined) return { day: text, time: 0 };
  return { day: found[1], time: time.v };
}

/* ---- typing ---- */

/** Before the grid's own reading of numbers. */
const FIRST = 100;

function readWhatIsTyped(injector: Injector, reader: DayReader): TypedDays {
  /** What was typed last and is refused, in a cell that no rule checks. */
  let refused: { readonly cell: GridCell; readonly words: string } | null = null;
  injector.get(SheetInterceptorService).writeCellInterceptor.intercept(AFTER_CELL_EDIT, {
    priority: FIRST,
    handler: (cell, { worksheet, row, col }, next) => {
      refused = null;
      const text = typedText(cell);
      const reading = text === undefined ? undefined : reader.read(worksheet, row, col, text);
      if (reading === undefined || text === undefined) return next(cell);
      if (reading.kind === "day") return next({ ...cell, ...dayCell(worksheet, row, col, reading) });
      if (!reading.checked) {
        refused = { cell: { sheetId: worksheet.getSheetId(), row, column: col }, words: reading.words };
      }
      return next({ ...cell, v: text, t: CellValueType.FORCE_STRING, p: null });
    },
  });
  return {
    refusal: ({ sheetId, row, column }) => {
      const { cell, words } = refused ?? {};
      return cell?.sheetId === sheetId && cell.row === row && cell.column === column ? words : undefined;
    },
  };
}

/** Undefined for a formula, for nothing, and for a text that is typed as one by an apostrophe. */
function typedText(cell: Nullable<ICellData>): string | undefined {
  if (!cell || cell.f || cell.t === CellValueType.FORCE_STRING || cell.t === CellValueType.BOOLEAN) return undefined;
  const text = cell.p?.body?.dataStream.replace(/\r\n$/, "") ?? cell.v;
  return typeof text === "string" ? text : undefined;
}

function dayCell(
  worksheet: Worksheet,
  row: number,
  column: number,
  { serial, pattern }: Extract<Reading, { kind: "day" }>,
): ICellData {
  const shown = worksheet.getComposedCellStyle(row, column)?.n?.pattern;
  const style = worksheet.getCellStyle(row, column);
  return {
    v: serial,
    t: CellValueType.NUMBER,
    p: null,
    ...(shown === pattern ? {} : { s: { ...style, n: { pattern } } }),
  };
}

/* ---- what the check says ---- */

function checkDays(injector: Injector, reader: DayReader): void {
  const validator = injector.get(DataValidatorRegistryService).getValidatorItem(DataValidationType.DATE);
  if (!validator) throw new Error("The grid checks no days.");
  // Its own way asks whether the text that the cell shows is an American day.
  validator.isValidType = ({ value, t }) =>
    Promise.resolve(typeof value === "number" || (t === CellValueType.NUMBER && Number.isFinite(Number(value))));
  const original = validator.getRuleFinalError.bind(validator);
  validator.getRuleFinalError = (rule: ISheetDataValidationRule, place) => {
    const worksheet = sheetOf(injector, place.unitId, place.subUnitId);
    const held = worksheet?.getCellRaw(place.row, place.col);
    const isText = typeof held?.v === "string" && held.t !== CellValueType.NUMBER;
    // Better than what the sheet says, which has neither what was typed nor the order of this page's language.
    const own = worksheet && isText ? reader.wordsFor(worksheet, String(held.v)) : undefined;
    return own ?? original(rule, place);
  };
}

function sheetOf(injector: Injector, unitId: string, sheetId: string): Worksheet | undefined {
  const workbook = injector.get(IUniverInstanceService).getUnit<Workbook>(unitId, UniverInstanceType.UNIVER_SHEET);
  return workbook?.getSheetBySheetId(sheetId) ?? undefined;
}

/* ---- pasting ---- */

interface Mutations {
  readonly redos: IMutationInfo[];
  readonly undos: IMutationInfo[];
}

const NOTHING: Mutations = { redos: [], undos: [] };
const CELLS_NAMED = 3;

function readWhatIsPasted(injector: Injector, reader: DayReader, tell: (words: string) => void): void {
  const clipboard = injector.get(ISheetClipboardService);
  const sayRefused = (cells: readonly string[]): void => {
    if (cells.length === 0) return;
    tell(reader.wordsForPasted(cells));
  };
  // Ahead of the grid's own hook, which reads the texts of the block that is handed to it.
  clipboard.addClipboardHook({
    id: "twirl-ledger-days-of-a-block",
    priority: -FIRST,
    onPasteCells: (from, { unitId, subUnitId, range }, block) => {
      const worksheet = from === null ? sheetOf(injector, unitId, subUnitId) : undefined;
      if (!worksheet) return NOTHING;
      const refused: string[] = [];
      block.forValue((at, across, cell) => {
        const [row, column] = [range.rows[at], range.cols[across]];
        if (row === undefined || column === undefined || !cell) return;
        const text = typeof cell.v === "string" ? cell.v : cell.p?.body?.dataStream.replace(/\r\n$/, "");
        const reading = text === undefined ? undefined : reader.read(worksheet, row, column, text);
        if (reading === undefined || text === undefined) return;
        if (reading.kind === "refused") refused.push(cellName({ row: row + 1, column: column + 1 }));
        replaceInBlock(block, at, across, cell, reading, text);
      });
      sayRefused(refused);
      return NOTHING;
    },
  });
  // Behind it: what it made of a single text is written over.
  clipboard.addClipboardHook({
    id: "twirl-ledger-day-of-a-text",
    priority: FIRST,
    onPastePlainText: ({ unitId, subUnitId, range }, text) => {
      const [worksheet, row, column] = [sheetOf(injector, unitId, subUnitId), range.rows[0], range.cols[0]];
      const reading =
        worksheet && row !== undefined && column !== undefined ? reader.read(worksheet, row, column, text) : undefined;
      if (!worksheet || row === undefined || column === undefined || reading === undefined) return NOTHING;
      const cell: ICellData =
        reading.kind === "day"
          ? { ...dayCell(worksheet, row, column, reading), s: { n: { pattern: reading.pattern } } }
          : { v: text, t: CellValueType.FORCE_STRING, s: { n: worksheet.getCellStyle(row, column)?.n ?? null } };
      if (reading.kind === "refused") sayRefused([cellName({ row: row + 1, column: column + 1 })]);
      const params: ISetRangeValuesMutationParams = {
        unitId,
        subUnitId,
        cellValue: { [row]: { [column]: { ...cell, f: null, p: null } } },
      };
      return {
        redos: [{ id: SetRangeValuesMutation.id, params }],
        undos: [{ id: SetRangeValuesMutation.id, params: SetRangeValuesUndoMutationFactory(injector, params) }],
      };
    },
  });
}

type PastedBlock = ObjectMatrix<ICellData & { s?: ICellData["s"] }>;

function replaceInBlock(
  block: PastedBlock,
  at: number,
  across: number,
  cell: ICellData,
  reading: Exclude<Reading, undefined>,
  text: string,
): void {
  const style = typeof cell.s === "object" && cell.s !== null ? cell.s : {};
  if (reading.kind === "day") {
    const day: ICellData = { ...cell, v: reading.serial, t: CellValueType.NUMBER };
    delete day.p;
    block.setValue(at, across, { ...day, s: { ...style, n: { pattern: reading.pattern } } });
    return;
  }
  // With a document beside it the grid does not look for a number in the text.
  const p = { id: "pasted", documentStyle: {}, body: { dataStream: `${text}\r\n` } };
  block.setValue(at, across, { ...cell, v: text, t: CellValueType.FORCE_STRING, p });
}
