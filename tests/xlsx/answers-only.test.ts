import { readFileSync } from "node:fs";
import path from "node:path";
import type { ICellData } from "@univerjs/core";

import { readWorkbook } from "../../src/grid/file/open";
import { answersOnly } from "../../src/xlsx/answers-only";
import { WorkbookPackage } from "../../src/xlsx/package/workbook-package";
import { placeName } from "../../src/xlsx/ranges";
import { bookFile, type BookParts, testOptions } from "../grid/file/parts";
import { attribute, childText, Package } from "./package";

function copyOf(file: Uint8Array): { readonly file: Uint8Array; readonly losses: readonly string[] } {
  const { package: copy, losses } = answersOnly(WorkbookPackage.open(file));
  return { file: copy.toFile(), losses };
}

/** Every part that a part leads to is there, and every part is led to and has its kind. */
function expectWhole(copy: Package): void {
  const lists = copy.paths.filter((one) => one.endsWith(".rels"));
  const targets = lists.flatMap((list) => {
    const owner = list.replace("_rels/", "").replace(/\.rels$/, "");
    return [...copy.relations(owner).values()].map((relation) => relation.path);
  });
  expect(targets.filter((target) => !copy.paths.includes(target))).toEqual([]);
  const parts = copy.paths.filter((one) => !one.endsWith(".rels") && one !== "[Content_Types].xml");
  expect(parts.filter((part) => !targets.includes(part))).toEqual([]);
  const typed = copy.elements("[Content_Types].xml", "Override").map((one) => attribute(one, "PartName").slice(1));
  expect(typed.filter((part) => !copy.paths.includes(part))).toEqual([]);
}

describe("the finished season", () => {
  const bytes = new Uint8Array(readFileSync(path.join(__dirname, "../../sample-workbooks/season.xlsx")));
  const season = new Package(bytes);
  const { file, losses } = copyOf(bytes);
  const copy = new Package(file);

  test("holds no formula, and nothing that tells of one", () => {
    for (const part of copy.paths) {
      expect([
        part,
        copy.text(part).match(/<f[\s/>]|_xldudf|\scm=|calculatedColumnFormula|metadata|calcChain/i),
      ]).toEqual([part, null]);
    }
    expect(losses).toEqual([]);
  });

  test("is whole: no part is missing, and none is left over", () => {
    expectWhole(copy);
    expect(season.paths.filter((part) => !copy.paths.includes(part))).toEqual(["xl/metadata.xml"]);
    expect(copy.paths.filter((part) => !season.paths.includes(part))).toEqual([]);
  });

  test("all else is the same, letter for letter: values, looks, tables, lists, rules, charts, names, print settings", () => {
    const plain = (xml: string): string =>
      xml
        .replace(/<(f|calculatedColumnFormula)[\s>].*?<\/\1>/gs, "")
        .replace(/ cm="1"/g, "")
        .replace(/><\/tableColumn>/g, "/>");
    const records = ["[Content_Types].xml", "xl/_rels/workbook.xml.rels"];
    for (const part of copy.paths.filter((one) => !records.includes(one))) {
      expect(copy.text(part).replace(/><\/tableColumn>/g, "/>")).toBe(plain(season.text(part)));
    }
    const all = (of: Package): string => of.paths.map((part) => of.text(part)).join("");
    expect(all(season).match(/<f[\s>]/g)?.length).toBeGreaterThan(300);
    for (const kind of ["<dataValidation ", "<cfRule ", "<c:ser>", "<tableColumn ", "<pageSetup ", "<definedName "]) {
      expect(all(copy)).toContain(kind);
    }
  });

  test("opened again, it shows the same values, typed now where they were worked out", () => {
    const open = (content: Uint8Array): ReturnType<typeof readWorkbook> =>
      readWorkbook(WorkbookPackage.open(content), { ownFunctions: ["BOARD"] });
    const before = open(bytes);
    let compared = 0;
    open(file).sheets.forEach(({ entry, sheet, tables, rules, validations, charts }, index) => {
      const was = before.sheets[index];
      const table = ({ file: { name, range, columns } }: (typeof tables)[number]): unknown[] => [
        name,
        range,
        columns.map(({ heading }) => heading),
      ];
      expect(tables.map(table)).toEqual(was?.tables.map(table));
      expect(rules.map(({ rule }) => rule)).toEqual(was?.rules.map(({ rule }) => rule));
      expect(validations.map(({ rule }) => rule)).toEqual(was?.validations.map(({ rule }) => rule));
      expect(charts).toEqual(was?.charts);
      const cells = season.cells(entry.name);
      const shown: unknown[] = [];
      const cached: unknown[] = [];
      for (const [row, line] of Object.entries(sheet.cellData ?? {})) {
        for (const [column, cell] of Object.entries<ICellData>(line ?? {})) {
          if (cell.f !== undefined) throw new Error(`${entry.name} has a formula.`);
          const address = placeName({ row: Number(row), column: Number(column) });
          const element = cells.get(address);
          shown.push([address, String(cell.v ?? "")]);
          cached.push([address, element ? (season.sharedText(element) ?? childText(element, "v") ?? "") : ""]);
        }
      }
      expect(shown).toEqual(cached);
      compared += shown.length;
    });
    expect(compared).toBeGreaterThan(3000);
  });

  test("a copy of the copy is the copy", () => {
    expect(copyOf(file).file).toBe(file);
  });
});

