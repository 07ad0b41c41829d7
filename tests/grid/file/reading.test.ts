import {
  BooleanNumber,
  BorderStyleTypes,
  CellValueType,
  DataValidationErrorStyle,
  DataValidationOperator,
  DataValidationType,
  HorizontalAlign,
  type ICellData,
  type IStyleData,
  VerticalAlign,
  WrapStrategy,
} from "@univerjs/core";
import { CFRuleType, CFSubRuleType } from "@univerjs/sheets-conditional-formatting";

import { cellAddress } from "../../../src/page/addresses";
import { PREPARED_ROWS } from "../../../src/grid/adapter/grid-writer";
import { readColour, readPalette } from "../../../src/xlsx/parts/styles/colours";
import { builtInFormat, showsDate } from "../../../src/xlsx/parts/styles/number-formats";
import { type ReadWorkbook, toGridWorkbook } from "../../../src/grid/file/open";
import { documentText } from "../../../src/grid/file/cells/rich-text";
import { findUnshown } from "../../../src/grid/file/unshown";
import { WorkbookPackage } from "../../../src/xlsx/package/workbook-package";
import { parseXml } from "../../../src/xlsx/xml/tree";
import { bookFile, type BookParts, readBook, rowOf } from "./parts";

function cell(book: ReadWorkbook, address: string, sheet = 0): ICellData | undefined {
  const { row, column } = cellAddress(address);
  return book.sheets[sheet]?.sheet.cellData?.[row]?.[column] ?? undefined;
}

function style(book: ReadWorkbook, address: string): IStyleData | undefined {
  const id = cell(book, address)?.s;
  return toGridWorkbook(book, "Book").styles[typeof id === "string" ? id : ""] ?? undefined;
}

/** Cell styles after the usual one, each given by the attributes and content of its `xf`. */
function styles(...formats: readonly string[]): string {
  return `<cellXfs><xf/>${formats.join("")}</cellXfs>`;
}

describe("values", () => {
  const book = readBook({
    strings:
      "<si><t>Double turn</t></si><si><t xml:space='preserve'> 0110</t></si><si><t>漢字</t><rPh sb='0' eb='2'><t>かんじ</t></rPh></si>",
    sheets: [
      {
        rows:
          rowOf(
            '<c r="A1"><v>1.5</v></c>',
            '<c r="B1" t="s"><v>0</v></c>',
            '<c r="C1" t="s"><v>1</v></c>',
            '<c r="D1" t="inlineStr"><is><t>=1+1</t></is></c>',
            '<c r="E1" t="b"><v>1</v></c>',
            '<c r="F1" t="e"><v>#N/A</v></c>',
            '<c r="G1" t="d"><v>2027-03-01T18:30:00</v></c>',
            '<c r="H1" t="s"><v>2</v></c>',
            '<c r="I1" t="str"><f>"a"&amp;"b"</f><v>ab_x000A_c</v></c>',
            '<c r="J1"/>',
          ) + "<row><c><v>7</v></c><c><v>8</v></c></row>",
      },
    ],
  });

  test.each<[string, ICellData]>([
    ["A1", { v: 1.5, t: CellValueType.NUMBER }],
    ["B1", { v: "Double turn", t: CellValueType.STRING }],
    ["C1", { v: " 0110", t: CellValueType.STRING }],
    ["D1", { v: "=1+1", t: CellValueType.STRING }],
    ["E1", { v: 1, t: CellValueType.BOOLEAN }],
    ["F1", { v: "#N/A", t: CellValueType.STRING }],
    // 1 March 2027 is day 46447; half past six in the evening is 18.5/24 of a day.
    ["G1", { v: 46447 + 18.5 / 24, t: CellValueType.NUMBER }],
    ["H1", { v: "漢字", t: CellValueType.STRING }],
    ["I1", { f: '="a"&"b"', v: "ab\nc", t: CellValueType.STRING }],
  ])("%s holds %j", (address, expected) => {
    expect(cell(book, address)).toEqual(expected);
  });

  test("an empty cell without a look is nothing", () => {
    expect(cell(book, "J1")).toBeUndefined();
  });

  test("an empty cell far down keeps room for what is still to be spilled there, in reason", () => {
    const far = readBook({
      sheets: [
        { rows: `${rowOf('<c r="A1"><v>1</v></c>')}<row r="3105"><c r="B3105"/></row>` },
        { rows: `${rowOf('<c r="A1"><v>1</v></c>')}<row r="1048576"><c r="A1048576"/></row>` },
        { rows: `${rowOf('<c r="A1"><v>1</v></c>')}<row r="1048576"/>` },
      ],
    });
    expect(far.sheets.map(({ sheet }) => sheet.rowCount)).toEqual([3105, 200_000, 1001]);
  });

  test("rows and cells without an address follow each other", () => {
    expect([cell(book, "A2")?.v, cell(book, "B2")?.v]).toEqual([7, 8]);
  });

  test("letters drawn in several ways keep their ways, and their text counts as the value", () => {
    const rich = readBook({
      strings:
        '<si><r><t>8</t></r><r><rPr><b/><color rgb="FFFF0000"/><rFont val="Arial"/></rPr><t>/10\ntoday</t></r></si>',
      sheets: [{ rows: rowOf('<c r="A1" t="s"><v>0</v></c>') }],
    });
    const found = cell(rich, "A1");
    expect(found?.v).toBe("8/10\ntoday");
    expect(found?.p && documentText(found.p)).toBe("8/10\ntoday");
    expect(found?.p?.body?.textRuns).toEqual([
      { st: 1, ed: 10, ts: { ff: "Arial", bl: BooleanNumber.TRUE, cl: { rgb: "#FF0000" } } },
    ]);
  });

  test("dates counted from 1904 are moved to the grid's count, numbers are not", () => {
    const old = readBook({
      beforeSheets: '<workbookPr date1904="1"/>',
      styles: styles('<xf numFmtId="14"/>', '<xf numFmtId="1"/>'),
      sheets: [{ rows: rowOf('<c r="A1" s="1"><v>44985</v></c>', '<c r="B1" s="2"><v>44985</v></c>') }],
    });
    // The two counts lie 1,462 days apart (ECMA-376 part 1, 18.17.4.1).
    expect([cell(old, "A1")?.v, cell(old, "B1")?.v]).toEqual([46447, 44985]);
  });
});

