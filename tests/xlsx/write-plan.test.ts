import { Workbook, type Worksheet } from "@cj-tech-master/excelts";
import type { Element } from "@xmldom/xmldom";
import { cellName } from "../../src/workbook/plan/address";
import type { CalculatedValue, CalculatedWorkbook } from "../../src/workbook/plan/calculated";
import { formula, number, put, spill, text } from "../../src/workbook/plan/cell-plans";
import { call, column, operation, thisRow, twirl } from "../../src/workbook/plan/formula";
import type { SheetPlan, WorkbookPlan } from "../../src/workbook/plan/schema";
import { sampleSeason } from "../../src/workbook/sample/sample-season";
import { writeWorkbookFile } from "../../src/xlsx/write-plan";
import { attribute, childText, elementsIn, Package } from "./package";

/* A small workbook with one of each thing. */

const awkwardTexts = [
  "=HYPERLINK(1)",
  "+1 spin",
  "8/10",
  "0110",
  " blanks at both ends ",
  "two\nlines",
  "quotes \" and ' and <tags> & signs",
  "a bell \u0007 inside",
  "_x0041_ is not a code",
  "Drehung ½ ✓ 🎽",
];

const practice: SheetPlan = {
  name: "Practice M.K.'s & co",
  columnWidths: [14, 20, 12],
  areas: [{ on: { row: 20, column: 5, rows: 4, columns: 3 }, look: "entry", format: "percent" }],
  cells: [
    put(1, 1, text("Practice"), { look: "title" }),
    ...awkwardTexts.map((words, index) => put(1 + index, 9, text(words))),
    put(20, 1, formula(twirl("STREAK", column("Log", "Marks"))), { look: "answer" }),
    put(21, 1, formula(operation(1, "+", call("SUM", column("Log", "Caught %")))), { look: "answer" }),
    put(20, 5, spill(twirl("BOARD", column("Log", "Marks")))),
    put(24, 1, formula(call("IFNA", twirl("CATCHRATE", column("Log", "Marks")), "none"))),
    put(25, 1, formula(twirl("READYDATE", column("Log", "Marks")))),
    put(26, 1, number(0.1), { format: "percent" }),
  ],
  tables: [
    {
      name: "Log",
      at: { row: 14, column: 1 },
      columns: [
        { heading: "Trick", format: "text" },
        {
          heading: "Marks",
          format: "text",
          validation: { allowed: { kind: "none" }, inputTitle: "Marks", inputMessage: 'c, d & "b"' },
        },
        { heading: "Caught %", format: "percent", formula: operation(thisRow("Log", "Trick"), "&", "x<y") },
      ],
      rows: [
        [text("+1 spin"), text("8/10"), { kind: "empty" }],
        [text("Illusion"), text("0110"), { kind: "empty" }],
      ],
    },
  ],
  validations: [
    {
      on: { row: 26, column: 1, rows: 1, columns: 1 },
      validation: { allowed: { kind: "number", least: 0.1, most: 0.99, whole: false }, errorMessage: "A share" },
    },
    {
      on: { row: 27, column: 1, rows: 1, columns: 1 },
      validation: {
        allowed: { kind: "list", source: { kind: "column", table: "Log", column: "Trick" }, strict: false },
        errorMessage: "Keep it?",
      },
    },
    {
      on: { row: 28, column: 1, rows: 1, columns: 1 },
      validation: { allowed: { kind: "list", source: { kind: "words", words: ["m", "ft"] }, strict: true } },
    },
    { on: { row: 29, column: 1, rows: 1, columns: 1 }, validation: { allowed: { kind: "date" } } },
  ],
  rules: [{ on: { row: 21, column: 5, rows: 3, columns: 1 }, text: "At risk", look: "risk" }],
  charts: [
    {
      name: "Rates",
      title: "Rates & more",
      description: 'The rate of each trick, "as it is"',
      on: { row: 30, column: 2, rows: 12, columns: 5 },
      across: { title: "Trick", format: "whole" },
      up: { title: "Rate", format: "percent", least: 0, most: 1 },
      series: [
        {
          name: "Rate",
          across: { row: 20, column: 1, rows: 2, columns: 1 },
          up: { row: 20, column: 6, rows: 2, columns: 1 },
          look: "rate",
        },
        {
          name: "Frame",
          across: { row: 20, column: 1, rows: 2, columns: 1 },
          up: { row: 20, column: 1, rows: 2, columns: 1 },
          look: "frame",
        },
      ],
    },
  ],
  frozen: { rows: 2, columns: 1 },
};

