import { BooleanNumber } from "@univerjs/core";

import { WorkbookPackage } from "../../../src/xlsx/package/workbook-package";
import { bookFile, type BookParts, readBook, rowOf } from "./parts";
import { changedParts, openFile, type Workbench } from "./workbench";

let bench: Workbench | undefined;

async function open(book: BookParts): Promise<Workbench> {
  bench = await openFile(bookFile(book));
  return bench;
}

afterEach(() => {
  bench?.close();
  bench = undefined;
});

/** What Save leaves of one part; the part as it was where Save does not touch it. */
function part(opened: Workbench, name = "xl/worksheets/sheet1.xml"): string {
  return opened.save().package.text(name);
}

function rowsOf(opened: Workbench, sheet = 1): string {
  return /<sheetData>(.*)<\/sheetData>/s.exec(part(opened, `xl/worksheets/sheet${sheet}.xml`))?.[1] ?? "";
}

const log: BookParts = {
  strings: "<si><t>Marks</t></si><si><t>c</t></si>",
  styles:
    '<fonts count="1"><font><sz val="11"/><color theme="1"/><name val="Calibri"/><family val="2"/></font></fonts>' +
    '<fills count="2"><fill/><fill/></fills><borders count="1"><border/></borders><cellXfs count="2"><xf fontId="0"/><xf numFmtId="14" fontId="0"/></cellXfs>',
  sheets: [
    {
      name: "Log",
      before: '<dimension ref="A1:C3"/>',
      rows:
        '<row r="1" spans="1:3"><c r="A1" t="s"><v>0</v></c><c r="C1"><f>SUM(B2:B3)</f><v>3</v></c></row>' +
        '<row r="2"><c r="A2" t="s"><v>1</v></c><c r="B2"><v>1</v></c><c r="C2"><f>B2*10</f><v>10</v></c></row>' +
        '<row r="3" ht="30" customHeight="1"><c r="A3" t="s"><v>1</v></c><c r="B3" s="1"><v>2</v></c></row>',
    },
    { name: "Other", rows: rowOf('<c r="A1"><v>5</v></c>') },
  ],
  parts: { "xl/calcChain.xml": "<calcChain/>", "xl/media/picture.png": Uint8Array.of(1, 2, 3) },
  related: [["calcChain", "calcChain.xml"]],
};

describe("saved without edits", () => {
  test("the file is the file", async () => {
    const opened = await open(log);
    const saved = opened.save();
    expect([...changedParts(opened.source, saved.package)]).toEqual([]);
    expect(saved.package.toFile()).toBe(opened.source.file);
  });
});

describe("one edit", () => {
  test("of a number changes that cell and the answers that hang on it", async () => {
    const opened = await open(log);
    await opened.type("Log", "B3", 7);
    const changed = changedParts(opened.source, opened.save().package);
    expect([...changed.keys()]).toEqual(["xl/worksheets/sheet1.xml"]);
    expect(rowsOf(opened)).toBe(
      '<row r="1" spans="1:3"><c r="A1" t="s"><v>0</v></c><c r="C1"><f>SUM(B2:B3)</f><v>8</v></c></row>' +
        '<row r="2"><c r="A2" t="s"><v>1</v></c><c r="B2"><v>1</v></c><c r="C2"><f>B2*10</f><v>10</v></c></row>' +
        '<row r="3" ht="30" customHeight="1"><c r="A3" t="s"><v>1</v></c><c r="B3" s="1"><v>7</v></c></row>',
    );
  });

  test("of a text is written in its place, and in no other part", async () => {
    const opened = await open(log);
    await opened.type("Log", "A3", "<dropped> & caught");
    const changed = changedParts(opened.source, opened.save().package);
    expect([...changed.keys()]).toEqual(["xl/worksheets/sheet1.xml"]);
    expect(rowsOf(opened)).toContain(
      '<c r="A3" t="inlineStr"><is><t xml:space="preserve">&lt;dropped&gt; &amp; caught</t></is></c>',
    );
  });

  test("clears a cell, its look stays", async () => {
    const opened = await open(log);
    opened.sheet("Log").getRange("B3").clearContent();
    await opened.settled();
    expect(rowsOf(opened)).toContain('<c r="B3" s="1"/>');
    expect(rowsOf(opened)).toContain("<f>SUM(B2:B3)</f><v>1</v>");
  });

  test("adds cells and rows where there were none, and the sheet's block grows", async () => {
    const opened = await open(log);
    await opened.type("Log", "B1", true);
    await opened.type("Log", "E3", 4);
    await opened.type("Log", "B6", 1.5);
    expect(rowsOf(opened)).toBe(
      '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="b"><v>1</v></c><c r="C1"><f>SUM(B2:B3)</f><v>3</v></c></row>' +
        '<row r="2"><c r="A2" t="s"><v>1</v></c><c r="B2"><v>1</v></c><c r="C2"><f>B2*10</f><v>10</v></c></row>' +
        '<row r="3" ht="30" customHeight="1"><c r="A3" t="s"><v>1</v></c><c r="B3" s="1"><v>2</v></c><c r="E3"><v>4</v></c></row>' +
        '<row r="6"><c r="B6"><v>1.5</v></c></row>',
    );
    expect(part(opened)).toContain('<dimension ref="A1:E6"/>');
  });

  test("into a sheet that has nothing yet", async () => {
    const opened = await open({ sheets: [{ name: "Log" }] });
    await opened.type("Log", "B2", 3);
    expect(rowsOf(opened)).toBe('<row r="2"><c r="B2"><v>3</v></c></row>');
  });
});

