/**
 * The calls of Office.js by which a club's log is read and formulas are repaired, over sheets that hold whatever a test
 * puts there. As strict as the other fake: nothing is read before it was loaded and a sync has brought it, nothing that
 * is not known is called; too much asked for at once is refused, and so is writing to a protected sheet.
 */
import { FakeHostError, Loaded, strict } from "./fake-office";

export interface HeldCell {
  /** As the cell shows it; for a formula what it answers. */
  readonly value: string | number | boolean;
  readonly formula?: string;
  readonly format?: string;
  readonly text?: string;
  /** The address of the cell whose formula spills into this one. */
  readonly spilledFrom?: string;
}

export interface HeldSheet {
  readonly name: string;
  /** By address, such as `B2`. */
  readonly cells: Map<string, HeldCell>;
  readonly protected?: boolean;
  readonly tables?: readonly HeldTable[];
}

export interface HeldTable {
  readonly name: string;
  /** Headings, rows and the row of sums where there is one. */
  readonly area: string;
  readonly totals?: boolean;
  readonly showHeaders?: boolean;
}

export interface SheetsOptions {
  readonly sheets: readonly HeldSheet[];
  readonly active: string;
  /** The address of what is selected there. */
  readonly selected: string;
  /** Cells that one answer may hold. */
  readonly mostCells?: number;
  /** What a formula that is written answers; its error name where the host does not know it. */
  readonly answer?: (formula: string) => string | number;
  /** Addresses, with the sheet's name and `!` before them, that the host refuses to write to. */
  readonly refusedCells?: readonly string[];
  /** The sync, counted from 1, at which the connection goes: half of what was asked for is done, and nothing after. */
  readonly goneAtSync?: number;
}

export interface FakeSheets {
  readonly context: Excel.RequestContext;
  readonly syncs: () => number;
  /** The largest number of cells that one sync was asked for. */
  readonly largest: () => number;
  /** `Log!B2 = =TWIRL…` for each cell that was written, `Log!B2 selected`, `Log activated`. */
  readonly done: readonly string[];
}

interface Area {
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

export function fakeSheets(options: SheetsOptions): FakeSheets {
  const world = new World(options);
  const { queue } = world;
  const context = strict({
    workbook: strict({
      worksheets: strict({
        load: (names: string) => world.sheets.load(names),
        get items(): readonly object[] {
          return world.sheets.read<readonly HeldSheet[]>("items/name").map((sheet) => world.sheet(sheet));
        },
        getItemOrNullObject: (name: string) => world.sheet(options.sheets.find((sheet) => sheet.name === name)),
      }),
      getSelectedRange: () => world.range(world.held(options.active), areaOf(options.selected)),
    }),
    sync: async (): Promise<void> => {
      await Promise.resolve();
      world.syncs += 1;
      world.largest = Math.max(world.largest, world.asked);
      const tooMuch = world.asked > (options.mostCells ?? Infinity);
      world.asked = 0;
      const work = queue.splice(0);
      if (tooMuch) throw new FakeHostError("ResponsePayloadSizeLimitExceeded", "Too much at once");
      if (world.syncs > (options.goneAtSync ?? Infinity)) throw new FakeHostError("GeneralException", "Gone");
      if (world.syncs === options.goneAtSync) {
        for (const one of work.slice(0, Math.floor(work.length / 2))) one();
        throw new FakeHostError("GeneralException", "Gone");
      }
      for (const one of work) one();
    },
  });
  return {
    context: context as unknown as Excel.RequestContext,
    syncs: () => world.syncs,
    largest: () => world.largest,
    done: world.done,
  };
}

class World {
  readonly queue: (() => void)[] = [];
  readonly done: string[] = [];
  readonly sheets: Loaded;
  syncs = 0;
  asked = 0;
  largest = 0;

  constructor(readonly options: SheetsOptions) {
    this.sheets = this.loaded({ "items/name": () => options.sheets });
  }

  loaded(sources: Readonly<Record<string, () => unknown>>): Loaded {
    return new Loaded({ queue: (work) => this.queue.push(work) }, sources);
  }

