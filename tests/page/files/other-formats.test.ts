/** Texts and OpenDocument spreadsheets as new workbooks: what each cell then holds. */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import type { ICellData } from "@univerjs/core";
import { strToU8, zipSync } from "fflate";

import { asWorkbook } from "../../../src/page/files/other-formats/as-workbook";
import { decodedText } from "../../../src/page/files/other-formats/decoded-text";
import { readCsv } from "../../../src/page/files/other-formats/read-csv";
import { FileRefused, refusals } from "../../../src/xlsx/package/file-refused";
import { limits } from "../../../src/xlsx/package/limits";
import { WorkbookFile } from "../../../src/grid/file/workbook-file";
import { inProject } from "../../../src/tools/paths";
import { convert, isOfficeThere } from "../../libreoffice";
import { serial } from "../../core/log-layout/sheets";

type Held = string | number | { readonly day: number };

/** Row by row, as the reader answers it. */
function held(bytes: Uint8Array): readonly (readonly (Held | undefined)[])[] {
  const rows: (Held | undefined)[][] = [];
  for (const { row, column, cell } of readCsv(bytes)) {
    const own = (rows[row - 1] ??= []);
    own[column - 1] = cell.kind === "text" ? cell.text : cell.kind === "date" ? { day: cell.serial } : cell.value;
  }
  return rows.map((row) => Array.from(row));
}

const csv = (text: string): Uint8Array => strToU8(text);

describe("a table of text", () => {
  test.each<[because: string, text: string, rows: readonly (readonly (Held | undefined)[])[]]>([
    ["commas", "Date,Athlete,Marks\r\n2026-09-07,M.K.,ccd\r\n", [["Date", "Athlete", "Marks"], [{ day: serial("2026-09-07") }, "M.K.", "ccd"]]], // prettier-ignore
    ["semicolons, and a comma for the decimals", "Nom;Minutes\nM.K.;7,5\nA.R.;10", [["Nom", "Minutes"], ["M.K.", 7.5], ["A.R.", 10]]], // prettier-ignore
    [
      "tabs",
      "A\tB\n1\t2",
      [
        ["A", "B"],
        [1, 2],
      ],
    ],
    [
      "the separator in a line of its own",
      "sep=;\r\nA;B,C\r\n1;2",
      [
        ["A", "B,C"],
        [1, 2],
      ],
    ],
    ["cells in quotation marks, over two lines", 'A,B\n"one, two","say ""hi""\nand go"', [["A", "B"], ["one, two", 'say "hi"\nand go']]], // prettier-ignore
    [
      "a point and a comma in one file are left as they stand",
      "A;B\n1,5;1.5",
      [
        ["A", "B"],
        ["1,5", "1.5"],
      ],
    ],
  ])("%s", (_, text, rows) => {
    expect(held(csv(text))).toEqual(rows);
  });

  test("what could be something else stays the text that it is", () => {
    const texts = ["1/10", "8/10", "3/4/2026", "13.10.2026", "0110", "+1 spin", "+5", "=1+1", "=HYPERLINK(1)", "@A1", "-", "1e5", "80 %", "2026-02-30", "2026-09-07T17:30:00Z", "TRUE", "1 000"]; // prettier-ignore
    expect(held(csv(texts.join("\n")))).toEqual(texts.map((text) => [text]));
  });

  test("the longest runs of digits stay texts: a number would lose the last of them", () => {
    expect(held(csv("A\n123456789012345\n1234567890123456"))).toEqual([["A"], [123456789012345], ["1234567890123456"]]);
  });
});

describe("the characters of a text", () => {
  const text = "Élève;Größe\nZoé;1";
  const utf16 = (bigEnd: boolean, mark: boolean): Uint8Array => {
    const codes = [...(mark ? "\uFEFF" : ""), ...text].map((letter) => letter.charCodeAt(0));
    return Uint8Array.from(codes.flatMap((code) => (bigEnd ? [code >> 8, code & 255] : [code & 255, code >> 8])));
  };
  test.each<[string, Uint8Array]>([
    ["UTF-8", strToU8(text)],
    ["UTF-8 with its mark", strToU8(`\uFEFF${text}`)],
    ["UTF-16, the low byte first", utf16(false, true)],
    ["UTF-16, the high byte first", utf16(true, true)],
    ["UTF-16 without its mark", utf16(false, false)],
    ["UTF-16 without its mark, the high byte first", utf16(true, false)],
    ["Windows-1252", Uint8Array.from([...text].map((letter) => letter.charCodeAt(0)))],
  ])("%s", (_, bytes) => {
    expect(decodedText(bytes)).toBe(text);
  });

  test("signs that Windows-1252 alone has there", () => {
    // The table of Windows-1252 (Unicode consortium, CP1252.TXT): 80 is the euro sign, 92 the right quotation mark.
    expect(decodedText(Uint8Array.from([0x43, 0x80, 0x92, 0xe9]))).toBe("C€’é");
  });
});