const plan: WorkbookPlan = { sheets: [practice], active: practice.name };

const numberValue = (value: number): CalculatedValue => ({ kind: "number", value });
const textValue = (words: string): CalculatedValue => ({ kind: "text", text: words });

const calculated: CalculatedWorkbook = new Map([
  [
    practice.name,
    {
      values: new Map<string, CalculatedValue>([
        ["C15", textValue("+1 spinx<y")],
        ["A20", numberValue(-3)],
        ["A21", { kind: "boolean", value: true }],
        ["A24", textValue("a < b")],
        ["A25", { kind: "error", name: "#N/A" }],
        ["E20", textValue("Trick")],
        ["F20", textValue("Rate")],
        ["E21", textValue("8/10")],
        ["F21", numberValue(0.75)],
        ["E22", textValue("")],
        ["F22", { kind: "error", name: "#SPILL!" }],
      ]),
      spills: new Map([["E20", { rows: 3, columns: 2 }]]),
    },
  ],
]);

const bytes = writeWorkbookFile(plan, calculated);
const small = new Package(bytes);
const season = new Package(writeWorkbookFile(sampleSeason()));
const packages = [
  ["the small workbook", small],
  ["the sample season", season],
] as const;

function cell(address: string): Element {
  const found = small.cells(practice.name).get(address);
  if (!found) throw new Error(`no cell ${address}`);
  return found;
}