  held(name: string): HeldSheet {
    const found = this.options.sheets.find((sheet) => sheet.name === name);
    if (!found) throw new FakeHostError("ItemNotFound", name);
    return found;
  }

  sheet(held: HeldSheet | undefined): object {
    const loaded = this.loaded({ name: () => held?.name });
    const protection = this.loaded({ protected: () => held?.protected === true });
    const there = (): HeldSheet => {
      if (!held) throw new FakeHostError("ItemNotFound", "There is no such sheet");
      return held;
    };
    // The real names of a collection's items are known as soon as the collection is.
    if (held) loaded.load("name");
    return strict({
      load: (names: string) => loaded.load(names),
      get name(): string {
        return held ? held.name : loaded.read<string>("name");
      },
      get isNullObject(): boolean {
        return loaded.read("name") === undefined;
      },
      protection: strict({
        load: (names: string) => protection.load(names),
        get protected(): boolean {
          return protection.read("protected");
        },
      }),
      activate: () => this.queue.push(() => this.done.push(`${there().name} activated`)),
      getUsedRangeOrNullObject: (valuesOnly: boolean) => {
        if (typeof valuesOnly !== "boolean") throw new Error("Say whether formatted cells count as used");
        return this.range(there(), usedArea(there()));
      },
      getRangeByIndexes: (row: number, column: number, rows: number, columns: number) => {
        if (![row, column, rows, columns].every(Number.isInteger) || row < 0 || column < 0 || rows < 1 || columns < 1) {
          throw new FakeHostError("InvalidArgument", [row, column, rows, columns].join(", "));
        }
        return this.range(there(), { row, column, rows, columns });
      },
    });
  }

  range(sheet: HeldSheet, area: Area | null): object {
    const cells =
      <Value>(read: (cell: HeldCell | undefined) => Value) =>
      (): Value[][] => {
        const { row, column, rows, columns } = area ?? { row: 0, column: 0, rows: 0, columns: 0 };
        return Array.from({ length: rows }, (_, at) =>
          Array.from({ length: columns }, (__, to) => read(sheet.cells.get(nameOf(row + at, column + to)))),
        );
      };
    const size = (area?.rows ?? 0) * (area?.columns ?? 0);
    const address = area === null ? undefined : `${sheet.name}!${nameOf(area.row, area.column)}`;
    const loaded = this.loaded({
      rowIndex: () => area?.row,
      columnIndex: () => area?.column,
      rowCount: () => area?.rows,
      columnCount: () => area?.columns,
      address: () => address,
      values: cells((cell) => cell?.value ?? ""),
      formulas: cells((cell) => cell?.formula ?? cell?.value ?? ""),
      numberFormat: cells((cell) => cell?.format ?? "General"),
      text: cells((cell) => cell?.text ?? String(cell?.value ?? "")),
    });
    const blocks = ["values", "formulas", "numberFormat", "text"];
    const write = (formulas: unknown[][]): void => {
      if (formulas.length !== 1 || formulas[0]?.length !== 1)
        throw new FakeHostError("InvalidArgument", "Not one cell");
      this.queue.push(() => this.write(sheet, address ?? "", String(formulas[0]?.[0])));
    };
    // Known once anything of the object was loaded.
    const isNull = (): boolean => {
      if (!brought) throw new FakeHostError("PropertyNotLoaded", "isNullObject was read before a load and a sync");
      return area === null;
    };
    let brought = false;
    const read = <Value>(name: string): Value => loaded.read(name);
    return strict({
      load: (names: string | readonly string[]) => {
        const list = typeof names === "string" ? names.split(",").map((name) => name.trim()) : names;
        if (list.some((name) => blocks.includes(name))) this.asked += size;
        loaded.load(list);
        this.queue.push(() => {
          brought = true;
        });
      },
      get isNullObject(): boolean {
        return isNull();
      },
      get rowIndex(): number {
        return read("rowIndex");
      },
      get columnIndex(): number {
        return read("columnIndex");
      },
      get rowCount(): number {
        return read("rowCount");
      },
      get columnCount(): number {
        return read("columnCount");
      },
      get address(): string {
        return read("address");
      },
      get values(): unknown[][] {
        return read("values");
      },
      get numberFormat(): unknown[][] {
        return read("numberFormat");
      },
      get text(): string[][] {
        return read("text");
      },
      get formulas(): unknown[][] {
        return read("formulas");
      },
      set formulas(block: unknown[][]) {
        write(block);
      },
      worksheet: this.sheet(sheet),
      getTables: (fullyContained: boolean) => {
        if (fullyContained) throw new Error("A cell of a table is enough");
        return this.tablesAt(sheet, area);
      },
      getSpillParentOrNullObject: () => {
        const from = area && sheet.cells.get(nameOf(area.row, area.column))?.spilledFrom;
        return this.range(sheet, from ? areaOf(from) : null);
      },
      select: () => this.queue.push(() => this.done.push(`${address ?? ""} selected`)),
    });
  }