describe("formulas", () => {
  test("a plain one is written plain, and the order of calculation is dropped with all that led to it", async () => {
    const opened = await open(log);
    await opened.type("Log", "D2", "=IFNA(B2+1,0)");
    const { package: saved } = opened.save();
    expect(rowsOf(opened)).toContain('<c r="D2"><f>_xlfn.IFNA(B2+1,0)</f><v>2</v></c>');
    expect(saved.has("xl/calcChain.xml")).toBe(false);
    expect(saved.text("xl/_rels/workbook.xml.rels")).not.toContain("calcChain");
    expect([...saved.bytes("xl/media/picture.png")]).toEqual([1, 2, 3]);
  });

  test("one of ours is written as the program knows it, with the mark that keeps it from being cut down", async () => {
    const opened = await open(log);
    await opened.type("Log", "E1", "=TWIRL.TALLY(A2:A3)");
    const { package: saved } = opened.save();
    expect(rowsOf(opened)).toContain(
      '<c r="E1" t="str" cm="1"><f t="array" ref="E1:F2">_xldudf_TWIRL_TALLY(A2:A3)</f><v>Mark</v></c><c r="F1" t="str"><v>Count</v></c>',
    );
    expect(rowsOf(opened)).toContain('<c r="E2" t="str"><v>c</v></c><c r="F2"><v>2</v></c>');
    expect(saved.text("xl/metadata.xml")).toContain('name="XLDAPR"');
    expect(saved.text("xl/_rels/workbook.xml.rels")).toContain('/sheetMetadata" Target="metadata.xml"');
    expect(saved.text("[Content_Types].xml")).toContain('PartName="/xl/metadata.xml"');
  });

  test("a spill that grows and shrinks takes its cells along", async () => {
    const book: BookParts = {
      sheets: [
        {
          name: "Log",
          rows:
            '<row r="1"><c r="A1" t="str"><v>c</v></c><c r="C1" t="str" cm="1"><f t="array" ref="C1:D3">_xldudf_TWIRL_TALLY(A1:A5)</f><v>Mark</v></c><c r="D1" t="str"><v>Count</v></c></row>' +
            '<row r="2"><c r="A2" t="str"><v>d</v></c><c r="C2" t="str"><v>c</v></c><c r="D2"><v>1</v></c></row>' +
            '<row r="3"><c r="C3" t="str"><v>d</v></c><c r="D3"><v>1</v></c></row>',
        },
      ],
    };
    const opened = await open(book);
    expect(opened.save().package.isChanged).toBe(false);
    await opened.type("Log", "A3", "b");
    expect(rowsOf(opened)).toContain('ref="C1:D4"');
    expect(rowsOf(opened)).toContain('<row r="4"><c r="C4" t="str"><v>d</v></c><c r="D4"><v>1</v></c></row>');
    await opened.type("Log", "A3", "");
    await opened.type("Log", "A2", "c");
    expect(rowsOf(opened)).toContain('ref="C1:D2"');
    expect(rowsOf(opened)).toMatch(/<row r="3">(<c r="A3"[^>]*\/>)?<\/row>$/);
  });

  test("the one that others are made from may go: they keep theirs", async () => {
    const opened = await open({
      sheets: [
        {
          name: "Log",
          rows:
            '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f t="shared" ref="B1:B3" si="0">A1*2</f><v>2</v></c></row>' +
            '<row r="2"><c r="A2"><v>2</v></c><c r="B2"><f t="shared" si="0"/><v>4</v></c></row>' +
            '<row r="3"><c r="A3"><v>3</v></c><c r="B3"><f t="shared" si="0"/><v>6</v></c></row>',
        },
      ],
    });
    await opened.type("Log", "B1", 9);
    expect(rowsOf(opened)).toContain('<c r="B1"><v>9</v></c>');
    expect(rowsOf(opened)).toContain('<c r="B2"><f>A2*2</f><v>4</v></c>');
    expect(rowsOf(opened)).toContain('<c r="B3"><f>A3*2</f><v>6</v></c>');
  });

  test("an answer that the other program rounds differently stays as long as nothing changes it", async () => {
    const opened = await open({
      sheets: [
        {
          name: "Log",
          rows: rowOf('<c r="A1"><v>1</v></c>', '<c r="B1"><f>A1/3</f><v>0.3333</v></c>', '<c r="C1"><v>7</v></c>'),
        },
      ],
    });
    await opened.type("Log", "C1", 8);
    expect(rowsOf(opened)).toContain("<f>A1/3</f><v>0.3333</v>");
    await opened.type("Log", "A1", 6);
    expect(rowsOf(opened)).toContain("<f>A1/3</f><v>2</v>");
  });

  test("one that the grid cannot work out stays, and the program is asked to work it out anew", async () => {
    const opened = await open({
      sheets: [{ name: "Log", rows: rowOf('<c r="A1"><v>1</v></c>', '<c r="B1"><f>[1]Club!A1*A1</f><v>4</v></c>') }],
      afterSheets: '<calcPr calcId="191029"/>',
    });
    expect(opened.save().package.isChanged).toBe(false);
    await opened.type("Log", "A1", 2);
    expect(rowsOf(opened)).toContain('<c r="B1"><f>[1]Club!A1*A1</f><v>4</v></c>');
    expect(part(opened, "xl/workbook.xml")).toContain('<calcPr calcId="191029" fullCalcOnLoad="1"/>');
  });

  test("what is none is saved as text, and that is said", async () => {
    const opened = await open(log);
    opened.sheet("Log").getRange("E1").setFormula("=1+");
    const { package: saved, losses } = opened.save();
    expect(saved.text("xl/worksheets/sheet1.xml")).toContain('<is><t xml:space="preserve">=1+</t></is>');
    expect(losses).toEqual(["Log E1: what stands after the = is no formula, so it is saved as text."]);
  });
});