describe.each(packages)("the package of %s", (_, file) => {
  test("every part is XML, has a content type, and is reached by a relation", () => {
    const types = file.elements("[Content_Types].xml", "Override").map((one) => attribute(one, "PartName").slice(1));
    expect(new Set(types).size).toBe(types.length);
    const parts = file.paths.filter((path) => !path.endsWith(".rels") && path !== "[Content_Types].xml");
    expect(new Set(types)).toEqual(new Set(parts));

    const owners = ["", ...file.paths.filter((path) => path.endsWith(".rels") && path !== "_rels/.rels")].map((path) =>
      path.replace("_rels/", "").replace(/\.rels$/, ""),
    );
    const reached = owners.flatMap((owner) => [...file.relations(owner).values()].map(({ path }) => path));
    expect(new Set(reached)).toEqual(new Set(parts));
    expect(reached.length).toBe(parts.length);
    for (const path of file.paths) expect(file.xml(path).documentElement).toBeTruthy();
  });

  test("nothing makes the host work everything out again on opening", () => {
    expect(file.paths.some((path) => /calcChain/i.test(path))).toBe(false);
    const [calculation] = file.elements("xl/workbook.xml", "calcPr");
    if (!calculation) throw new Error("no calcPr");
    expect(calculation.getAttribute("calcId")).toBe("191029");
    expect(calculation.hasAttribute("fullCalcOnLoad")).toBe(false);
  });

  test("each sheet's elements stand in the order of the schema", () => {
    const order = ["sheetPr", "dimension", "sheetViews", "sheetFormatPr", "cols", "sheetData", "conditionalFormatting"];
    order.push("dataValidations", "pageMargins", "pageSetup", "drawing", "tableParts");
    for (const path of file.paths.filter((one) => one.startsWith("xl/worksheets/sheet"))) {
      const root = file.xml(path).documentElement;
      const names = [...(root?.childNodes ?? [])].map((node) => node.nodeName);
      const positions = names.map((name) => order.indexOf(name));
      expect(positions).not.toContain(-1);
      expect(positions).toEqual([...positions].sort((one, other) => one - other));
    }
  });

  test("cells stand in order, once each, and point at styles and strings that exist", () => {
    const strings = file.elements("xl/sharedStrings.xml", "si").length;
    const [styleList] = file.elements("xl/styles.xml", "cellXfs");
    const styles = styleList ? elementsIn(styleList, "xf").length : 0;
    for (const path of file.paths.filter((one) => one.startsWith("xl/worksheets/sheet"))) {
      let lastRow = 0;
      for (const row of file.elements(path, "row")) {
        expect(Number(attribute(row, "r"))).toBeGreaterThan(lastRow);
        lastRow = Number(attribute(row, "r"));
        let last = "";
        for (const one of elementsIn(row, "c")) {
          const address = attribute(one, "r");
          expect(address.replace(/^[A-Z]+/, "")).toBe(String(lastRow));
          const letters = address.replace(/\d+$/, "");
          expect(letters.length > last.length || letters > last).toBe(true);
          last = letters;
          expect(Number(attribute(one, "s"))).toBeLessThan(styles);
          if (one.getAttribute("t") === "s") expect(Number(childText(one, "v"))).toBeLessThan(strings);
        }
      }
    }
  });

  test("tables have ids and names of their own, and columns called as their heading cells", () => {
    const tables = file.paths
      .filter((path) => path.startsWith("xl/tables/"))
      .map((path) => file.xml(path).documentElement);
    const ids = tables.map((table) => table?.getAttribute("id"));
    const names = tables.map((table) => table?.getAttribute("displayName"));
    expect(new Set(ids).size).toBe(tables.length);
    expect(new Set(names).size).toBe(tables.length);
    let checked = 0;
    for (const sheet of file.elements("xl/workbook.xml", "sheet")) {
      const name = attribute(sheet, "name");
      const path = file.sheetPath(name);
      for (const part of file.elements(path, "tablePart")) {
        const relation = file.relations(path).get(attribute(part, "r:id"));
        const table = relation && file.xml(relation.path).documentElement;
        if (!table) throw new Error("a table part leads nowhere");
        const [from = "", to = ""] = attribute(table, "ref").split(":");
        const row = Number(from.replace(/\D+/, ""));
        expect(Number(to.replace(/\D+/, ""))).toBeGreaterThan(row);
        // Letters are digits from 1 to 26.
        const first = [...from.replace(/\d/g, "")].reduce((sum, letter) => 26 * sum + letter.charCodeAt(0) - 64, 0);
        elementsIn(table, "tableColumn").forEach((tableColumn, index) => {
          const heading = file.cells(name).get(cellName({ row, column: first + index }));
          expect(heading && file.sharedText(heading)).toBe(attribute(tableColumn, "name"));
          expect(attribute(tableColumn, "id")).toBe(String(index + 1));
          checked += 1;
        });
      }
    }
    expect(checked).toBeGreaterThan(0);
  });

  test("every call of ours and every spill is a dynamic array, and nothing else is", () => {
    let calls = 0;
    for (const path of file.paths.filter((one) => one.startsWith("xl/worksheets/sheet"))) {
      for (const one of file.elements(path, "c")) {
        const [written] = elementsIn(one, "f");
        const ours = /_xldudf_TWIRL_/.test(written?.textContent ?? "");
        expect(written?.textContent ?? "").not.toMatch(/TWIRL\./);
        const isArray = written?.getAttribute("t") === "array";
        expect(one.getAttribute("cm")).toBe(isArray ? "1" : null);
        if (ours) expect(isArray).toBe(true);
        if (isArray) expect(written?.getAttribute("ref")?.startsWith(attribute(one, "r"))).toBe(true);
        if (ours) calls += 1;
      }
    }
    expect(calls).toBeGreaterThan(0);
  });

  test("the mark leads to the dynamic array property", () => {
    const relation = [...file.relations("xl/workbook.xml").values()].find(({ path }) => path === "xl/metadata.xml");
    expect(relation?.type).toBe("http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata");
    const [type] = file.elements("xl/metadata.xml", "metadataType");
    const [future] = file.elements("xl/metadata.xml", "futureMetadata");
    const [cellRecords] = file.elements("xl/metadata.xml", "cellMetadata");
    const record = cellRecords && elementsIn(cellRecords, "rc")[0];
    const property = future && elementsIn(future, "xda:dynamicArrayProperties")[0];
    expect(type?.getAttribute("name")).toBe("XLDAPR");
    expect(type?.getAttribute("minSupportedVersion")).toBe("120000");
    expect(type?.getAttribute("cellMeta")).toBe("1");
    expect(future?.getAttribute("name")).toBe("XLDAPR");
    expect([record?.getAttribute("t"), record?.getAttribute("v")]).toEqual(["1", "0"]);
    expect([property?.getAttribute("fDynamic"), property?.getAttribute("fCollapsed")]).toEqual(["1", "0"]);
    expect(property?.namespaceURI).toBe("http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray");
    expect(future && elementsIn(future, "ext")[0]?.getAttribute("uri")).toBe("{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}");
  });
});