describe("formulas", () => {
  test("shared ones are each cell's own", () => {
    const book = readBook({
      sheets: [
        {
          rows:
            '<row r="1"><c r="B1"><f t="shared" ref="B1:B3" si="0">A1*$C$1</f><v>2</v></c></row>' +
            '<row r="2"><c r="B2"><f t="shared" si="0"/><v>4</v></c></row>' +
            '<row r="3"><c r="B3"><f t="shared" si="0"/><v>6</v></c></row>',
        },
      ],
    });
    expect(["B1", "B2", "B3"].map((address) => cell(book, address)?.f)).toEqual(["=A1*$C$1", "=A2*$C$1", "=A3*$C$1"]);
  });

  test("one that spills leaves its cells to the spill, with their looks", () => {
    const book = readBook({
      styles: styles('<xf fontId="0"><alignment horizontal="right"/></xf>'),
      sheets: [
        {
          rows:
            '<row r="1"><c r="A1" t="str" cm="1"><f t="array" ref="A1:B2">_xldudf_TWIRL_TALLY(D1:D9)</f><v>Mark</v></c>' +
            '<c r="B1" t="str"><v>Count</v></c><c r="C1"><v>3</v></c></row>' +
            '<row r="2"><c r="A2" s="1" t="str"><v>c</v></c><c r="B2"><v>4</v></c></row>' +
            '<row r="3"><c r="A3" t="str"><v>typed</v></c></row>',
        },
      ],
    });
    expect(cell(book, "A1")).toEqual({ f: "=TWIRL.TALLY(D1:D9)", v: "Mark", t: CellValueType.STRING });
    expect([cell(book, "B1"), cell(book, "B2")]).toEqual([undefined, undefined]);
    expect(cell(book, "A2")).toEqual({ s: "x1" });
    expect([cell(book, "C1")?.v, cell(book, "A3")?.v]).toEqual([3, "typed"]);
  });

  test("one that the grid cannot work out shows its last answer, and so does all that it spilled", () => {
    const book = readBook({
      sheets: [
        {
          rows: rowOf(
            '<c r="A1"><f>[1]Log!A1</f><v>12</v></c>',
            '<c r="B1"><f t="array" ref="B1:C1">[1]Log!A1:B1</f><v>1</v></c>',
            '<c r="C1"><v>2</v></c>',
            '<c r="D1"><f t="dataTable" ref="D1:D2" r1="A1"/><v>9</v></c>',
          ),
        },
      ],
    });
    expect(["A1", "B1", "C1", "D1"].map((address) => cell(book, address))).toEqual(
      [12, 1, 2, 9].map((v) => ({ v, t: CellValueType.NUMBER })),
    );
    expect(book.sheets[0]?.keptFormulas).toHaveLength(3);
  });

  test("a table's columns are known, its calculated columns too, and totals are not rows", () => {
    const table =
      '<table name="Log" displayName="Log" ref="A1:C4" totalsRowCount="1"><tableColumns count="3">' +
      '<tableColumn id="1" name="Marks"/><tableColumn id="2" name="Two_x000A_lines"/>' +
      '<tableColumn id="3" name="Twice"><calculatedColumnFormula>[@Marks]*2</calculatedColumnFormula></tableColumn>' +
      "</tableColumns></table>";
    const book = readBook({
      sheets: [{ rows: '<row r="2"><c r="C2"><f>[@Marks]*2</f><v>2</v></c></row>', tables: [table] }],
    });
    expect(cell(book, "C2")?.f).toBe("=Log[[#This Row],[Marks]]*2");
    const grid = book.sheets[0]?.tables[0]?.grid;
    expect(grid?.range).toEqual({ startRow: 0, endRow: 2, startColumn: 0, endColumn: 2 });
    expect(grid?.columns.map(({ displayName, formula }) => [displayName, formula])).toEqual([
      ["Marks", ""],
      ["Two\nlines", ""],
      ["Twice", "=Log[[#This Row],[Marks]]*2"],
    ]);
  });

  test("names stand for their cells; those of the program itself and of unknown things are left out", () => {
    const book = readBook({
      sheets: [{ name: "A b" }, { rows: rowOf('<c r="A1"><f>Other+1</f><v>5</v></c>') }],
      afterSheets:
        "<definedNames><definedName name='Standard'>'A b'!$B$2</definedName>" +
        "<definedName name='Rate' localSheetId='1'>SUM(Sheet2!$A:$A)/10</definedName>" +
        "<definedName name='_xlnm.Print_Area' localSheetId='0'>'A b'!$A$1:$B$9</definedName>" +
        "<definedName name='Other'>[1]Log!$A$1</definedName></definedNames>",
    });
    expect(
      Object.values(book.names.names).map((name) => [name.name, name.formulaOrRefString, name.localSheetId]),
    ).toEqual([
      ["Standard", "'A b'!$B$2", "AllDefaultWorkbook"],
      ["Rate", "=SUM(Sheet2!$A:$A)/10", "sheet-2"],
    ]);
    expect(cell(book, "A1", 1)).toEqual({ v: 5, t: CellValueType.NUMBER });
  });
});

