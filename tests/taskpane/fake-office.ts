/**
 * A workbook behind the calls of Office.js that we use, stricter than the usual mocks: it throws on whatever the real
 * host would refuse and on every property and method it does not know, so that no call slips in that nobody has thought
 * about. Calls are queued and take effect at `sync`, as in the host; a chosen `sync` can be made to fail.
 */

/** What an error of the host carries. */
export class FakeHostError extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message);
  }
}

export type FakeValue = string | number | boolean;

export interface FakeCell {
  readonly value: FakeValue | null;
  readonly formula: string | null;
  readonly format: string;
}

export interface Area {
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

export interface FakeTable {
  name: string;
  style: string;
  area: Area;
}

export interface FakeSeries {
  name: string;
  across: string;
  up: string;
  readonly settings: string[];
}

export interface FakeChart {
  name: string;
  readonly type: string;
  readonly series: FakeSeries[];
  readonly settings: string[];
}

export interface FakeSheet {
  readonly id: string;
  readonly name: string;
  readonly cells: Map<string, FakeCell>;
  readonly tables: FakeTable[];
  readonly charts: FakeChart[];
  /** Everything else that was set, as `A1:B2 format.font.color = #112233`: order and all. */
  readonly settings: string[];
}

/** The workbook itself: what a person would find in it. */
export class FakeWorkbook {
  sheets: FakeSheet[] = [];
  readonly definedNames: string[] = [];
  activeId = "";
  /** The cell, or the block of cells, that is selected on the active sheet. */
  selected = "A1";
  /** Of events, by whoever wants to be told. */
  readonly handlers: { readonly event: FakeEvent; readonly handler: () => Promise<void> }[] = [];
  private made = 0;

  /** What the host does when somebody has typed, or looks at another sheet. */
  async fire(event: FakeEvent): Promise<void> {
    for (const one of this.handlers) if (one.event === event) await one.handler();
  }

  constructor(sheetNames: readonly string[] = ["Sheet1"]) {
    for (const name of sheetNames) this.activeId = this.addSheet(name).id;
  }

  addSheet(name: string): FakeSheet {
    if (name.length < 1 || name.length > 31) throw new FakeHostError("InvalidArgument", `Sheet name length: ${name}`);
    if (/[[\]:*?/\\]/.test(name) || /^'|'$/.test(name) || /^history$/i.test(name)) {
      throw new FakeHostError("InvalidArgument", `Sheet name: ${name}`);
    }
    if (this.sheets.some((sheet) => same(sheet.name, name))) {
      throw new FakeHostError("ItemAlreadyExists", `A sheet called ${name} is there already`);
    }
    this.made += 1;
    const sheet: FakeSheet = {
      id: `{${String(this.made)}}`,
      name,
      cells: new Map(),
      tables: [],
      charts: [],
      settings: [],
    };
    this.sheets.push(sheet);
    return sheet;
  }

  sheet(name: string): FakeSheet {
    const found = this.sheets.find((sheet) => same(sheet.name, name) || sheet.id === name);
    if (!found) throw new FakeHostError("ItemNotFound", `No sheet ${name}`);
    return found;
  }

  tables(): readonly FakeTable[] {
    return this.sheets.flatMap((sheet) => sheet.tables);
  }

  /** A cell by its address, such as `B2`. */
  cell(sheet: string, address: string): FakeCell {
    return this.sheet(sheet).cells.get(address) ?? emptyCell;
  }