describe("looks", () => {
  test("a new one is added to the styles; the theme's colour and the number's format stay", async () => {
    const opened = await open(log);
    opened.sheet("Log").getRange("B3").setFontWeight("bold");
    const { package: saved } = opened.save();
    expect(rowsOf(opened)).toContain('<c r="B3" s="2"><v>2</v></c>');
    expect(saved.text("xl/styles.xml")).toContain(
      '<fonts count="2"><font><sz val="11"/><color theme="1"/><name val="Calibri"/><family val="2"/></font><font><b/><sz val="11"/><color theme="1"/><name val="Calibri"/><family val="2"/></font></fonts>',
    );
    expect(saved.text("xl/styles.xml")).toContain(
      '<cellXfs count="3"><xf fontId="0"/><xf numFmtId="14" fontId="0"/><xf numFmtId="14" fontId="1" xfId="0" applyFont="1"/></cellXfs>',
    );
  });

  test("fills, borders, alignment and formats read back as they were given", async () => {
    const opened = await open(log);
    const range = opened.sheet("Log").getRange("B2");
    range.setBackground("#FFEE00");
    range.setHorizontalAlignment("center");
    range.setWrap(true);
    const styled = opened.save().package;
    const again = await openFile(styled.toFile());
    const cell = again.sheet("Log").getRange("B2");
    expect(cell.getBackground()).toBe("#FFEE00");
    expect(cell.getHorizontalAlignment()).toBe("center");
    expect(cell.getWrap()).toBe(true);
    expect(again.save().package.isChanged).toBe(false);
    again.close();
  });

  test("widths, heights, hidden rows and columns, merged cells, frozen panes", async () => {
    const opened = await open(log);
    const sheet = opened.sheet("Log");
    sheet.setColumnWidth(1, 120);
    sheet.setRowHeight(0, 40);
    sheet.hideRows(1, 1);
    sheet.hideColumns(2, 1);
    sheet.getRange("A5:B6").merge();
    sheet.setFreeze({ xSplit: 1, ySplit: 1, startRow: 1, startColumn: 1 });
    const again = readBookFrom(opened.save().package);
    const read = again.sheets[0]?.sheet;
    expect(read?.columnData?.[1]?.w).toBe(120);
    expect(read?.rowData?.[0]?.h).toBe(40);
    expect(read?.rowData?.[1]?.hd).toBe(BooleanNumber.TRUE);
    expect(read?.columnData?.[2]?.hd).toBe(BooleanNumber.TRUE);
    expect(read?.mergeData).toEqual([{ startRow: 4, endRow: 5, startColumn: 0, endColumn: 1 }]);
    expect(read?.freeze).toEqual({ xSplit: 1, ySplit: 1, startRow: 1, startColumn: 1 });
  });
});