  private tablesAt(sheet: HeldSheet, area: Area | null): object {
    const tables = (sheet.tables ?? []).filter((table) => area !== null && meets(areaOf(table.area), area));
    const loaded = this.loaded({ "items/name": () => tables, "items/showHeaders": () => tables });
    const proxies = tables.map(({ name, area: whole, totals = false, showHeaders = true }) => {
      const { rows, ...corner } = areaOf(whole);
      return strict({
        name,
        showHeaders,
        getHeaderRowRange: () => this.range(sheet, { ...corner, rows: 1 }),
        getDataBodyRange: () => this.range(sheet, { ...corner, row: corner.row + 1, rows: rows - (totals ? 2 : 1) }),
      });
    });
    return strict({
      load: (names: string) => loaded.load(names),
      get items(): readonly object[] {
        loaded.read("items/name");
        loaded.read("items/showHeaders");
        return proxies;
      },
    });
  }

  private write(sheet: HeldSheet, address: string, formula: string): void {
    if (sheet.protected === true) throw new FakeHostError("AccessDenied", address);
    if (this.options.refusedCells?.includes(address) === true) throw new FakeHostError("InvalidOperation", address);
    const name = address.slice(sheet.name.length + 1);
    const value = this.options.answer?.(formula) ?? 0;
    sheet.cells.set(name, { ...sheet.cells.get(name), formula, value });
    this.done.push(`${address} = ${formula}`);
  }
}

function usedArea({ cells }: HeldSheet): Area | null {
  const areas = [...cells.keys()].map(areaOf);
  if (areas.length === 0) return null;
  const [row, column] = [Math.min(...areas.map((one) => one.row)), Math.min(...areas.map((one) => one.column))];
  const end = { row: Math.max(...areas.map((one) => one.row)), column: Math.max(...areas.map((one) => one.column)) };
  return { row, column, rows: end.row - row + 1, columns: end.column - column + 1 };
}

function meets(one: Area, other: Area): boolean {
  return (
    one.row < other.row + other.rows &&
    other.row < one.row + one.rows &&
    one.column < other.column + other.columns &&
    other.column < one.column + one.columns
  );
}

/** `B2`, for a row and column counted from 0. Sheets of the tests end at column Z. */
function nameOf(row: number, column: number): string {
  return `${String.fromCharCode(65 + column)}${String(row + 1)}`;
}

function areaOf(address: string): Area {
  const parts = /^([A-Z])(\d+)(?::([A-Z])(\d+))?$/.exec(address);
  if (!parts) throw new FakeHostError("InvalidArgument", `No such address: ${address}`);
  const at = (letter: string): number => letter.charCodeAt(0) - 65;
  const [row, column] = [Number(parts[2]) - 1, at(parts[1] ?? "A")];
  return {
    row,
    column,
    rows: Number(parts[4] ?? parts[2]) - row,
    columns: at(parts[3] ?? parts[1] ?? "A") - column + 1,
  };
}