  /** Everything, as text: two workbooks with the same text are the same. The ids of deleted sheets leave no trace. */
  toText(): string {
    return JSON.stringify({
      active: this.activeId,
      names: this.definedNames,
      sheets: this.sheets.map((sheet) => ({ ...sheet, cells: [...sheet.cells] })),
    });
  }
}

const emptyCell: FakeCell = { value: null, formula: null, format: "General" };
const same = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

export interface Failure {
  /** Counted from 1. */
  readonly atSync: number;
  /** How much of what was queued took effect before the failure was seen. */
  readonly after: "nothing" | "half" | "all";
  /** Whether every later sync fails as well, as when the connection is gone. */
  readonly lasting?: boolean;
}

/** A request context on the workbook. `syncs` counts. */
export interface FakeContext {
  readonly context: Excel.RequestContext;
  readonly syncs: () => number;
}

export function fakeContext(workbook: FakeWorkbook, failure?: Failure): FakeContext {
  let queue: (() => void)[] = [];
  let syncs = 0;
  const requests: Requests = { workbook, queue: (work) => queue.push(work) };

  const context = strict({
    workbook: strict(new WorkbookProxy(requests)),
    sync: async (): Promise<void> => {
      // The answer comes later, as from the host: code that does not wait for it reads too early.
      await Promise.resolve();
      syncs += 1;
      const work = queue;
      queue = [];
      const fails = failure && (syncs === failure.atSync || (failure.lasting === true && syncs > failure.atSync));
      const share = fails ? { nothing: 0, half: 0.5, all: 1 }[failure.after] : 1;
      for (const one of work.slice(0, Math.floor(work.length * share))) one();
      if (fails) throw new FakeHostError("GeneralException", "The host gave up");
    },
  });
  return { context: context as unknown as Excel.RequestContext, syncs: () => syncs };
}

interface Requests {
  readonly workbook: FakeWorkbook;
  readonly queue: (work: () => void) => void;
}

/** Throws where a property is read, written or called that the object does not have. */
export function strict<Thing extends object>(thing: Thing): Thing {
  return new Proxy(thing, {
    get(target, key) {
      if (typeof key === "symbol" || key in target) {
        const value: unknown = Reflect.get(target, key, target);
        return typeof value === "function" ? (value as (...args: unknown[]) => unknown).bind(target) : value;
      }
      // Awaiting an object asks it for `then`.
      if (key === "then" || key === "toJSON" || key === "asymmetricMatch") return undefined;
      throw new Error(`The fake host knows no ${thing.constructor.name}.${key}`);
    },
    set(target, key, value) {
      if (!hasSetter(target, key)) throw new Error(`${thing.constructor.name}.${String(key)} cannot be set`);
      return Reflect.set(target, key, value, target);
    },
  });
}

function hasSetter(thing: object, key: PropertyKey): boolean {
  for (let at: object | null = thing; at; at = Object.getPrototypeOf(at) as object | null) {
    const found = Object.getOwnPropertyDescriptor(at, key);
    if (found) return found.set !== undefined;
  }
  return false;
}

/** Properties that may be read only after they were loaded and a sync has brought them. */
export class Loaded {
  private readonly asked = new Set<string>();
  private readonly brought = new Map<string, unknown>();

  constructor(
    private readonly requests: Pick<Requests, "queue">,
    private readonly sources: Readonly<Record<string, () => unknown>>,
  ) {}

  load(names: string | readonly string[]): void {
    const list = typeof names === "string" ? names.split(",").map((name) => name.trim()) : names;
    for (const name of list) {
      const source = this.sources[name];
      if (!source) throw new Error(`The fake host cannot load ${name}`);
      this.asked.add(name);
      this.requests.queue(() => this.brought.set(name, source()));
    }
  }

  read<Value>(name: string): Value {
    if (!this.asked.has(name)) throw new FakeHostError("PropertyNotLoaded", `${name} was not loaded`);
    if (!this.brought.has(name)) throw new FakeHostError("PropertyNotLoaded", `${name} was read before a sync`);
    return this.brought.get(name) as Value;
  }
}

class WorkbookProxy {
  readonly worksheets: object;
  readonly tables: object;
  readonly names: object;

  constructor(private readonly requests: Requests) {
    const { workbook } = requests;
    this.worksheets = strict(new SheetsProxy(requests));
    this.tables = strict(new TablesProxy(requests));
    this.names = strict(new CollectionProxy(requests, () => workbook.definedNames.map((name) => ({ name }))));
  }

  getActiveCell(): object {
    const { workbook } = this.requests;
    const { row, column } = areaOf(workbook.selected);
    const cell = { row, column, rows: 1, columns: 1 };
    return strict(new RangeProxy(this.requests, () => workbook.sheet(workbook.activeId), cell));
  }

  getSelectedRange(): object {
    const { workbook } = this.requests;
    return strict(new RangeProxy(this.requests, () => workbook.sheet(workbook.activeId), areaOf(workbook.selected)));
  }
}

export type FakeEvent = "onChanged" | "onActivated" | "onAdded" | "onDeleted";

/** Handlers are registered by the next `sync`, as in the host. */
class EventProxy {
  constructor(
    private readonly requests: Requests,
    private readonly event: FakeEvent,
  ) {}

  add(handler: () => Promise<void>): void {
    this.requests.queue(() => void this.requests.workbook.handlers.push({ event: this.event, handler }));
  }
}

class CollectionProxy {
  private readonly loaded: Loaded;

  constructor(requests: Requests, items: () => readonly { readonly name: string }[]) {
    this.loaded = new Loaded(requests, { "items/name": items });
  }

  load(names: string | readonly string[]): void {
    this.loaded.load(names);
  }

  get items(): readonly { readonly name: string }[] {
    return this.loaded.read("items/name");
  }
}

class TablesProxy extends CollectionProxy {
  constructor(private readonly requests: Requests) {
    super(requests, () => requests.workbook.tables().map(({ name }) => ({ name })));
  }

  getItem(name: string): object {
    const { workbook } = this.requests;
    return strict(
      new TableProxy(this.requests, () => {
        const found = workbook.tables().find((table) => same(table.name, name));
        if (!found) throw new FakeHostError("ItemNotFound", `No table ${name}`);
        return found;
      }),
    );
  }
}

class SheetsProxy extends CollectionProxy {
  readonly onChanged: object;
  readonly onActivated: object;
  readonly onAdded: object;
  readonly onDeleted: object;