describe("a text that cannot be opened gets one sentence", () => {
  test.each<[string, () => Uint8Array, string]>([
    ["nothing in it", () => new Uint8Array(0), refusals.empty],
    ["blank lines", () => csv(" \r\n\r\n"), refusals.empty],
    ["more than 20 MB", () => new Uint8Array(limits.fileBytes + 1), refusals.tooLarge],
    ["a picture by that name", () => Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13]), "This file holds no table of text."], // prettier-ignore
    ["a quotation mark that is never closed", () => csv('A,B\n1,2\n"open,3\n4,5'), "In line 3 of this file a quotation mark is opened and never closed, so its cells cannot be told apart."], // prettier-ignore
    ["more columns than a sheet has", () => csv(",".repeat(16_385)), refusals.tooManyRows],
    ["a cell of a book's length", () => csv(`A\n${"x".repeat(32_768)}`), "A cell of this file holds more text than a spreadsheet can."], // prettier-ignore
  ])("%s", (_, bytes, sentence) => {
    let said = "";
    try {
      readCsv(bytes());
    } catch (cause) {
      said = cause instanceof FileRefused ? cause.message : String(cause);
    }
    expect(said).toBe(sentence);
  });
});

const CONTENT = (inside: string): string =>
  `<?xml version="1.0" encoding="UTF-8"?><office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"><office:body><office:spreadsheet>${inside}</office:spreadsheet></office:body></office:document-content>`;

function ods(inside: string, manifest = "<manifest/>"): Uint8Array {
  return zipSync({
    mimetype: strToU8("application/vnd.oasis.opendocument.spreadsheet"),
    "content.xml": strToU8(CONTENT(inside)),
    "META-INF/manifest.xml": strToU8(manifest),
  });
}

/** The cells of the opened workbook's sheets, as the grid has them. */
function opened(name: string, bytes: Uint8Array) {
  const other = asWorkbook(name, bytes);
  if (other === null) throw new Error("Not read");
  const { snapshot } = WorkbookFile.open(other.name, other.bytes, { ownFunctions: [] });
  const sheets = snapshot.sheetOrder.map((id) => {
    const sheet = snapshot.sheets[id];
    const rows = Object.values(sheet?.cellData ?? {}).map((row) =>
      Object.values(row as Record<string, ICellData>).flatMap(({ v, f }) => (v === undefined ? [] : [[v, f]])),
    );
    const cells = rows.filter((row) => row.length > 0);
    return { name: sheet?.name, cells };
  });
  return { other, sheets };
}

const cell = (words: string): string => `<table:table-cell office:value-type="string"><text:p>${words}</text:p></table:table-cell>`; // prettier-ignore