function readBookFrom(source: WorkbookPackage): ReturnType<typeof readBook> {
  return readBook({ sheets: [], parts: Object.fromEntries(source.names().map((name) => [name, source.bytes(name)])) });
}

describe("tables", () => {
  const table =
    '<table name="Log_1" displayName="Log_1" ref="A1:B2"><autoFilter ref="A1:B2"/><tableColumns count="2">' +
    '<tableColumn id="1" name="Marks"/><tableColumn id="2" name="Twice"><calculatedColumnFormula>Log_1[[#This Row],[Marks]]*2</calculatedColumnFormula></tableColumn></tableColumns></table>';
  const book: BookParts = {
    sheets: [
      {
        name: "Log",
        rows:
          '<row r="1"><c r="A1" t="str"><v>Marks</v></c><c r="B1" t="str"><v>Twice</v></c><c r="D1"><f>SUM(Log_1[Marks])</f><v>3</v></c></row>' +
          '<row r="2"><c r="A2"><v>3</v></c><c r="B2"><f>Log_1[[#This Row],[Marks]]*2</f><v>6</v></c></row>',
        tables: [table],
      },
    ],
  };

  test("one that has grown says so", async () => {
    const opened = await open(book);
    await opened
      .sheet("Log")
      .setTableRange("sheet-1-table-1", { startRow: 0, endRow: 2, startColumn: 0, endColumn: 1 });
    await opened.type("Log", "A3", 4);
    const saved = opened.save().package;
    expect(saved.text("xl/tables/table1.xml")).toContain('ref="A1:B3"><autoFilter ref="A1:B3"/>');
    expect(rowsOf(opened)).toContain("<f>SUM(Log_1[Marks])</f><v>7</v>");
  });

  test("a heading that gets another word keeps its formulas", async () => {
    const opened = await open(book);
    await opened.type("Log", "A1", "Caught");
    const saved = opened.save().package;
    expect(saved.text("xl/tables/table1.xml")).toContain('<tableColumn id="1" name="Caught"/>');
    expect(rowsOf(opened)).toContain("<f>SUM(Log_1[Caught])</f>");
    expect(rowsOf(opened)).toContain("<f>Log_1[[#This Row],[Caught]]*2</f>");
    expect(saved.text("xl/tables/table1.xml")).toContain("Log_1[[#This Row],[Caught]]*2</calculatedColumnFormula>");
  });

  test("one that is made, and one that is taken away", async () => {
    const opened = await open(book);
    await opened.type("Log", "F1", "Trick");
    await opened.type("Log", "F2", "Double turn");
    await opened.sheet("Log").addTable("Tricks", { startRow: 0, endRow: 1, startColumn: 5, endColumn: 5 });
    await opened.sheet("Log").removeTable("sheet-1-table-1");
    const saved = opened.save().package;
    const read = readBookFrom(saved);
    expect(read.sheets[0]?.tables.map(({ file }) => [file.name, file.columns.map(({ heading }) => heading)])).toEqual([
      ["Tricks", ["Trick"]],
    ]);
    expect(saved.has("xl/tables/table1.xml")).toBe(false);
  });
});