  constructor(private readonly requests: Requests) {
    super(requests, () => requests.workbook.sheets.map(({ name }) => ({ name })));
    const event = (name: FakeEvent): object => strict(new EventProxy(requests, name));
    this.onChanged = event("onChanged");
    this.onActivated = event("onActivated");
    this.onAdded = event("onAdded");
    this.onDeleted = event("onDeleted");
  }

  add(name: string): object {
    let made: FakeSheet | undefined;
    this.requests.queue(() => {
      made = this.requests.workbook.addSheet(name);
    });
    return strict(new SheetProxy(this.requests, () => made ?? this.requests.workbook.sheet(name)));
  }

  getItem(nameOrId: string): object {
    return strict(new SheetProxy(this.requests, () => this.requests.workbook.sheet(nameOrId)));
  }

  getItemOrNullObject(nameOrId: string): object {
    const find = () => this.requests.workbook.sheets.find((sheet) => same(sheet.name, nameOrId));
    return strict(new SheetProxy(this.requests, () => this.requests.workbook.sheet(nameOrId), find));
  }

  getActiveWorksheet(): object {
    const { workbook } = this.requests;
    return strict(new SheetProxy(this.requests, () => workbook.sheet(workbook.activeId)));
  }
}

class SheetProxy {
  readonly tables: object;
  readonly charts: object;
  readonly freezePanes: object;
  readonly pageLayout: object;
  private readonly loaded: Loaded;

  constructor(
    private readonly requests: Requests,
    private readonly sheet: () => FakeSheet,
    private readonly find: () => FakeSheet | undefined = sheet,
  ) {
    this.loaded = new Loaded(requests, {
      id: () => this.find()?.id,
      name: () => this.find()?.name,
    });
    this.tables = strict({
      add: (address: string, hasHeaders: boolean) => this.addTable(address, hasHeaders),
    });
    this.charts = strict({
      add: (type: string, source: RangeProxy) => {
        if (type !== "XYScatterLines") throw new FakeHostError("InvalidArgument", `Chart type ${type}`);
        let made: FakeChart | undefined;
        requests.queue(() => {
          const { charts } = sheet();
          // The host makes something of the source by itself: here two series that nobody asked for.
          const series = ["Series1", "Series2"].map((name) => fakeSeries(name, nameOf(source.area)));
          made = { name: `Chart ${String(charts.length + 1)}`, type, series, settings: [] };
          charts.push(made);
        });
        return strict(new ChartProxy(requests, () => made as FakeChart, sheet));
      },
    });
    const note = (words: string) => requests.queue(() => sheet().settings.push(words));
    this.pageLayout = settable(
      "PageLayout",
      {
        orientation: (value) => note(`page.orientation = ${JSON.stringify(value)}`),
        zoom: (value) => note(`page.zoom = ${JSON.stringify(value)}`),
      },
      {
        setPrintArea: (columns: string) => {
          if (!/^[A-Z]+:[A-Z]+(,[A-Z]+:[A-Z]+)*$/.test(columns)) throw new FakeHostError("InvalidArgument", columns);
          note(`page.area ${columns}`);
        },
        setPrintTitleRows: (rows: string) => {
          if (!/^\$\d+:\$\d+$/.test(rows)) throw new FakeHostError("InvalidArgument", rows);
          note(`page.titles ${rows}`);
        },
      },
    );
    this.freezePanes = strict({
      freezeAt: (range: RangeProxy) => note(`freeze ${nameOf(range.area)}`),
      freezeRows: (rows: number) => note(`freeze ${String(rows)} rows`),
      freezeColumns: (columns: number) => note(`freeze ${String(columns)} columns`),
    });
  }

  load(names: string | readonly string[]): void {
    this.loaded.load(names);
  }

  get id(): string {
    return this.loaded.read("id");
  }

  get name(): string {
    return this.loaded.read("name");
  }

  /** Known once anything of the object was loaded. */
  get isNullObject(): boolean {
    return this.loaded.read("name") === undefined;
  }

  activate(): void {
    this.requests.queue(() => {
      this.requests.workbook.activeId = this.sheet().id;
    });
  }

  delete(): void {
    this.requests.queue(() => {
      const { workbook } = this.requests;
      const gone = this.sheet();
      if (workbook.sheets.length === 1) throw new FakeHostError("InvalidOperation", "The last sheet stays");
      workbook.sheets = workbook.sheets.filter((sheet) => sheet !== gone);
      if (workbook.activeId === gone.id) workbook.activeId = workbook.sheets[0]?.id ?? "";
    });
  }

  getRangeByIndexes(row: number, column: number, rows: number, columns: number): object {
    const whole = [row, column, rows, columns].every(Number.isInteger);
    if (
      !whole ||
      row < 0 ||
      column < 0 ||
      rows < 1 ||
      columns < 1 ||
      row + rows > 1_048_576 ||
      column + columns > 16_384
    ) {
      throw new FakeHostError("InvalidArgument", `No such range: ${[row, column, rows, columns].join(", ")}`);
    }
    return strict(new RangeProxy(this.requests, this.sheet, { row: row + 1, column: column + 1, rows, columns }));
  }