describe("answers", () => {
  const answers = [
    { address: "A20", type: null, value: "-3", because: "a number has no type" },
    { address: "A21", type: "b", value: "1", because: "a boolean is 1 or 0" },
    { address: "A24", type: "str", value: "a < b", because: "a formula's text is not a shared string" },
    { address: "A25", type: "e", value: "#N/A", because: "an error is kept by its name" },
    { address: "E20", type: "str", value: "Trick", because: "the spill's own cell" },
    { address: "E21", type: "str", value: "8/10", because: "a tally that is spilled stays text" },
    { address: "F21", type: null, value: "0.75", because: "a spilled number" },
    { address: "E22", type: "str", value: "", because: "an empty text is an answer" },
    { address: "F22", type: "e", value: "#VALUE!", because: "the format has no #SPILL!" },
  ];
  test.each(answers)("$address: $because", ({ address, type, value }) => {
    expect(cell(address).getAttribute("t")).toBe(type);
    expect(childText(cell(address), "v")).toBe(value);
  });

  test("a spill's block is as large as its answer, and its other cells hold no formula", () => {
    expect(elementsIn(cell("E20"), "f")[0]?.getAttribute("ref")).toBe("E20:F22");
    for (const address of ["F20", "E21", "F21", "E22", "F22"]) expect(elementsIn(cell(address), "f")).toHaveLength(0);
    expect(elementsIn(cell("E23"), "v")).toHaveLength(0);
  });

  test("a spilled cell is drawn as the area under it", () => {
    expect(cell("F21").getAttribute("s")).toBe(cell("G23").getAttribute("s"));
  });

  test("without answers a formula stands in its own cell, with no value", () => {
    const file = new Package(writeWorkbookFile(plan));
    const board = file.cells(practice.name).get("E20");
    expect(board && elementsIn(board, "f")[0]?.getAttribute("ref")).toBe("E20");
    expect(board && elementsIn(board, "v")).toHaveLength(0);
  });

  test("an answer that falls on something planned is refused", () => {
    const tooLarge: CalculatedWorkbook = new Map([
      [practice.name, { values: new Map(), spills: new Map([["E20", { rows: 1, columns: 9 }]]) }],
    ]);
    const inTheWay = { ...practice, cells: [...practice.cells, put(20, 9, text("here"))] };
    expect(() => writeWorkbookFile({ sheets: [inTheWay], active: practice.name }, tooLarge)).toThrow(/spills over I20/);
  });

  test.each([NaN, Infinity])("%p is refused", (value) => {
    const wrong: CalculatedWorkbook = new Map([
      [practice.name, { values: new Map([["A20", numberValue(value)]]), spills: new Map() }],
    ]);
    expect(() => writeWorkbookFile(plan, wrong)).toThrow(/cannot answer/);
  });
});