describe("looks", () => {
  test("come from the cell's style", () => {
    const book = readBook({
      styles:
        '<numFmts><numFmt numFmtId="164" formatCode="0.0&quot; m&quot;"/></numFmts>' +
        '<fonts><font/><font><b/><i val="1"/><strike val="0"/><u/><sz val="14"/><color theme="4"/><name val="Georgia"/></font></fonts>' +
        '<fills><fill/><fill/><fill><patternFill patternType="solid"><fgColor indexed="13"/></patternFill></fill></fills>' +
        '<borders><border/><border><left style="thin"><color rgb="FF102030"/></left><bottom style="double"/></border></borders>' +
        styles(
          '<xf numFmtId="164" fontId="1" fillId="2" borderId="1"><alignment horizontal="center" vertical="top" wrapText="1" textRotation="45"/></xf>',
        ),
      sheets: [{ rows: rowOf('<c r="A1" s="1"><v>2</v></c>') }],
    });
    expect(style(book, "A1")).toEqual({
      bl: BooleanNumber.TRUE,
      it: BooleanNumber.TRUE,
      ul: { s: BooleanNumber.TRUE },
      fs: 14,
      ff: "Georgia",
      cl: { rgb: "#4472C4" },
      bg: { rgb: "#FFFF00" },
      bd: {
        l: { s: BorderStyleTypes.THIN, cl: { rgb: "#102030" } },
        b: { s: BorderStyleTypes.DOUBLE, cl: { rgb: "#000000" } },
      },
      n: { pattern: '0.0" m"' },
      ht: HorizontalAlign.CENTER,
      vt: VerticalAlign.TOP,
      tb: WrapStrategy.WRAP,
      tr: { a: -45 },
    });
  });

  // What the program itself shows for its usual theme: "Blue, Accent 1, Lighter 80 %" and so on.
  test.each([
    [4, 0.79998168889431442, "#D9E1F2"],
    [4, 0.39997558519241921, "#8EA9DB"],
    [4, -0.249977111117893, "#305496"],
    [4, -0.499984740745262, "#203764"],
    [0, -0.14999847407452621, "#D9D9D9"],
    [1, 0.499984740745262, "#808080"],
    [7, 0.79998168889431442, "#FFF2CC"],
    [9, -0.249977111117893, "#548235"],
  ])("theme colour %i with tint %f is %s", (theme, tint, expected) => {
    const colour =
      readColour(parseXml(`<c theme="${theme}" tint="${tint}"/>`).root, readPalette(undefined, undefined)) ?? "";
    const parts = (text: string): number[] => [1, 3, 5].map((at) => Number.parseInt(text.slice(at, at + 2), 16));
    // The program counts hue and lightness in steps of 1/240: up to three steps of 255 apart, which no eye sees.
    parts(colour).forEach((part, index) =>
      expect(Math.abs(part - (parts(expected)[index] ?? 0))).toBeLessThanOrEqual(3),
    );
  });

  test("a theme and a palette of the file's own win", () => {
    const book = readBook({
      theme:
        '<a:theme xmlns:a="x"><a:themeElements><a:clrScheme name="n"><a:dk1><a:sysClr val="windowText" lastClr="111111"/></a:dk1>' +
        '<a:lt1><a:srgbClr val="FEFEFE"/></a:lt1><a:accent1><a:srgbClr val="ABCDEF"/></a:accent1></a:clrScheme></a:themeElements></a:theme>',
      styles:
        "<fonts><font/><font><color theme='1'/></font><font><color theme='4'/></font><font><color indexed='1'/></font></fonts>" +
        styles('<xf fontId="1"/>', '<xf fontId="2"/>', '<xf fontId="3"/>') +
        '<colors><indexedColors><rgbColor rgb="00000000"/><rgbColor rgb="00123456"/></indexedColors></colors>',
      sheets: [{ rows: rowOf('<c r="A1" s="1"/>', '<c r="B1" s="2"/>', '<c r="C1" s="3"><v>1</v></c>') }],
    });
    expect(["A1", "B1", "C1"].map((address) => style(book, address)?.cl)).toEqual([
      { rgb: "#111111" },
      { rgb: "#ABCDEF" },
      { rgb: "#123456" },
    ]);
  });

  test.each([
    ["d mmm yyyy", true],
    ["[$-409]h:mm AM/PM;@", true],
    ["[h]:mm", true],
    ["General", false],
    ["@", false],
    ['0.0" days"', false],
    ["[Red]0.00;[Blue]-0.00", false],
    ["0.00E+00", false],
    ["\\d0", false],
    ["_-* #,##0.00_-", false],
  ])("%s shows a date: %s", (code, expected) => {
    expect(showsDate(code)).toBe(expected);
  });

  test("the formats that have numbers of their own are known", () => {
    expect(builtInFormat("0%")).toBe(9);
    expect(builtInFormat("@")).toBe(49);
    expect(builtInFormat("d mmm yyyy")).toBeUndefined();
  });
});

