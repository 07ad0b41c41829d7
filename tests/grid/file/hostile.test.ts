import { strToU8, zipSync } from "fflate";

import { refusals } from "../../../src/xlsx/package/file-refused";
import { limits } from "../../../src/xlsx/package/limits";
import { readWorkbook } from "../../../src/grid/file/open";
import { WorkbookPackage } from "../../../src/xlsx/package/workbook-package";
import { bookFile, bookParts, rowOf, testOptions, zipped } from "./parts";

const plain = { sheets: [{ rows: rowOf('<c r="A1"><v>1</v></c>') }] };
const file = bookFile(plain);

function open(bytes: Uint8Array): unknown {
  return readWorkbook(WorkbookPackage.open(bytes), testOptions);
}

/** The file with the bytes of the first (or last) place of a four-byte word changed. */
function patched(
  bytes: Uint8Array,
  signature: number,
  offset: number,
  change: (view: DataView, at: number) => void,
): Uint8Array {
  const copy = bytes.slice();
  const view = new DataView(copy.buffer);
  for (let at = 0; at + 4 <= copy.length; at += 1) {
    if (view.getUint32(at, true) === signature) {
      change(view, at + offset);
      return copy;
    }
  }
  throw new Error("The signature is not there.");
}

const DIRECTORY_ENTRY = 0x02014b50;

/** A compound file's beginning, and what an encrypted workbook's directory says. */
function compound(...streams: readonly string[]): Uint8Array {
  const bytes = new Uint8Array(4096);
  bytes.set([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]);
  streams.forEach((name, index) => {
    bytes.set(
      [...name].flatMap((letter) => [letter.charCodeAt(0), 0]),
      1024 + index * 128,
    );
  });
  return bytes;
}

function sheet(rows: string): Uint8Array {
  return bookFile({ sheets: [{ rows }] });
}

const dateless = { mtime: new Date(2000, 0, 1) };