describe("text", () => {
  const styleOf = (address: string): Element | undefined => {
    const [list] = small.elements("xl/styles.xml", "cellXfs");
    return list && elementsIn(list, "xf")[Number(cell(address).getAttribute("s"))];
  };

  test("what reads as a formula is a string, and stays one when it is edited", () => {
    expect(small.sharedText(cell("I1"))).toBe("=HYPERLINK(1)");
    expect(elementsIn(cell("I1"), "f")).toHaveLength(0);
    expect(styleOf("I1")?.getAttribute("quotePrefix")).toBe("1");
  });

  test("marks are strings in cells formatted as text", () => {
    for (const [address, marks] of [
      ["B15", "8/10"],
      ["B16", "0110"],
    ] as const) {
      expect(small.sharedText(cell(address))).toBe(marks);
      // 49 is the format's own number for text (ECMA-376 part 1, 18.8.30).
      expect(styleOf(address)?.getAttribute("numFmtId")).toBe("49");
    }
  });

  test("the rows below a table are formatted as its columns, so that 8/10 typed there is no date", () => {
    const columns = small.elements(small.sheetPath(practice.name), "col");
    const marks = columns.find((one) => attribute(one, "min") === "2");
    const [list] = small.elements("xl/styles.xml", "cellXfs");
    const style = list && elementsIn(list, "xf")[Number(marks?.getAttribute("style"))];
    expect(style?.getAttribute("numFmtId")).toBe("49");
  });

  test("a calculated column is one in the table's part as well", () => {
    const [path = ""] = small.paths.filter((one) => one.startsWith("xl/tables/"));
    expect(small.elements(path, "calculatedColumnFormula").map((one) => one.textContent)).toEqual([
      'Log[[#This Row],[Trick]]&"x<y"',
    ]);
    expect(childText(cell("C16"), "f")).toBe('Log[[#This Row],[Trick]]&"x<y"');
  });
});

describe("validation", () => {
  const validations = new Map(
    small.elements(small.sheetPath(practice.name), "dataValidation").map((one) => [attribute(one, "sqref"), one]),
  );

  test("of a table's column reaches 2,000 rows down", () => {
    const marks = validations.get("B15:B2014");
    expect(marks?.getAttribute("prompt")).toBe('c, d & "b"');
    expect(marks?.hasAttribute("type")).toBe(false);
    expect(marks?.hasAttribute("showErrorMessage")).toBe(false);
  });

  test.each([
    { on: "A26", type: "decimal", style: null, formulas: ["0.1", "0.99"] },
    { on: "A27", type: "list", style: "warning", formulas: ["'Practice M.K.''s & co'!$A$15:$A$16"] },
    { on: "A28", type: "list", style: null, formulas: ['"m,ft"'] },
    { on: "A29", type: "date", style: null, formulas: ["29221", "65745"] },
  ])("on $on is $type", ({ on, type, style, formulas }) => {
    const validation = validations.get(on);
    if (!validation) throw new Error(`no validation on ${on}`);
    expect(validation.getAttribute("type")).toBe(type);
    expect(validation.getAttribute("errorStyle")).toBe(style);
    const written = ["formula1", "formula2"].flatMap((name) => childText(validation, name) ?? []);
    expect(written).toEqual(formulas);
  });
});

test("a status rule names its colours", () => {
  const [rule] = small.elements(small.sheetPath(practice.name), "cfRule");
  const [list] = small.elements("xl/styles.xml", "dxfs");
  const drawing = list && elementsIn(list, "dxf")[Number(rule?.getAttribute("dxfId"))];
  expect(rule && childText(rule, "formula")).toBe('"At risk"');
  expect(drawing && elementsIn(drawing, "bgColor")[0]?.getAttribute("rgb")).toMatch(/^FF[0-9A-F]{6}$/);
});