describe("sheets", () => {
  const names = (source: WorkbookPackage): string[] => readBookFrom(source).part.sheets.map(({ name }) => name);

  test("a new one is added with what stands in it", async () => {
    const opened = await open(log);
    opened.engine.api.getActiveWorkbook()?.create("Ideas", 60, 20);
    await opened.type("Ideas", "B2", "=Log!B2+1");
    const saved = opened.save().package;
    expect(names(saved)).toEqual(["Log", "Other", "Ideas"]);
    expect(saved.text("xl/worksheets/sheet3.xml")).toContain('<row r="2"><c r="B2"><f>Log!B2+1</f><v>2</v></c></row>');
    expect(saved.text("[Content_Types].xml")).toContain("/xl/worksheets/sheet3.xml");
  });

  test("one that is taken away goes with its part, and names that held there alone", async () => {
    const opened = await open({
      ...log,
      afterSheets:
        "<definedNames><definedName name='Gone' localSheetId='0'>Log!$A$1</definedName><definedName name='Kept' localSheetId='1'>Other!$A$1</definedName></definedNames>",
    });
    const workbook = opened.engine.api.getActiveWorkbook();
    workbook?.deleteSheet(opened.sheet("Log"));
    const saved = opened.save().package;
    expect(names(saved)).toEqual(["Other"]);
    expect(saved.has("xl/worksheets/sheet1.xml")).toBe(false);
    expect(saved.text("[Content_Types].xml")).not.toContain("sheet1.xml");
    expect(saved.text("xl/workbook.xml")).toContain(
      '<definedNames><definedName name="Kept" localSheetId="0">Other!$A$1</definedName></definedNames>',
    );
  });

  test("the sheet in sight is shown first when the file is opened again, and it alone is selected", async () => {
    const [first, ...others] = log.sheets;
    const before = '<sheetViews><sheetView tabSelected="1" workbookViewId="0"/></sheetViews>';
    const beforeSheets = "<bookViews><workbookView/></bookViews>";
    const opened = await open({ ...log, beforeSheets, sheets: [{ ...first, before }, ...others] });
    const look = (name: string): unknown => opened.engine.api.getActiveWorkbook()?.setActiveSheet(opened.sheet(name));
    look("Other");
    // To look is no change.
    expect(opened.save().package.isChanged).toBe(false);
    await opened.type("Log", "B2", "Sheila");
    const saved = opened.save().package;
    expect(saved.text("xl/workbook.xml")).toContain('<workbookView activeTab="1"/>');
    expect(saved.text("xl/worksheets/sheet1.xml")).toContain('<sheetView workbookViewId="0"/>');
    look("Log");
    const back = opened.save().package;
    expect(back.text("xl/workbook.xml")).toContain("<workbookView/>");
    expect(back.text("xl/worksheets/sheet1.xml")).toContain('<sheetView tabSelected="1" workbookViewId="0"/>');
  });

  test("another name, another order, hidden", async () => {
    const opened = await open({ ...log, beforeSheets: '<bookViews><workbookView activeTab="1"/></bookViews>' });
    const workbook = opened.engine.api.getActiveWorkbook();
    await opened.type("Other", "B1", "=Log!B2");
    opened.sheet("Log").setName("Practice");
    workbook?.moveSheet(opened.sheet("Other"), 0);
    opened.sheet("Practice").hideSheet();
    const saved = opened.save().package;
    expect(names(saved)).toEqual(["Other", "Practice"]);
    expect(saved.text("xl/workbook.xml")).toContain('<sheet name="Practice" sheetId="1" r:id="rId1" state="hidden"/>');
    expect(saved.text("xl/workbook.xml")).toContain('<workbookView activeTab="0"/>');
    expect(saved.text("xl/worksheets/sheet2.xml")).toContain("<f>Practice!B2</f>");
  });
});

describe("rows put in and taken out", () => {
  test("everything moves along: cells, formulas, heights, names, merged cells", async () => {
    const opened = await open({
      styles: "<cellXfs><xf/></cellXfs><dxfs><dxf><font><b/></font></dxf></dxfs>",
      sheets: [
        {
          name: "Log",
          rows: '<row r="1"><c r="A1"><v>1</v></c></row><row r="2" ht="30" customHeight="1"><c r="A2"><v>2</v></c><c r="B2"><f>A1+A2</f><v>3</v></c></row>',
          after: '<mergeCells><mergeCell ref="A4:B5"/></mergeCells>',
        },
      ],
      afterSheets: "<definedNames><definedName name='Second'>Log!$A$2</definedName></definedNames>",
    });
    opened.sheet("Log").insertRows(1, 1);
    await opened.settled();
    const saved = opened.save().package;
    const read = readBookFrom(saved).sheets[0];
    expect(read?.sheet.cellData?.[2]?.[0]?.v).toBe(2);
    expect(read?.sheet.cellData?.[2]?.[1]?.f).toBe("=A1+A3");
    expect(read?.sheet.rowData?.[2]?.h).toBe(40);
    expect(read?.sheet.mergeData).toEqual([{ startRow: 4, endRow: 5, startColumn: 0, endColumn: 1 }]);
    expect(saved.text("xl/workbook.xml")).toContain("Log!$A$3");
  });
});