describe("what lies around the cells", () => {
  const book = readBook({
    styles: styles('<xf numFmtId="49"/>'),
    sheets: [
      {
        name: "Log",
        before:
          '<sheetPr><tabColor rgb="FF00AA00"/></sheetPr>' +
          '<sheetViews><sheetView showGridLines="0" zoomScale="120"><pane xSplit="1" ySplit="2" topLeftCell="B3" state="frozen"/></sheetView></sheetViews>' +
          '<sheetFormatPr defaultRowHeight="15"/><cols><col min="1" max="2" width="9.140625"/><col min="3" max="3" width="20" hidden="1"/>' +
          '<col min="5" max="5" width="12" style="1"/></cols>',
        rows:
          '<row r="1" ht="30" customHeight="1"><c r="A1"><v>1</v></c></row><row r="2" hidden="1"/>' +
          '<row r="3"><c r="E3" s="1" t="inlineStr"><is><t>8/10</t></is></c></row>',
        after: '<mergeCells><mergeCell ref="A1:B2"/></mergeCells>',
      },
      { name: "Old", state: "hidden" },
      { name: "Older", state: "veryHidden" },
    ],
  });
  const sheet = book.sheets[0]?.sheet;

  test("widths, heights, hidden rows, columns and sheets", () => {
    // 64 pixels for the usual 9.140625 characters, 20 pixels for 15 points: what the program shows.
    expect([sheet?.columnData?.[0]?.w, sheet?.columnData?.[1]?.w]).toEqual([64, 64]);
    expect(sheet?.columnData?.[2]?.hd).toBe(BooleanNumber.TRUE);
    expect([sheet?.defaultColumnWidth, sheet?.defaultRowHeight]).toEqual([64, 20]);
    expect(sheet?.rowData?.[0]?.h).toBe(40);
    expect(sheet?.rowData?.[1]?.hd).toBe(BooleanNumber.TRUE);
    expect(book.sheets.map((read) => read.sheet.hidden)).toEqual([0, 1, 1]);
  });

  test("merged cells, frozen panes, the tab's colour, grid lines", () => {
    expect(sheet?.mergeData).toEqual([{ startRow: 0, endRow: 1, startColumn: 0, endColumn: 1 }]);
    expect(sheet?.freeze).toEqual({ xSplit: 1, ySplit: 2, startRow: 2, startColumn: 1 });
    expect(sheet?.tabColor).toBe("#00AA00");
    expect(sheet?.showGridlines).toBe(BooleanNumber.FALSE);
  });

  test("cells below a column of text are text before anything is typed", () => {
    expect(cell(book, "E1")).toEqual({ s: "x1" });
    expect(cell(book, `E${3 + PREPARED_ROWS}`)).toEqual({ s: "x1" });
    expect(cell(book, `E${4 + PREPARED_ROWS}`)).toBeUndefined();
  });

  test("the sheet that was shown last is shown first, unless it is hidden", () => {
    const active = (activeTab: number): unknown =>
      toGridWorkbook(
        readBook({
          beforeSheets: `<bookViews><workbookView activeTab="${activeTab}"/></bookViews>`,
          sheets: [{}, {}, { state: "hidden" }],
        }),
        "Book",
      ).custom?.["activeSheet"];
    expect([active(1), active(2)]).toEqual(["sheet-2", "sheet-1"]);
  });
});