  private addTable(address: string, hasHeaders: boolean): object {
    const area = areaOf(address);
    if (!hasHeaders) throw new Error("The fake host makes tables with headings only");
    let made: FakeTable | undefined;
    this.requests.queue(() => {
      const sheet = this.sheet();
      if (area.rows < 2) throw new FakeHostError("InvalidArgument", "A table has at least one row");
      if (sheet.tables.some((other) => overlap(other.area, area))) {
        throw new FakeHostError("InvalidArgument", `${address} overlaps a table`);
      }
      const headings = [...Array(area.columns).keys()].map((at) =>
        String(sheet.cells.get(nameOf({ row: area.row, column: area.column + at }))?.value ?? ""),
      );
      if (headings.includes("") || new Set(headings.map((heading) => heading.toLowerCase())).size < headings.length) {
        throw new FakeHostError("InvalidArgument", `Headings are missing or double: ${headings.join(", ")}`);
      }
      made = { name: `Table${String(this.requests.workbook.tables().length + 1)}`, style: "TableStyleMedium2", area };
      sheet.tables.push(made);
    });
    return strict(new TableProxy(this.requests, () => made as FakeTable));
  }
}

function fakeSeries(name: string, values = ""): FakeSeries {
  return { name, across: "", up: values, settings: [] };
}

class ChartProxy {
  readonly title: object;
  readonly axes: object;
  readonly series: object;
  readonly legend: object;

  constructor(
    private readonly requests: Requests,
    private readonly chart: () => FakeChart,
    private readonly sheet: () => FakeSheet,
  ) {
    const note = (words: string) => requests.queue(() => chart().settings.push(words));
    const noted = (what: string) => (value: unknown) => note(`${what} = ${JSON.stringify(value)}`);
    const axis = (name: string) =>
      settable(
        "ChartAxis",
        {
          minimum: noted(`${name}.minimum`),
          maximum: noted(`${name}.maximum`),
          numberFormat: noted(`${name}.numberFormat`),
          tickLabelPosition: noted(`${name}.tickLabelPosition`),
        },
        { title: settable("ChartAxisTitle", { text: noted(`${name}.title`) }) },
      );
    this.title = settable("ChartTitle", { text: noted("title") });
    this.axes = strict({ categoryAxis: axis("across"), valueAxis: axis("up") });
    this.series = strict(new SeriesCollectionProxy(requests, chart));
    this.legend = settable(
      "ChartLegend",
      { visible: noted("legend.visible"), position: noted("legend.position") },
      {
        legendEntries: strict({
          getItemAt: (index: number) => {
            requests.queue(() => {
              if (index >= chart().series.length)
                throw new FakeHostError("InvalidArgument", `Legend entry ${String(index)}`);
            });
            return settable("ChartLegendEntry", { visible: noted(`legend.${String(index)}.visible`) });
          },
        }),
      },
    );
  }

  set name(name: string) {
    this.requests.queue(() => {
      if (this.sheet().charts.some((other) => other !== this.chart() && same(other.name, name))) {
        throw new FakeHostError("ItemAlreadyExists", `A chart called ${name} is there already`);
      }
      this.chart().name = name;
    });
  }

  setPosition(from: string, to: string): void {
    const [first, last] = [areaOf(from), areaOf(to)];
    if (last.row < first.row || last.column < first.column) throw new FakeHostError("InvalidArgument", `${from}:${to}`);
    this.requests.queue(() => this.chart().settings.push(`position ${from}:${to}`));
  }
}

class SeriesCollectionProxy {
  private readonly loaded: Loaded;

  constructor(
    private readonly requests: Requests,
    private readonly chart: () => FakeChart,
  ) {
    this.loaded = new Loaded(requests, {
      items: () => chart().series.map((one) => strict(new SeriesProxy(requests, chart, () => one))),
    });
  }

  load(names: string | readonly string[]): void {
    this.loaded.load(names);
  }

  get items(): readonly object[] {
    return this.loaded.read("items");
  }

  add(name: string): object {
    let made: FakeSeries | undefined;
    this.requests.queue(() => {
      made = fakeSeries(name);
      this.chart().series.push(made);
    });
    return strict(new SeriesProxy(this.requests, this.chart, () => made as FakeSeries));
  }
}

class SeriesProxy {
  readonly format: object;

  constructor(
    private readonly requests: Requests,
    private readonly chart: () => FakeChart,
    private readonly series: () => FakeSeries,
  ) {
    this.format = strict({
      line: settable("ChartLineFormat", {
        color: this.noted("line.color"),
        weight: this.noted("line.weight"),
        lineStyle: this.noted("line.lineStyle"),
      }),
    });
  }

  set markerStyle(value: string) {
    this.noted("markerStyle")(value);
  }