describe("a file that is no workbook, or does harm, gets one sentence", () => {
  test.each<[string, () => Uint8Array, string]>([
    ["nothing in it", () => new Uint8Array(0), refusals.empty],
    ["text", () => strToU8("Date,Athlete\n"), refusals.noWorkbook],
    ["more than 20 MB", () => new Uint8Array(limits.fileBytes + 1), refusals.tooLarge],
    ["an encrypted workbook", () => compound("EncryptionInfo", "EncryptedPackage"), refusals.encrypted],
    ["the older format", () => compound("Workbook"), refusals.olderFormat],
    ["a zip of something else", () => zipSync({ "readme.txt": strToU8("hello") }), refusals.noWorkbook],
    [
      "an OpenDocument spreadsheet",
      () => zipSync({ mimetype: strToU8("application/vnd.oasis.opendocument.spreadsheet") }),
      refusals.openDocument,
    ],
    [
      "a binary workbook",
      () => bookFile({ ...plain, workbookType: "application/vnd.ms-excel.sheet.binary.macroEnabled.main" }),
      refusals.binaryWorkbook,
    ],
    [
      "a text document",
      () =>
        bookFile({
          ...plain,
          workbookType: "application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml",
        }),
      refusals.noWorkbook,
    ],
    ["half a file", () => file.slice(0, Math.floor(file.length / 2)), refusals.damaged],
    ["a file without its end", () => file.slice(0, -30), refusals.damaged],
    [
      "a directory that points outside the file",
      () => patched(file, DIRECTORY_ENTRY, 42, (view, at) => view.setUint32(at, 0x7fffffff, true)),
      refusals.damaged,
    ],
    [
      "a part whose bytes were changed",
      () => {
        const copy = zipSync(
          Object.fromEntries(
            Object.entries(bookParts(plain)).map(([name, text]) => [name, [strToU8(text as string), { level: 0 }]]),
          ),
        );
        const place = new TextDecoder("latin1").decode(copy).indexOf("<v>1</v>");
        copy[place + 3] = "9".charCodeAt(0);
        return copy;
      },
      refusals.damaged,
    ],
    [
      "an encrypted part",
      () => patched(file, DIRECTORY_ENTRY, 8, (view, at) => view.setUint16(at, view.getUint16(at, true) | 1, true)),
      refusals.encrypted,
    ],
    [
      "a way of packing that nobody uses",
      () => patched(file, DIRECTORY_ENTRY, 10, (view, at) => view.setUint16(at, 99, true)),
      refusals.damaged,
    ],
    [
      "a zip bomb",
      () => zipped({ ...bookParts(plain), "xl/bomb.xml": new Uint8Array(60_000_000) }),
      refusals.inflatesTooMuch,
    ],
    [
      "a part larger than any",
      () => patched(file, DIRECTORY_ENTRY, 24, (view, at) => view.setUint32(at, limits.partBytes + 1, true)),
      refusals.inflatesTooMuch,
    ],
    [
      "a great many small parts",
      () =>
        zipSync(
          Object.fromEntries(Array.from({ length: limits.parts + 1 }, (_, index) => [`p${index}`, new Uint8Array(0)])),
        ),
      refusals.tooManyParts,
    ],
    [
      "a name that leads out of the package",
      () => zipped({ ...bookParts(plain), "../evil.xml": "x" }),
      refusals.unsafeNames,
    ],
    ["a name from the root", () => zipped({ ...bookParts(plain), "/etc/evil": "x" }), refusals.unsafeNames],
    ["a name with a drive", () => zipped({ ...bookParts(plain), "C:\\evil.xml": "x" }), refusals.unsafeNames],
    ["two parts of one name", () => zipped({ ...bookParts(plain), "XL/Workbook.xml": "x" }), refusals.damaged],
    [
      "a declaration of the document's type",
      () =>
        zipped({
          ...bookParts(plain),
          "xl/workbook.xml": `<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;">]><workbook>&b;</workbook>`,
        }),
      refusals.documentType,
    ],
    [
      "a sheet that is not there",
      () => {
        const parts = bookParts(plain);
        return zipped(Object.fromEntries(Object.entries(parts).filter(([name]) => !name.includes("sheet1"))));
      },
      refusals.damaged,
    ],
    [
      "no sheet at all",
      () => zipped({ ...bookParts(plain), "xl/workbook.xml": "<workbook><sheets/></workbook>" }),
      refusals.noSheet,
    ],
    ["a row beyond the last", () => sheet('<row r="1048577"><c r="A1048577"><v>1</v></c></row>'), refusals.tooManyRows],
    ["a column beyond the last", () => sheet('<row r="1"><c r="XFE1"><v>1</v></c></row>'), refusals.tooManyRows],
    ["a cell in another row than its own", () => sheet('<row r="1"><c r="A2"><v>1</v></c></row>'), refusals.damaged],
    ["an address that is none", () => sheet('<row r="1"><c r="1A"><v>1</v></c></row>'), refusals.damaged],
    ["a text that is not there", () => sheet('<row r="1"><c r="A1" t="s"><v>7</v></c></row>'), refusals.damaged],
    ["a number that is none", () => sheet('<row r="1"><c r="A1"><v>1e999</v></c></row>'), refusals.damaged],
    [
      "a text that stands in too many cells",
      () =>
        bookFile({
          strings: `<si><t>${"caught dropped ".repeat(70_000)}</t></si>`,
          sheets: [
            {
              rows: Array.from(
                { length: 100 },
                (_, row) => `<row r="${row + 1}"><c r="A${row + 1}" t="s"><v>0</v></c></row>`,
              ).join(""),
            },
          ],
        }),
      refusals.tooMuchText,
    ],
    [
      "a formula that is held once and stands for too many cells",
      () =>
        sheet(
          `<row r="1"><c r="A1"><f t="shared" si="0" ref="A1:A20000">${"B1+".repeat(2700)}1</f></c></row>` +
            Array.from(
              { length: 20_000 },
              (_, row) => `<row r="${row + 2}"><c r="A${row + 2}"><f t="shared" si="0"/></c></row>`,
            ).join(""),
        ),
      refusals.tooMuchText,
    ],
  ])("%s", (_, make, sentence) => {
    expect(() => open(make())).toThrow(sentence);
    expect(sentence).toMatch(/^[A-Z][^.]*(\.xlsx?[^.]*|\.xlsb[^.]*)*\.$/);
  });

  test("a part that unpacks to more than it says stops early", () => {
    // 50 MB of zeros claim to be 100 bytes: the part is asked for, and never gets more room than it claimed.
    const large = patched(
      zipSync({ "a.bin": [new Uint8Array(50_000_000), dateless] }),
      DIRECTORY_ENTRY,
      24,
      (view, at) => view.setUint32(at, 100, true),
    );
    expect(() => WorkbookPackage.open(large).bytes("a.bin")).toThrow(refusals.damaged);
  });

  test("the plain file opens", () => {
    expect(() => open(file)).not.toThrow();
  });
});