describe("a chart", () => {
  const sheetPath = small.sheetPath(practice.name);
  const [drawingMark] = small.elements(sheetPath, "drawing");
  const drawing = small.relations(sheetPath).get(drawingMark?.getAttribute("r:id") ?? "");
  const drawingPath = drawing?.path ?? "";
  const [chartMark] = small.elements(drawingPath, "c:chart");
  const chart = small.relations(drawingPath).get(chartMark?.getAttribute("r:id") ?? "");
  const chartPath = chart?.path ?? "";
  const values = (element: Element | undefined, name: string) =>
    element === undefined ? [] : elementsIn(element, name).map((one) => one.getAttribute("val"));

  test("is reached from its sheet through a drawing", () => {
    expect(drawing?.type).toMatch(/\/relationships\/drawing$/);
    expect(chart?.type).toMatch(/\/relationships\/chart$/);
    expect(drawingPath).toBe("xl/drawings/drawing1.xml");
    expect(chartPath).toBe("xl/charts/chart1.xml");
  });

  test("covers the cells of its plan, counted from 0, and says what it shows", () => {
    const corner = (name: string): (string | undefined)[] => {
      const [element] = small.elements(drawingPath, name);
      return element ? [childText(element, "xdr:row"), childText(element, "xdr:col")] : [];
    };
    expect(corner("xdr:from")).toEqual(["29", "1"]);
    expect(corner("xdr:to")).toEqual(["41", "6"]);
    expect(small.elements(drawingPath, "xdr:cNvPr")[0]?.getAttribute("descr")).toBe(
      'The rate of each trick, "as it is"',
    );
    expect(small.elements(chartPath, "a:t").map((one) => one.textContent)).toEqual(["Rates & more", "Trick", "Rate"]);
  });

  test("its series read their cells, and hold the numbers that are in them now", () => {
    const [first] = small.elements(chartPath, "c:ser");
    if (!first) throw new Error("no series");
    expect(elementsIn(first, "c:f").map((one) => one.textContent)).toEqual([
      "'Practice M.K.''s & co'!$A$20:$A$21",
      "'Practice M.K.''s & co'!$F$20:$F$21",
    ]);
    // A20 answers -3 and A21 TRUE, which is no number; F20 answers a word and F21 0.75.
    const cached = elementsIn(first, "c:numCache").map((cache) =>
      elementsIn(cache, "c:pt").map((point) => [point.getAttribute("idx"), childText(point, "c:v")]),
    );
    expect(cached).toEqual([[["0", "-3"]], [["1", "0.75"]]]);
  });

  test("its axes keep their ends, cross each other, and the frame is not in the key", () => {
    const axes = small.elements(chartPath, "c:valAx");
    expect(axes.map((axis) => [values(axis, "c:axId"), values(axis, "c:crossAx")])).toEqual([
      [["1001"], ["1002"]],
      [["1002"], ["1001"]],
    ]);
    expect(values(axes[1], "c:min")).toEqual(["0"]);
    expect(values(axes[1], "c:max")).toEqual(["1"]);
    const [hidden] = small.elements(chartPath, "c:legendEntry");
    expect([values(hidden, "c:idx"), values(hidden, "c:delete")]).toEqual([["1"], ["1"]]);
  });

  /** ECMA-376 part 1, 21.2.2: the elements of each, in the order of the schema. */
  test.each([
    ["c:chartSpace", ["c:roundedCorners", "c:chart"]],
    ["c:chart", ["c:title", "c:autoTitleDeleted", "c:plotArea", "c:legend", "c:plotVisOnly", "c:dispBlanksAs"]],
    ["c:scatterChart", ["c:scatterStyle", "c:varyColors", "c:ser", "c:axId"]],
    ["c:ser", ["c:idx", "c:order", "c:tx", "c:spPr", "c:marker", "c:xVal", "c:yVal", "c:smooth"]],
    [
      "c:valAx",
      [
        ...["c:axId", "c:scaling", "c:delete", "c:axPos", "c:majorGridlines", "c:title", "c:numFmt"],
        ...["c:majorTickMark", "c:minorTickMark", "c:tickLblPos", "c:spPr", "c:crossAx", "c:crosses", "c:crossBetween"],
      ],
    ],
    ["c:scaling", ["c:orientation", "c:max", "c:min"]],
    ["c:legend", ["c:legendPos", "c:legendEntry", "c:overlay"]],
  ])("the parts of %s stand in the order of the schema", (name, order) => {
    const found = small.elements(chartPath, name);
    expect(found.length).toBeGreaterThan(0);
    for (const element of found) {
      const positions = [...element.childNodes].map((child) => order.indexOf(child.nodeName));
      expect(positions).not.toContain(-1);
      expect(positions).toEqual([...positions].sort((one, other) => one - other));
    }
  });
});