  set markerSize(value: number) {
    // The host takes 2 to 72 points.
    if (!(value >= 2 && value <= 72)) throw new FakeHostError("InvalidArgument", `Marker of ${String(value)}`);
    this.noted("markerSize")(value);
  }

  set markerBackgroundColor(value: string) {
    this.noted("markerBackgroundColor")(value);
  }

  set markerForegroundColor(value: string) {
    this.noted("markerForegroundColor")(value);
  }

  setXAxisValues(range: RangeProxy): void {
    this.fill("across", range);
  }

  setValues(range: RangeProxy): void {
    this.fill("up", range);
  }

  delete(): void {
    this.requests.queue(() => {
      const all = this.chart().series;
      const at = all.indexOf(this.series());
      if (at < 0) throw new FakeHostError("ItemNotFound", "That series is gone");
      all.splice(at, 1);
    });
  }

  private fill(side: "across" | "up", range: RangeProxy): void {
    if (range.area.rows > 1 && range.area.columns > 1) throw new FakeHostError("InvalidArgument", nameOf(range.area));
    this.requests.queue(() => {
      this.series()[side] = nameOf(range.area);
    });
  }

  private noted(what: string): (value: unknown) => void {
    return (value) => this.requests.queue(() => this.series().settings.push(`${what} = ${JSON.stringify(value)}`));
  }
}

class TableProxy {
  readonly worksheet: object;
  readonly rows: object;
  readonly columns: object;

  constructor(
    private readonly requests: Requests,
    private readonly table: () => FakeTable,
  ) {
    const sheet = (): FakeSheet => {
      const found = requests.workbook.sheets.find(({ tables }) => tables.includes(table()));
      if (!found) throw new FakeHostError("ItemNotFound", "The table is gone");
      return found;
    };
    this.sheet = sheet;
    this.worksheet = strict(new SheetProxy(requests, sheet));
    this.rows = strict({
      // Only as it is called: one empty row at the end.
      add: (...given: unknown[]) => {
        if (given.length > 0) throw new Error("The fake host adds one empty row at the end only");
        requests.queue(() => {
          const { area } = table();
          const below = { ...area, row: area.row + area.rows, rows: 1 };
          if (namesIn(below).some((name) => (sheet().cells.get(name) ?? emptyCell).value !== null)) {
            throw new Error("The fake host moves no cells below a table");
          }
          table().area = { ...area, rows: area.rows + 1 };
        });
      },
    });
    this.columns = strict({
      // Only as it is called: an empty column at the end with its heading.
      add: (index: unknown, values: unknown, name: string) => {
        if (index !== undefined || values !== undefined) throw new Error("The fake host adds empty columns at the end");
        let area: Area | undefined;
        requests.queue(() => {
          const before = table().area;
          area = { ...before, column: before.column + before.columns, columns: 1 };
          if (namesIn(area).some((at) => (sheet().cells.get(at) ?? emptyCell).value !== null)) {
            throw new Error("The fake host moves no cells beside a table");
          }
          table().area = { ...before, columns: before.columns + 1 };
          sheet().cells.set(nameOf({ row: area.row, column: area.column }), { ...emptyCell, value: name });
        });
        return strict({
          getDataBodyRange: () =>
            strict(
              new RangeProxy(requests, sheet, () => {
                const added = area as Area;
                return { ...added, row: added.row + 1, rows: added.rows - 1 };
              }),
            ),
        });
      },
    });
  }

  private readonly sheet: () => FakeSheet;

  getHeaderRowRange(): object {
    return strict(new RangeProxy(this.requests, this.sheet, () => ({ ...this.table().area, rows: 1 })));
  }

  getDataBodyRange(): object {
    return strict(
      new RangeProxy(this.requests, this.sheet, () => {
        const { area } = this.table();
        return { ...area, row: area.row + 1, rows: area.rows - 1 };
      }),
    );
  }

  set name(name: string) {
    this.requests.queue(() => {
      if (name.length > 255 || !/^[\p{L}_][\p{L}\p{N}_.]*$/u.test(name) || /^[a-z]{1,3}\d+$/i.test(name)) {
        throw new FakeHostError("InvalidArgument", `Table name: ${name}`);
      }
      const { workbook } = this.requests;
      const taken = [
        ...workbook.tables().filter((other) => other !== this.table()),
        ...workbook.definedNames.map((of) => ({ name: of })),
      ];
      if (taken.some((other) => same(other.name, name))) {
        throw new FakeHostError("ItemAlreadyExists", `The name ${name} is there already`);
      }
      this.table().name = name;
    });
  }

  set style(style: string) {
    this.requests.queue(() => {
      if (!/^TableStyle(Light|Medium|Dark)\d+$/.test(style)) throw new FakeHostError("InvalidArgument", style);
      this.table().style = style;
    });
  }
}

class RangeProxy {
  readonly format: object;
  readonly conditionalFormats: object;
  readonly dataValidation: object;
  private onSheet: object | undefined;
  private readonly loaded: Loaded;