describe("checks of what is typed", () => {
  const checks = (xml: string) =>
    readBook({
      sheets: [
        { name: "Log", rows: rowOf('<c r="A1"><v>1</v></c>'), after: `<dataValidations>${xml}</dataValidations>` },
      ],
    }).sheets[0]?.validations.map(({ rule }) => rule);

  test("lists of words and of cells", () => {
    const [words, cells] =
      checks(
        '<dataValidation type="list" sqref="A2:A9 C2" showErrorMessage="1" allowBlank="1" error="No"><formula1>"Joined, In air"</formula1></dataValidation>' +
          '<dataValidation type="list" errorStyle="warning" sqref="B2:B1048576" showErrorMessage="1" showDropDown="1"><formula1>Tricks!$A$2:$A$9</formula1></dataValidation>',
      ) ?? [];
    expect(words).toMatchObject({
      type: DataValidationType.LIST,
      formula1: "Joined,In air",
      showDropDown: true,
      allowBlank: true,
      error: "No",
      errorStyle: DataValidationErrorStyle.STOP,
      ranges: [
        { startRow: 1, endRow: 8, startColumn: 0, endColumn: 0 },
        { startRow: 1, endRow: 1, startColumn: 2, endColumn: 2 },
      ],
    });
    expect(cells).toMatchObject({
      formula1: "=Tricks!$A$2:$A$9",
      errorStyle: DataValidationErrorStyle.WARNING,
      showDropDown: false,
    });
    // A rule may not reach below the grid's last row.
    expect(cells?.ranges[0]?.endRow).toBe(1000);
  });

  test("numbers, dates and formulas", () => {
    expect(
      checks(
        '<dataValidation type="whole" operator="greaterThanOrEqual" sqref="A1" showErrorMessage="1"><formula1>5</formula1></dataValidation>' +
          '<dataValidation type="date" sqref="A2" showErrorMessage="1"><formula1>1</formula1><formula2>2958465</formula2></dataValidation>' +
          '<dataValidation type="custom" sqref="A3" showErrorMessage="1"><formula1>LEN(A3)&lt;5</formula1></dataValidation>' +
          '<dataValidation sqref="A4" showInputMessage="1" promptTitle="Marks" prompt="c or d"/>',
      ),
    ).toMatchObject([
      { type: DataValidationType.WHOLE, operator: DataValidationOperator.GREATER_THAN_OR_EQUAL, formula1: "5" },
      { type: DataValidationType.DATE, operator: DataValidationOperator.BETWEEN, formula1: "1", formula2: "2958465" },
      { type: DataValidationType.CUSTOM, formula1: "=LEN(A3)<5" },
      { type: DataValidationType.ANY, promptTitle: "Marks", prompt: "c or d", showInputMessage: true },
    ]);
  });
});