const odd: BookParts = {
  strings: '<si><t>=SUM(A1)</t></si><si><t>&lt;f&gt;_xldudf_TWIRL_BOARD(A1)&lt;/f&gt; cm="1"</t></si>',
  styles: '<fonts count="1"><font/></fonts><cellXfs count="2"><xf/><xf numFmtId="49"/></cellXfs>',
  sheets: [
    {
      name: "Log",
      rows:
        '<row r="1"><c r="A1" s="1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c>' +
        '<c r="C1" t="inlineStr"><is><t>&lt;f&gt;1+1&lt;/f&gt;</t></is></c></row>' +
        '<row r="2"><c r="A2" s="1" t="str" cm="1"><f t="array" ref="A2:B3">_xldudf_TWIRL_TALLY(A1)</f><v>=c &amp; _x005F_x0041_</v></c><c r="B2"><v>2</v></c></row>' +
        '<row r="3"><c r="A3" t="b"><v>1</v></c><c r="B3" t="e" vm="1"><v>#N/A</v></c></row>' +
        '<row r="4"><c r="A4"><f t="shared" ref="A4:B4" si="0">B2*2</f><v>4</v></c><c r="B4"><f t="shared" si="0"/><v>0.1</v></c></row>' +
        '<row r="5"><c r="A5"><f t="array" ref="A5:A6">B2:B3*1</f><v>2</v></c><c r="B5" s="1" t="str"><f>""</f></c>' +
        '<c r="C5" t="str"><f>T("")</f><v></v></c><c r="D5" t="e"><f>1/0</f><v>#DIV/0!</v></c></row>' +
        '<row r="6"><c r="A6"><v>3</v></c><c r="B6"><f t="dataTable" ref="B6:B6" r1="A1"/><v>7</v></c>' +
        '<c r="C6"><f ca="1"><![CDATA[IF(1<2,NOW(),"</f>")]]></f><v>46000.5</v></c>' +
        '<c r="D6" cm="1"><f t="array" ref="D6">SUM(_xlfn.ANCHORARRAY(A2))</f><v>9</v></c></row>',
      after:
        '<conditionalFormatting sqref="A1"><cfRule type="expression" priority="1"><formula>_xldudf_TWIRL_STREAK(A1)>2</formula></cfRule></conditionalFormatting>' +
        '<conditionalFormatting sqref="B1"><cfRule type="expression" priority="2"><formula>B1="_xldudf_TWIRL_STREAK(A1)"</formula></cfRule>' +
        '<cfRule type="colorScale" priority="3"><colorScale><cfvo type="formula" val="Best+1"/><cfvo type="max"/></colorScale></cfRule></conditionalFormatting>' +
        '<dataValidations count="2"><dataValidation type="list" sqref="A1"><formula1>_xlfn.ANCHORARRAY($A$2)</formula1></dataValidation>' +
        '<dataValidation type="list" sqref="B1"><formula1>$A$4:$A$6</formula1></dataValidation></dataValidations>',
      tables: [
        '<table name="T" displayName="T" ref="A4:C6" totalsRowCount="1"><tableColumns count="3">' +
          '<tableColumn id="1" name="a"><calculatedColumnFormula array="1">_xldudf_TWIRL_STREAK(B4)</calculatedColumnFormula></tableColumn>' +
          '<tableColumn id="2" name="b" totalsRowFunction="custom"><totalsRowFormula>SUM(B2)</totalsRowFormula></tableColumn>' +
          '<tableColumn id="3" name="c" totalsRowLabel="all" totalsRowFunction="sum"/></tableColumns></table>',
      ],
    },
    {
      name: "Far",
      after:
        '<extLst><ext uri="{1}"><x14:dataValidations xmlns:x14="urn:x" count="1"><x14:dataValidation type="custom"><x14:formula1><xm:f xmlns:xm="urn:m">_xldudf_TWIRL_STREAK(A1)</xm:f></x14:formula1><xm:sqref xmlns:xm="urn:m">A1</xm:sqref></x14:dataValidation></x14:dataValidations></ext></extLst>',
    },
  ],
  afterSheets:
    '<definedNames><definedName name="Most">Best*2</definedName><definedName name="Best">_xldudf_TWIRL_STREAK(Log!A1)</definedName><definedName name="Plain">Log!$A$1</definedName></definedNames><calcPr calcId="1"/>',
  parts: {
    "xl/calcChain.xml": "<calcChain/>",
    "xl/volatileDependencies.xml": "<volTypes/>",
    "xl/metadata.xml":
      '<metadata><metadataTypes count="2"><metadataType name="XLDAPR"/><metadataType name="XLRICHVALUE"/></metadataTypes><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata><valueMetadata count="1"><bk><rc t="2" v="0"/></bk></valueMetadata></metadata>',
  },
  related: [
    ["calcChain", "calcChain.xml"],
    ["volatileDependencies", "volatileDependencies.xml"],
    ["sheetMetadata", "metadata.xml"],
  ],
};

