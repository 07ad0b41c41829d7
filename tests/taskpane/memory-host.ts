/** A workbook in memory behind the pane's interface: tables and cells as plans put them there, and rows as the pane adds them. */
import { fakeOwnSheet } from "./parts/own-sheet/own-sheet-fakes";
import {
  OccupiedCell,
  type CellValue,
  type SelectedCells,
  type TableContent,
  type WorkbookHost,
} from "../../src/taskpane/host/host";
import { cellName } from "../../src/workbook/plan/address";
import type { Block, Content, SheetPlan, WorkbookPlan } from "../../src/workbook/plan/schema";

interface Table {
  name: string;
  sheet: string;
  at: { row: number; column: number };
  headings: string[];
  rows: CellValue[][];
}

export interface MemoryHost extends WorkbookHost {
  readonly sheets: string[];
  readonly tables: Table[];
  readonly plans: WorkbookPlan[];
  /** What was put into the selected cell. */
  readonly inserted: (string | number)[];
  name: string;
  /** The cells that are selected. */
  selected: SelectedCells;
  table(name: string): Table;
  /** Whoever is to be told of changes. */
  readonly listeners: Set<() => Promise<void> | void>;
  /** Tells them, and waits for what they make of it. */
  change(): Promise<void>;
  /** The cells that hold something, by sheet and address such as `7,2`. */
  readonly cells: Map<string, CellValue>;
}

export function memoryHost(plans: readonly WorkbookPlan[] = [], changes: Partial<WorkbookHost> = {}): MemoryHost {
  const cells = new Map<string, CellValue>();
  const key = (sheet: string, row: number, column: number): string => `${sheet} ${String(row)},${String(column)}`;

  const table = (name: string): Table => {
    const found = host.tables.find((one) => one.name === name);
    if (!found) throw new Error(`There is no table ${name}.`);
    return found;
  };

  const take = (sheet: SheetPlan): void => {
    host.sheets.push(sheet.name);
    for (const { at, content } of sheet.cells) cells.set(key(sheet.name, at.row, at.column), plain(content));
    for (const one of sheet.tables) {
      host.tables.push({
        name: one.name,
        sheet: sheet.name,
        at: { ...one.at },
        headings: one.columns.map(({ heading }) => heading),
        rows: one.rows.map((row) => row.map(plain)),
      });
    }
  };

  const later = <Answer>(work: () => Answer): Promise<Answer> => Promise.resolve().then(work);

  const host: MemoryHost = {
    sheets: ["Sheet1"],
    tables: [],
    plans: [],
    inserted: [],
    name: "Larkfield.xlsx",
    selected: { sheet: "Sheet1", block: { row: 2, column: 2, rows: 1, columns: 1 } },
    cells,
    listeners: new Set(),
    change: async () => {
      for (const listener of [...host.listeners]) await listener();
    },
    table,
    namesInUse: () => later(() => ({ sheets: [...host.sheets], tables: host.tables.map(({ name }) => name) })),
    addSheets: (plan, progress) =>
      later(() => {
        host.plans.push(plan);
        plan.sheets.forEach((sheet, index) => {
          progress?.(sheet.name, index + 1, plan.sheets.length);
          take(sheet);
        });
      }),
    ...fakeOwnSheet(),
    insertFormula: (formula) => later(() => (host.inserted.push(formula), "Sheet1!B2")),
    insertValue: (value) => later(() => (host.inserted.push(value), "Sheet1!B2")),
    selection: () => later(() => host.selected),
    putFormula: (formula, { sheet, cell }, replace) =>
      later(() => {
        const at = key(sheet, cell.row, cell.column);
        const address = `'${sheet}'!${cellName(cell)}`;
        if (!replace && (cells.get(at) ?? "") !== "") throw new OccupiedCell(address, `${address} holds something.`);
        cells.set(at, formula);
        host.inserted.push(formula);
        return address;
      }),
    sheetInView: () => later(() => host.selected.sheet),
    whenChanged: (listener) => {
      host.listeners.add(listener);
      return () => void host.listeners.delete(listener);
    },
    workbookName: () => host.name,
    readTables: (names) =>
      later(() =>
        names.map((name): TableContent => {
          const { sheet, at, headings, rows } = table(name);
          return { sheet, at: { ...at }, headings: [...headings], rows: rows.map((row) => [...row]) };
        }),
      ),
    readBlock: (sheet, block: Block) =>
      later(() =>
        Array.from({ length: block.rows }, (_, row) =>
          Array.from(
            { length: block.columns },
            (__, column) => cells.get(key(sheet, block.row + row, block.column + column)) ?? "",
          ),
        ),
      ),
    appendRow: (name, row) =>
      later(() => {
        const to = table(name);
        const last = to.rows.at(-1);
        if (last?.every((value) => value === "")) to.rows.pop();
        to.rows.push(to.headings.map((heading) => plain(row.get(heading) ?? { kind: "empty" })));
        return `'${to.sheet}'!A${String(to.at.row + to.rows.length)}`;
      }),
    addColumns: (name, headings) =>
      later(() => {
        const to = table(name);
        for (const heading of headings.filter((one) => !to.headings.includes(one))) {
          to.headings.push(heading);
          for (const row of to.rows) row.push("");
        }
      }),
    ...changes,
  };
  for (const plan of plans) plan.sheets.forEach(take);
  return host;
}

function plain(content: Content): CellValue {
  switch (content.kind) {
    case "text":
      return content.text;
    case "number":
      return content.value;
    case "date":
      return content.serial;
    case "formula":
    case "empty":
      return "";
  }
}