describe("rules that colour cells", () => {
  const dxfs =
    '<dxfs><dxf><font><color rgb="FFFFFFFF"/></font><fill><patternFill><bgColor rgb="FF0A2F52"/></patternFill></fill></dxf></dxfs>';
  const rules = (xml: string) =>
    readBook({
      styles: styles() + dxfs,
      sheets: [{ rows: rowOf('<c r="A1"><v>1</v></c>'), after: xml }],
    }).sheets[0]?.rules.map(({ rule }) => rule);
  const block = (rule: string): string => `<conditionalFormatting sqref="B2:B9">${rule}</conditionalFormatting>`;

  test.each([
    [
      '<cfRule type="cellIs" priority="1" dxfId="0" operator="equal"><formula>"Solid"</formula></cfRule>',
      '=B2="Solid"',
    ],
    [
      '<cfRule type="cellIs" priority="1" dxfId="0" operator="notBetween"><formula>1</formula><formula>5</formula></cfRule>',
      "=OR(B2<1,B2>5)",
    ],
    ['<cfRule type="expression" priority="1" dxfId="0"><formula>$C2&gt;D$1</formula></cfRule>', "=$C2>D$1"],
    [
      '<cfRule type="containsText" priority="1" dxfId="0" operator="containsText" text="x"><formula>NOT(ISERROR(SEARCH("x",B2)))</formula></cfRule>',
      '=NOT(ISERROR(SEARCH("x",B2)))',
    ],
  ])("%s", (xml, formula) => {
    expect(rules(block(xml))?.[0]).toMatchObject({
      ranges: [{ startRow: 1, endRow: 8, startColumn: 1, endColumn: 1 }],
      rule: {
        type: CFRuleType.highlightCell,
        subType: CFSubRuleType.formula,
        value: formula,
        style: { cl: { rgb: "#FFFFFF" }, bg: { rgb: "#0A2F52" } },
      },
    });
  });

  test("scales, bars and icons", () => {
    expect(
      rules(
        block(
          '<cfRule type="colorScale" priority="3"><colorScale><cfvo type="min"/><cfvo type="percentile" val="50"/><cfvo type="num" val="9"/>' +
            '<color rgb="FFF8696B"/><color rgb="FFFFEB84"/><color rgb="FF63BE7B"/></colorScale></cfRule>' +
            '<cfRule type="dataBar" priority="2"><dataBar showValue="0"><cfvo type="min"/><cfvo type="max"/><color rgb="FF638EC6"/></dataBar></cfRule>' +
            '<cfRule type="iconSet" priority="1"><iconSet iconSet="3Arrows"><cfvo type="percent" val="0"/><cfvo type="percent" val="33"/><cfvo type="num" val="7" gte="0"/></iconSet></cfRule>',
        ),
      )?.map((rule) => rule?.rule),
    ).toMatchObject([
      // In the order in which they win; the grid lists icons from the highest value down.
      {
        type: CFRuleType.iconSet,
        config: [
          { operator: "greaterThan", value: { type: "num", value: 7 }, iconId: "0" },
          { operator: "greaterThanOrEqual", value: { type: "percent", value: 33 }, iconId: "1" },
          { operator: "greaterThanOrEqual", value: { type: "percent", value: 0 }, iconId: "2" },
        ],
      },
      { type: CFRuleType.dataBar, isShowValue: false, config: { positiveColor: "#638EC6" } },
      {
        type: CFRuleType.colorScale,
        config: [{ color: "#F8696B" }, { color: "#FFEB84" }, { color: "#63BE7B", value: { value: 9 } }],
      },
    ]);
  });

  test("a kind that the grid does not draw is known as such", () => {
    expect(rules(block('<cfRule type="aboveAverage" priority="1" stdDev="2" dxfId="0"/>'))).toEqual([undefined]);
  });
});