  constructor(
    private readonly requests: Requests,
    private readonly sheet: () => FakeSheet,
    private readonly where: Area | (() => Area),
  ) {
    this.loaded = new Loaded(requests, {
      address: () => `${sheet().name}!${nameOf(this.area)}`,
      rowIndex: () => this.area.row - 1,
      columnIndex: () => this.area.column - 1,
      rowCount: () => this.area.rows,
      columnCount: () => this.area.columns,
      values: () => this.grid((cell) => cell.value ?? ""),
      formulas: () => this.grid((cell) => cell.formula ?? cell.value ?? ""),
      numberFormat: () => this.grid((cell) => cell.format),
    });
    const note = (what: string, value: unknown) =>
      requests.queue(() => sheet().settings.push(`${nameOf(this.area)} ${what} = ${JSON.stringify(value)}`));
    const colour = (what: string) => (value: unknown) => {
      if (typeof value !== "string" || !/^#[0-9a-f]{6}$/i.test(value)) throw new FakeHostError("InvalidArgument", what);
      note(what, value);
    };
    const plain = (what: string, type: "boolean" | "number" | "string") => (value: unknown) => {
      if (typeof value !== type) throw new FakeHostError("InvalidArgument", `${what}: ${String(value)}`);
      note(what, value);
    };
    const sides = ["EdgeTop", "EdgeBottom", "EdgeLeft", "EdgeRight", "InsideHorizontal", "InsideVertical"];
    this.format = settable(
      "RangeFormat",
      {
        columnWidth: plain("columnWidth", "number"),
        rowHeight: plain("rowHeight", "number"),
        wrapText: plain("wrapText", "boolean"),
        verticalAlignment: plain("verticalAlignment", "string"),
        horizontalAlignment: plain("horizontalAlignment", "string"),
        indentLevel: plain("indentLevel", "number"),
      },
      {
        font: settable("RangeFont", {
          color: colour("font.color"),
          bold: plain("font.bold", "boolean"),
          italic: plain("font.italic", "boolean"),
          size: plain("font.size", "number"),
          name: plain("font.name", "string"),
        }),
        fill: settable("RangeFill", { color: colour("fill.color") }),
        borders: strict({
          getItem: (side: string) => {
            if (!sides.includes(side)) throw new FakeHostError("InvalidArgument", side);
            return settable("RangeBorder", {
              style: plain(`${side}.style`, "string"),
              weight: plain(`${side}.weight`, "string"),
              color: colour(`${side}.color`),
            });
          },
        }),
      },
    );
    this.conditionalFormats = strict({
      add: (type: string) => {
        if (type !== "CellValue") throw new Error(`The fake host knows no conditional format ${type}`);
        return strict({
          cellValue: settable(
            "CellValueConditionalFormat",
            {
              rule: (value: unknown) => note("rule", value),
            },
            {
              format: strict({
                font: settable("ConditionalRangeFont", {
                  color: colour("rule.font.color"),
                  bold: plain("rule.font.bold", "boolean"),
                }),
                fill: settable("ConditionalRangeFill", { color: colour("rule.fill.color") }),
              }),
            },
          ),
        });
      },
    });
    this.dataValidation = settable("DataValidation", {
      rule: (value: unknown) => {
        requests.queue(() => checkRule(requests.workbook, value as Excel.DataValidationRule));
        note("validation.rule", value);
      },
      prompt: (value: unknown) => {
        const { title, message } = value as Excel.DataValidationPrompt;
        if (title.length > 32 || message.length > 255) throw new FakeHostError("InvalidArgument", `Prompt: ${title}`);
        note("validation.prompt", value);
      },
      errorAlert: (value: unknown) => {
        const { title, message } = value as Excel.DataValidationErrorAlert;
        if (title.length > 32 || message.length > 255) throw new FakeHostError("InvalidArgument", `Alert: ${title}`);
        note("validation.errorAlert", value);
      },
    });
  }

  load(names: string | readonly string[]): void {
    this.loaded.load(names);
  }

  /** Where it lies: known at once, or once what it hangs on is known. */
  get area(): Area {
    return typeof this.where === "function" ? this.where() : this.where;
  }

  getRow(row: number): object {
    return strict(
      new RangeProxy(this.requests, this.sheet, () => {
        const { area } = this;
        if (row < 0 || row >= area.rows) throw new FakeHostError("InvalidArgument", `No row ${String(row)}`);
        return { ...area, row: area.row + row, rows: 1 };
      }),
    );
  }

  getLastRow(): object {
    return strict(
      new RangeProxy(this.requests, this.sheet, () => {
        const { area } = this;
        return { ...area, row: area.row + area.rows - 1, rows: 1 };
      }),
    );
  }

  get address(): string {
    return this.loaded.read("address");
  }

  get rowIndex(): number {
    return this.loaded.read("rowIndex");
  }

  get columnIndex(): number {
    return this.loaded.read("columnIndex");
  }

  get rowCount(): number {
    return this.loaded.read("rowCount");
  }

  get columnCount(): number {
    return this.loaded.read("columnCount");
  }

  get worksheet(): object {
    this.onSheet ??= strict(new SheetProxy(this.requests, this.sheet));
    return this.onSheet;
  }

  get values(): unknown[][] {
    return this.loaded.read("values");
  }

  set values(block: unknown[][]) {
    this.checkShape(block);
    this.each((name, row, column) => this.write(name, block[row]?.[column]));
  }

  get formulas(): unknown[][] {
    return this.loaded.read("formulas");
  }

  set formulas(block: unknown[][]) {
    this.checkShape(block);
    this.each((name, row, column) => this.write(name, block[row]?.[column]));
  }

  get numberFormat(): unknown[][] {
    return this.loaded.read("numberFormat");
  }

  /** One format for all cells, or a block of the range's shape, in which null leaves a cell's format as it is. */
  set numberFormat(format: string | unknown[][]) {
    if (typeof format !== "string") this.checkShape(format);
    this.each((name, row, column) => {
      const one = typeof format === "string" ? format : format[row]?.[column];
      if (one === null) return;
      if (typeof one !== "string") throw new FakeHostError("InvalidArgument", `A format of ${typeof one}`);
      const { cells } = this.sheet();
      cells.set(name, { ...(cells.get(name) ?? emptyCell), format: one });
    });
  }

  /** Where the range hangs on a table, its shape is known only when the work is done. */
  private checkShape(block: unknown): void {
    if (typeof this.where === "function") this.requests.queue(() => this.refuseOtherShape(block));
    else this.refuseOtherShape(block);
  }

  private refuseOtherShape(block: unknown): void {
    const { rows, columns } = this.area;
    const fits =
      Array.isArray(block) &&
      block.length === rows &&
      block.every((row) => Array.isArray(row) && row.length === columns);
    if (!fits) throw new FakeHostError("InvalidArgument", `The block is not ${String(rows)} by ${String(columns)}`);
  }

  /** Puts a value in a cell as the host reads it: as typed, unless the cell is formatted as text. */
  private write(name: string, value: unknown): void {
    const { cells } = this.sheet();
    const before = cells.get(name) ?? emptyCell;
    if (value === null || value === undefined) return;
    if (typeof value === "string" && before.format !== "@" && value.startsWith("=")) {
      checkFormula(this.requests.workbook, value);
      cells.set(name, { ...before, value: null, formula: value });
      return;
    }
    const stored = typeof value === "string" ? (before.format === "@" ? value : readAsTyped(value)) : value;
    if (typeof stored !== "string" && typeof stored !== "number" && typeof stored !== "boolean") {
      throw new FakeHostError("InvalidArgument", `A cell cannot hold ${typeof value}`);
    }
    if (typeof stored === "number" && !Number.isFinite(stored))
      throw new FakeHostError("InvalidArgument", "Not finite");
    cells.set(name, { ...before, value: stored === "" ? null : stored, formula: null });
  }

  private each(work: (name: string, row: number, column: number) => void): void {
    this.requests.queue(() => {
      for (let row = 0; row < this.area.rows; row += 1) {
        for (let column = 0; column < this.area.columns; column += 1) {
          work(nameOf({ row: this.area.row + row, column: this.area.column + column }), row, column);
        }
      }
    });
  }

  private grid(read: (cell: FakeCell) => FakeValue): FakeValue[][] {
    return [...Array(this.area.rows).keys()].map((row) =>
      [...Array(this.area.columns).keys()].map((column) =>
        read(
          this.sheet().cells.get(nameOf({ row: this.area.row + row, column: this.area.column + column })) ?? emptyCell,
        ),
      ),
    );
  }
}

/** An object whose given properties can be set and nothing else, with others to read. */
function settable(
  name: string,
  setters: Readonly<Record<string, (value: unknown) => void>>,
  readable: Readonly<Record<string, object>> = {},
): object {
  const made = {};
  for (const [key, set] of Object.entries(setters)) Object.defineProperty(made, key, { set });
  for (const [key, value] of Object.entries(readable)) Object.defineProperty(made, key, { value, configurable: true });
  Object.defineProperty(made, "constructor", { value: { name } });
  return strict(made);
}

/** What a text becomes that somebody types into a cell that is not formatted as text. */
function readAsTyped(text: string): FakeValue {
  if (text.startsWith("'")) return text.slice(1);
  if (/^(true|false)$/i.test(text.trim())) return text.trim().toLowerCase() === "true";
  if (/^[+\-@]/.test(text)) throw new FakeHostError("InvalidArgument", `Taken for a formula: ${text}`);
  if (/^\s*[\d.,]+\s*%?\s*$/.test(text)) return Number.parseFloat(text);
  // A day: 8/10, 3-4-2027, 1. 2., 5 May, May 5, 10:30.
  const month = "(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*";
  if (new RegExp(`^\\s*(\\d+\\s*[/.:-]\\s*\\d+.*|\\d+[ .-]*${month}.*|${month}[ .-]*\\d+.*)$`, "i").test(text))
    return 45_000;
  return text;
}

/** Refuses a formula that does not hold together or names what is not there. */
function checkFormula(workbook: FakeWorkbook, formula: string): void {
  const refuse = (why: string): never => {
    throw new FakeHostError("InvalidArgument", `${why}: ${formula}`);
  };
  if (formula.length > 8192) refuse("Too long");
  const quoted = /"(?:[^"]|"")*"/g;
  const bare = formula.replace(quoted, "0");
  if (bare.includes('"')) refuse("A quote is not closed");
  for (const [open, close] of ["()", "[]"]) {
    let depth = 0;
    for (const character of bare) {
      if (character === open) depth += 1;
      if (character === close) depth -= 1;
      if (depth < 0) break;
    }
    if (depth !== 0) refuse("Brackets do not match");
  }
  if (/_xldudf_|_xlfn\./.test(bare)) refuse("Written for the file and not for the sheet");
  if (/(^=|[-+*/&=<>(,])[*/&<>)=]*$/.test(bare)) refuse("It ends too early");
  for (const [, name, heading] of bare.matchAll(
    /([\p{L}_][\p{L}\p{N}_.]*)\[(?:\[#(?:This Row|All)\],)?\[?([^[\]]*)\]/gu,
  )) {
    checkColumn(workbook, name ?? "", heading ?? "");
  }
  for (const [, name] of bare.matchAll(/'((?:[^']|'')*)'!/g)) workbook.sheet((name ?? "").replaceAll("''", "'"));
}

function checkColumn(workbook: FakeWorkbook, table: string, heading: string): void {
  const sheet = workbook.sheets.find((one) => one.tables.some((other) => same(other.name, table)));
  const area = sheet?.tables.find((other) => same(other.name, table))?.area;
  if (!sheet || !area) throw new FakeHostError("InvalidArgument", `No table ${table}`);
  const headings = [...Array(area.columns).keys()].map(
    (at) => sheet.cells.get(nameOf({ row: area.row, column: area.column + at }))?.value,
  );
  if (!headings.includes(heading)) throw new FakeHostError("InvalidArgument", `No column ${heading} in ${table}`);
}

function checkRule(workbook: FakeWorkbook, rule: Excel.DataValidationRule): void {
  const kinds = Object.keys(rule);
  const known = ["list", "date", "decimal", "wholeNumber", "custom"];
  if (kinds.length !== 1 || !known.includes(kinds[0] ?? "")) {
    throw new FakeHostError("InvalidArgument", `Rule of ${kinds.join(", ")}`);
  }
  const source = rule.list?.source;
  if (typeof source !== "string") return;
  const reference = /^=INDIRECT\("([^"[]+)\[([^\]"]+)\]"\)$/.exec(source);
  if (reference) checkColumn(workbook, reference[1] ?? "", reference[2] ?? "");
  else if (source.startsWith("=")) throw new FakeHostError("InvalidArgument", source);
  else if (source.length < 1 || source.length > 255)
    throw new FakeHostError("InvalidArgument", `List of ${String(source.length)}`);
}

/* ---- addresses ---- */

function lettersOf(column: number): string {
  return column <= 26
    ? String.fromCharCode(64 + column)
    : lettersOf(Math.floor((column - 1) / 26)) + String.fromCharCode(65 + ((column - 1) % 26));
}

function nameOf(area: {
  readonly row: number;
  readonly column: number;
  readonly rows?: number;
  readonly columns?: number;
}): string {
  const { row, column, rows = 1, columns = 1 } = area;
  const first = `${lettersOf(column)}${String(row)}`;
  return rows === 1 && columns === 1 ? first : `${first}:${lettersOf(column + columns - 1)}${String(row + rows - 1)}`;
}

export function areaOf(address: string): Area {
  const parts = /^([A-Z]{1,3})(\d+)(?::([A-Z]{1,3})(\d+))?$/.exec(address);
  if (!parts) throw new FakeHostError("InvalidArgument", `No such address: ${address}`);
  const number = (letters: string): number =>
    [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);
  const [row, column] = [Number(parts[2]), number(parts[1] ?? "")];
  return {
    row,
    column,
    rows: Number(parts[4] ?? row) - row + 1,
    columns: (parts[3] === undefined ? column : number(parts[3])) - column + 1,
  };
}

function namesIn({ row, column, rows, columns }: Area): string[] {
  return [...Array(rows).keys()].flatMap((down) =>
    [...Array(columns).keys()].map((across) => nameOf({ row: row + down, column: column + across })),
  );
}

function overlap(one: Area, other: Area): boolean {
  return (
    one.row < other.row + other.rows &&
    other.row < one.row + one.rows &&
    one.column < other.column + other.columns &&
    other.column < one.column + one.columns
  );
}