describe("an OpenDocument spreadsheet", () => {
  const log = ods(
    `<table:table table:name="Log/2026"><table:table-column table:number-columns-repeated="3"/>` +
      `<table:table-header-rows><table:table-row>${cell("Date")}${cell("Athlete")}${cell("Caught")}</table:table-row></table:table-header-rows>` +
      `<table:table-row table:number-rows-repeated="2"><table:table-cell office:value-type="date" office:date-value="2026-09-07"><text:p>07/09/26</text:p></table:table-cell>${cell("M.<text:span>K</text:span>.")}<table:table-cell office:value-type="float" office:value="8"><office:annotation><text:p>windy</text:p></office:annotation><text:p>8</text:p></table:table-cell></table:table-row>` +
      `<table:table-row table:number-rows-repeated="2"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>` +
      `<table:table-row>${cell("=1+1")}${cell('a<text:s text:c="2"/>b &amp; c')}<table:table-cell table:formula="of:=SUM([.C2:.C3])" office:value-type="float" office:value="16"><text:p>16</text:p></table:table-cell></table:table-row>` +
      `<table:table-row table:number-rows-repeated="1048571"><table:table-cell table:number-columns-repeated="16384"/></table:table-row></table:table>` +
      `<table:table table:name="log 2026"><table:table-row><table:table-cell office:value-type="percentage" office:value="0.8"><text:p>80 %</text:p></table:table-cell><table:table-cell office:value-type="boolean" office:boolean-value="true"><text:p>WAHR</text:p></table:table-cell></table:table-row></table:table>`,
  );

  test("its cells come in as values, its formulas as their answers, its repeated rows once each", () => {
    const { other, sheets } = opened("club.ods", log);
    expect(other).toMatchObject({ name: "club.xlsx", formulas: 1 });
    expect(sheets).toEqual([
      {
        name: "Log 2026",
        cells: [
          [
            ["Date", undefined],
            ["Athlete", undefined],
            ["Caught", undefined],
          ],
          [
            [serial("2026-09-07"), undefined],
            ["M.K.", undefined],
            [8, undefined],
          ],
          [
            [serial("2026-09-07"), undefined],
            ["M.K.", undefined],
            [8, undefined],
          ],
          [
            ["=1+1", undefined],
            ["a  b & c", undefined],
            [16, undefined],
          ],
        ],
      },
      {
        name: "log 2026 (2)",
        cells: [
          [
            [0.8, undefined],
            ["TRUE", undefined],
          ],
        ],
      },
    ]);
  });

  test.each<[string, () => Uint8Array, string]>([
    ["a password", () => ods("", "<manifest:encryption-data/>"), refusals.encrypted],
    ["no sheet", () => ods(""), refusals.noSheet],
    ["half its content", () => zipSync({ mimetype: strToU8("application/vnd.oasis.opendocument.spreadsheet"), "content.xml": strToU8("<office:a><b>") }), refusals.damaged], // prettier-ignore
    ["no content", () => zipSync({ mimetype: strToU8("application/vnd.oasis.opendocument.spreadsheet") }), refusals.damaged], // prettier-ignore
    ["one cell written for billions", () => ods(`<table:table table:name="A"><table:table-row table:number-rows-repeated="1000000"><table:table-cell table:number-columns-repeated="16000" office:value-type="float" office:value="1"/></table:table-row></table:table>`), refusals.tooManyCells], // prettier-ignore
  ])("%s", (_, bytes, sentence) => {
    expect(() => asWorkbook("a.ods", bytes())).toThrow(sentence);
  });
});

(isOfficeThere ? describe : describe.skip)("files that another program wrote", () => {
  const folder = mkdtempSync(path.join(tmpdir(), "other-formats-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test("the older log of the samples, as .ods and as .csv, holds the same words and numbers as the workbook", () => {
    const sample = inProject("sample-workbooks/older-log.xlsx");
    convert([sample], "ods", folder);
    const source = WorkbookFile.open("a.xlsx", readFileSync(sample), { ownFunctions: [] }).snapshot;
    const read = opened("older-log.ods", readFileSync(path.join(folder, "older-log.ods")));
    const first = source.sheets[source.sheetOrder[0] ?? ""];
    const own = Object.values(first?.cellData ?? {}).map((row) =>
      Object.values(row as Record<string, ICellData>).flatMap(({ v }) => (v === undefined || v === "" ? [] : [v])),
    );
    const cells = read.sheets[0]?.cells.map((row) => row.map(([value]) => value)) ?? [];
    expect(cells.length).toBeGreaterThan(20);
    expect(cells).toEqual(own.filter((row) => row.length > 0));
  }, 120_000);
});

test("a text becomes a workbook under its own name, and what looks like a formula is none", () => {
  const { other, sheets } = opened(
    "our log.csv",
    csv('Date,Trick,Marks\n3/4/2026,"=HYPERLINK(""x"")",1/10\n2026-09-07,+1 spin,0110'),
  );
  expect(other.name).toBe("our log.xlsx");
  expect(sheets).toEqual([
    {
      name: "our log",
      cells: [
        [
          ["Date", undefined],
          ["Trick", undefined],
          ["Marks", undefined],
        ],
        [
          ["3/4/2026", undefined],
          ['=HYPERLINK("x")', undefined],
          ["1/10", undefined],
        ],
        [
          [serial("2026-09-07"), undefined],
          ["+1 spin", undefined],
          ["0110", undefined],
        ],
      ],
    },
  ]);
});

test("a workbook, and a file of the older format, are left to those who open workbooks", () => {
  expect(asWorkbook("a.xls", Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0]))).toBeNull();
  expect(asWorkbook("a.xlsx", zipSync({ "xl/workbook.xml": strToU8("<a/>") }))).toBeNull();
});