describe("what the page cannot show", () => {
  test.each<[because: string, book: Partial<BookParts>, protection: string, things: readonly string[], fixed: number]>([
    [
      "a workbook whose protection was taken off",
      { beforeSheets: '<workbookProtection lockStructure="0"/>' },
      "",
      [],
      0,
    ],
    ["a workbook that only keeps a password's kind", { beforeSheets: "<workbookProtection/>" }, "", [], 0],
    ["a workbook whose sheets are locked", { beforeSheets: '<workbookProtection lockStructure="1"/>' }, "", ["the protection of the workbook"], 0], // prettier-ignore
    ["a sheet whose protection was taken off", {}, '<sheetProtection sheet="0" objects="1"/>', [], 0],
    ["the same where the element says nothing", {}, '<sheetProtection selectLockedCells="1"/>', [], 0],
    ["a sheet that is protected", {}, '<sheetProtection sheet="1"/>', ["the protection of cells"], 1],
  ])("%s", (_, book, after, things, fixed) => {
    const found = unshown({ ...book, sheets: [{ rows: rowOf('<c r="A1"><v>1</v></c>'), after }] });
    expect(found.things.map(({ what }) => what)).toEqual(things);
    expect(found.fixed.size).toBe(fixed);
  });

  const unshown = (book: BookParts) => {
    const source = WorkbookPackage.open(bookFile(book));
    return findUnshown(source, readBook(book));
  };

  test("a plain workbook has nothing of it", () => {
    expect(unshown({ sheets: [{ rows: rowOf('<c r="A1"><v>1</v></c>') }] })).toEqual({ things: [], fixed: new Map() });
  });

  test("is named with its sheets, and holds their cells where they are", () => {
    const { things, fixed } = unshown({
      sheets: [
        {
          name: "Log",
          rows: rowOf('<c r="A1"><f>[1]Other!A1</f><v>1</v></c>'),
          after: '<autoFilter ref="A1:B9"/><hyperlinks><hyperlink ref="A1" location="\'Third one\'!A1"/></hyperlinks>',
          related: [
            ["drawing", "../drawings/drawing1.xml"],
            ["comments", "../comments1.xml"],
            ["pivotTable", "../pivotTables/pivotTable1.xml"],
          ],
        },
        { name: "Second" },
        { name: "Third one" },
        { name: "Fourth" },
      ],
      parts: {
        "xl/drawings/drawing1.xml":
          "<wsDr xmlns:r='r'><twoCellAnchor><chart r:id='rId1'/></twoCellAnchor><oneCellAnchor><pic/></oneCellAnchor></wsDr>",
        "xl/drawings/_rels/drawing1.xml.rels":
          '<Relationships><Relationship Id="rId1" Type="http://x/relationships/chart" Target="../charts/chart1.xml"/></Relationships>',
        "xl/charts/chart1.xml": "<chartSpace><ser><f>Second!$A$1:$A$9</f></ser></chartSpace>",
        "xl/vbaProject.bin": Uint8Array.of(1, 2, 3),
      },
      related: [
        ["vbaProject", "vbaProject.bin"],
        ["externalLink", "externalLinks/externalLink1.xml"],
        ["novelty", "novelty.xml"],
      ],
      workbookType: "application/vnd.ms-excel.sheet.macroEnabled.main+xml",
    });
    expect(things.map(({ what, sheets }) => [what, ...sheets])).toEqual([
      ["macros"],
      ["links to other workbooks"],
      ['parts of the kind "novelty"'],
      ["charts", "Log"],
      ["pictures", "Log"],
      ["comments", "Log"],
      ["pivot tables", "Log"],
      ["links in cells", "Log"],
      ["filters", "Log"],
      ["formulas that this page cannot work out (they show their last answers)", "Log"],
    ]);
    expect([...fixed]).toEqual([
      ["Log", "charts"],
      ["Second", "charts"],
      ["Third one", "links in cells"],
    ]);
  });
});