describe("an odd workbook", () => {
  const bytes = bookFile(odd);
  const { file, losses } = copyOf(bytes);
  const copy = new Package(file);
  const log = copy.text("xl/worksheets/sheet1.xml");

  test("formulas of every kind are gone, and answers of every kind stand there", () => {
    expect(/<sheetData>(.*)<\/sheetData>/s.exec(log)?.[1]).toBe(
      '<row r="1"><c r="A1" s="1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c>' +
        '<c r="C1" t="inlineStr"><is><t>&lt;f&gt;1+1&lt;/f&gt;</t></is></c></row>' +
        '<row r="2"><c r="A2" s="1" t="str"><v>=c &amp; _x005F_x0041_</v></c><c r="B2"><v>2</v></c></row>' +
        '<row r="3"><c r="A3" t="b"><v>1</v></c><c r="B3" t="e" vm="1"><v>#N/A</v></c></row>' +
        '<row r="4"><c r="A4"><v>4</v></c><c r="B4"><v>0.1</v></c></row>' +
        '<row r="5"><c r="A5"><v>2</v></c><c r="B5" s="1"></c><c r="C5" t="str"><v></v></c><c r="D5" t="e"><v>#DIV/0!</v></c></row>' +
        '<row r="6"><c r="A6"><v>3</v></c><c r="B6"><v>7</v></c><c r="C6"><v>46000.5</v></c><c r="D6"><v>9</v></c></row>',
    );
  });

  test("texts that look like formulas stay texts", () => {
    expect(copy.text("xl/sharedStrings.xml")).toBe(new Package(bytes).text("xl/sharedStrings.xml"));
    const [sheet] = readWorkbook(WorkbookPackage.open(file), testOptions).sheets;
    const shown = (row: number, column: number): unknown => sheet?.sheet.cellData?.[row]?.[column];
    expect(shown(0, 0)).toMatchObject({ v: "=SUM(A1)", t: 1 });
    expect(shown(0, 0)).not.toHaveProperty("f");
    expect(shown(0, 1)).toMatchObject({ v: '<f>_xldudf_TWIRL_BOARD(A1)</f> cm="1"', t: 1 });
    expect(shown(1, 0)).toMatchObject({ v: "=c & _x0041_", t: 1 });
    expect(shown(1, 0)).not.toHaveProperty("f");
  });

  test("rules, checks and names that need a formula of ours or a spill are left out and told; others stay", () => {
    expect(log).not.toContain('sqref="A1"');
    expect(log).toContain(
      '<conditionalFormatting sqref="B1"><cfRule type="expression" priority="2"><formula>B1="_xldudf_TWIRL_STREAK(A1)"</formula></cfRule></conditionalFormatting>',
    );
    expect(log).toContain(
      '<dataValidations><dataValidation type="list" sqref="B1"><formula1>$A$4:$A$6</formula1></dataValidation></dataValidations>',
    );
    expect(copy.text("xl/worksheets/sheet2.xml")).not.toContain("extLst");
    expect(copy.text("xl/workbook.xml")).toContain(
      '<definedNames><definedName name="Plain">Log!$A$1</definedName></definedNames><calcPr calcId="1"/>',
    );
    const leftOut = "needs a formula that the copy does not hold, and is left out.";
    expect(losses).toEqual([
      `The name Best ${leftOut}`,
      `The name Most ${leftOut}`,
      `Log: a rule that colours cells ${leftOut}`,
      `Log: a check of what is typed ${leftOut}`,
      `Far: a check of what is typed ${leftOut}`,
    ]);
  });

  test("the last name goes with its list", () => {
    const names = copyOf(
      bookFile({
        sheets: [{}],
        afterSheets: "<definedNames><definedName name='a'>_xldudf_twirl_streak(A1)</definedName></definedNames>",
      }),
    );
    expect(new Package(names.file).text("xl/workbook.xml")).not.toContain("definedName");
  });

  test("a table's columns know no formula, and keep their names", () => {
    expect(copy.text("xl/tables/table1.xml")).toContain(
      '<tableColumn id="1" name="a"></tableColumn><tableColumn id="2" name="b"></tableColumn><tableColumn id="3" name="c" totalsRowLabel="all"/>',
    );
  });

  test("records of values stay with their numbers; those of spills and of the calculation are gone", () => {
    expectWhole(copy);
    expect(copy.paths).not.toContain("xl/calcChain.xml");
    expect(copy.paths).not.toContain("xl/volatileDependencies.xml");
    expect(copy.text("xl/metadata.xml")).toBe(
      '<metadata><metadataTypes count="2"><metadataType name="XLDAPR"/><metadataType name="XLRICHVALUE"/></metadataTypes><valueMetadata count="1"><bk><rc t="2" v="0"/></bk></valueMetadata></metadata>',
    );
  });

  test("the workbook that it is a copy of stays as it was", () => {
    const source = WorkbookPackage.open(bytes);
    answersOnly(source);
    expect(source.isChanged).toBe(false);
    expect(source.toFile()).toBe(bytes);
  });

  test("elements with a prefix are known by their names", () => {
    const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    const source = WorkbookPackage.open(bytes);
    source.set(
      "xl/worksheets/sheet2.xml",
      `<x:worksheet xmlns:x="${main}"><x:sheetData><x:row r="1"><x:c r="A1" t='str' cm = '1'><x:f>NOW()</x:f><x:v>9</x:v></x:c></x:row></x:sheetData></x:worksheet>`,
    );
    expect(answersOnly(source).package.text("xl/worksheets/sheet2.xml")).toBe(
      `<x:worksheet xmlns:x="${main}"><x:sheetData><x:row r="1"><x:c r="A1" t='str'><x:v>9</x:v></x:c></x:row></x:sheetData></x:worksheet>`,
    );
  });
});

test("a workbook without a formula is its own copy", () => {
  const file = bookFile({ sheets: [{ rows: '<row r="1"><c r="A1"><v>1</v></c></row>' }] });
  expect(copyOf(file)).toEqual({ file, losses: [] });
});