test("the bytes are the same each time, stamped with a fixed moment", () => {
  expect(Buffer.from(writeWorkbookFile(plan, calculated)).equals(Buffer.from(bytes))).toBe(true);
  // Local file header, offsets 10 and 12: time and date as MS-DOS has them; 0x21 is 1 January 1980.
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  expect([view.getUint16(10, true), view.getUint16(12, true)]).toEqual([0, 0x21]);
});

test("a plan that a spreadsheet would refuse is not written", () => {
  expect(() => writeWorkbookFile({ ...plan, active: "Board" })).toThrow(/cannot be written.*Board/);
});

describe("read back by a library that did not write it", () => {
  async function read(content: Uint8Array): Promise<Workbook> {
    const workbook = new Workbook();
    await workbook.xlsx.load(content);
    return workbook;
  }

  function sheetOf(workbook: Workbook, name: string): Worksheet {
    const sheet = workbook.getWorksheet(name);
    if (!sheet) throw new Error(`no sheet ${name}`);
    return sheet;
  }

  test("every text, number and date of the season is there", async () => {
    const seasonPlan = sampleSeason();
    const workbook = await read(writeWorkbookFile(seasonPlan));
    expect(workbook.worksheets.map(({ name }) => name)).toEqual(seasonPlan.sheets.map(({ name }) => name));
    let compared = 0;
    for (const sheetPlan of seasonPlan.sheets) {
      const sheet = sheetOf(workbook, sheetPlan.name);
      const planned = [
        ...sheetPlan.cells.map(({ at, content }) => ({ at, content })),
        ...sheetPlan.tables.flatMap((table) =>
          table.rows.flatMap((row, rowIndex) =>
            row.map((content, index) => ({
              at: { row: table.at.row + 1 + rowIndex, column: table.at.column + index },
              content,
            })),
          ),
        ),
      ];
      for (const { at, content } of planned) {
        const value = sheet.getCell(at.row, at.column).value;
        if (content.kind === "text") expect(value).toBe(content.text);
        if (content.kind === "number") expect(value).toBe(content.value);
        if (content.kind === "date") {
          expect(value).toEqual(new Date(Date.UTC(1899, 11, 30) + content.serial * 86_400_000));
        }
        if (content.kind !== "empty" && content.kind !== "formula") compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(2000);
  });

  test("awkward texts and answers come back as they were", async () => {
    const sheet = sheetOf(await read(bytes), practice.name);
    awkwardTexts.forEach((words, index) => {
      expect(sheet.getCell(1 + index, 9).value).toBe(words);
    });
    expect(sheet.getCell("E20").value).toMatchObject({ ref: "E20:F22", result: "Trick" });
    expect(sheet.getCell("F21").value).toBe(0.75);
  });
});
