/**
 * Files that other programs and libraries wrote: what is saved without an edit is the file, and with one edit only that
 * cell and the answers that hang on it are others. Where each file comes from: corpus/SOURCES.md.
 */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { Workbook } from "@cj-tech-master/excelts";
import { DOMParser, type Element } from "@xmldom/xmldom";
import { WorkbookPackage } from "../../../src/xlsx/package/workbook-package";
import { cellName } from "../../../src/workbook/plan/address";
import { convert, isOfficeThere, sheetsAsText } from "../../libreoffice";
import { changedParts, openFile, type Workbench } from "./workbench";

const CORPUS = path.join(__dirname, "corpus");
const names = readdirSync(CORPUS).filter((name) => name.endsWith(".xlsx"));

/** Every cell of a package's sheets, told by another XML reader than the product's: `sheet part!address` → what it says. */
function cellsOf(contents: WorkbookPackage): Map<string, { readonly formula: string; readonly says: string }> {
  const dom = (part: string): Element => {
    const root = new DOMParser().parseFromString(contents.text(part), "text/xml").documentElement;
    if (!root) throw new Error(`${part} is empty.`);
    return root;
  };
  const all = (element: Element, name: string): Element[] => [...element.getElementsByTagNameNS("*", name)];
  const strings = contents.has("xl/sharedStrings.xml")
    ? all(dom("xl/sharedStrings.xml"), "si").map((item) => item.textContent ?? "")
    : [];
  const cells = new Map<string, { formula: string; says: string }>();
  for (const part of contents.names().filter((name) => /^xl\/worksheets\/[^/]+\.xml$/.test(name))) {
    for (const cell of all(dom(part), "c")) {
      const value = all(cell, "v")[0]?.textContent ?? all(cell, "is")[0]?.textContent ?? "";
      const type = cell.getAttribute("t") ?? "n";
      const text = type === "s" ? strings[Number(value)] : value;
      const formula = all(cell, "f")[0];
      cells.set(`${part}!${cell.getAttribute("r") ?? ""}`, {
        formula: formula ? `${formula.getAttribute("ref") ?? ""} ${formula.textContent ?? ""}` : "",
        says: `${/^(s|str|inlineStr)$/.test(type) ? "text" : type} ${cell.getAttribute("s") ?? "0"} ${String(text)}`,
      });
    }
  }
  return cells;
}

function isUnanswered({ formula, says }: { readonly formula: string; readonly says: string }): boolean {
  return formula !== "" && says.endsWith(" ");
}

/** Two files of openpyxl have absolute targets in their relationships, which this library does not follow. */
async function readByOther(file: Uint8Array): Promise<Workbook | undefined> {
  const workbook = new Workbook();
  try {
    await workbook.xlsx.load(Buffer.from(file));
    return workbook;
  } catch {
    return undefined;
  }
}

interface Edit {
  readonly sheet: string;
  readonly address: string;
  readonly value: number;
}

/** One more in the first cell that holds a plain number; a number at the end of the first sheet where there is none. */
async function editOnce(bench: Workbench): Promise<Edit> {
  const sheets =
    bench.engine.api
      .getActiveWorkbook()
      ?.getSheets()
      .filter((sheet) => !sheet.isSheetHidden()) ?? [];
  for (const sheet of sheets) {
    let found: { readonly row: number; readonly column: number; readonly value: number } | undefined;
    sheet
      .getSheet()
      .getCellMatrix()
      .forValue((row, column, cell) => {
        if (found === undefined && typeof cell?.v === "number" && cell.t === 2 && !cell.f && !cell.si) {
          found = { row, column, value: cell.v };
        }
      });
    if (found === undefined) continue;
    const address = cellName({ row: found.row + 1, column: found.column + 1 });
    await bench.type(sheet.getSheetName(), address, found.value + 1);
    return { sheet: sheet.getSheetName(), address, value: found.value + 1 };
  }
  const [first] = sheets;
  if (!first) throw new Error("There is no sheet in sight.");
  await bench.type(first.getSheetName(), "B40", 7);
  return { sheet: first.getSheetName(), address: "B40", value: 7 };
}

if (!isOfficeThere) console.log("LibreOffice (soffice) is not on this machine: it does not read the corpus.");

/** Lines of pivot tables that follow the edit. */
const PIVOT_LINES: Readonly<Record<string, number>> = { "openxlsx-loadPivotTables.xlsx": 2 };

describe("files of other programs", () => {
  const folder = mkdtempSync(path.join(tmpdir(), "corpus-"));
  const edited = new Map<string, { readonly edit: Edit; readonly differing: number }>();

  beforeAll(() => {
    for (const sub of ["before", "after"]) mkdirSync(path.join(folder, sub));
  });
  afterAll(() => {
    rmSync(folder, { recursive: true, force: true });
  });

  test("are at least 25, by at least six writers", () => {
    expect(names.length).toBeGreaterThanOrEqual(25);
    expect(new Set(names.map((name) => name.split("-")[0])).size).toBeGreaterThanOrEqual(6);
    const sources = readFileSync(path.join(CORPUS, "SOURCES.md"), "utf8");
    expect(names.filter((name) => !sources.includes(name.split("-")[0] ?? name))).toEqual([]);
  });

  describe.each(names)("%s", (name) => {
    const file = new Uint8Array(readFileSync(path.join(CORPUS, name)));
    let bench: Workbench;

    beforeAll(async () => {
      bench = await openFile(file);
      await bench.settled();
    });
    afterAll(() => {
      bench.close();
    });

    test("saved without an edit is the file", () => {
      const saved = bench.save();
      expect(saved.losses).toEqual([]);
      const before = cellsOf(bench.source);
      if ([...before.values()].some(isUnanswered)) {
        // A library that works nothing out leaves formulas without answers: these, and no other cell, get them.
        const after = cellsOf(saved.package);
        expect([...after.keys()]).toEqual([...before.keys()]);
        for (const [key, cell] of after) {
          const was = before.get(key);
          expect(was && isUnanswered(was) ? cell.formula : cell).toEqual(was && isUnanswered(was) ? was.formula : was);
        }
        const parts = [...changedParts(bench.source, saved.package).keys()];
        expect(parts.filter((part) => !/^xl\/worksheets\/[^/]+\.xml$/.test(part))).toEqual([]);
        return;
      }
      expect([...changedParts(bench.source, saved.package).keys()]).toEqual([]);
      expect(saved.package.toFile()).toBe(file);
    });

    test("saved with one edit differs in that cell and in answers alone", async () => {
      const edit = await editOnce(bench);
      const saved = bench.save();
      expect(saved.losses).toEqual([]);
      const parts = [...changedParts(bench.source, saved.package).keys()];
      // The workbook's own part asks for a calculation where a formula is one that the page cannot work out.
      expect(parts.filter((part) => !/^xl\/(worksheets\/[^/]+|workbook)\.xml$/.test(part))).toEqual([]);

      const before = cellsOf(bench.source);
      const after = cellsOf(saved.package);
      const differing = [...new Set([...before.keys(), ...after.keys()])].filter(
        (key) => JSON.stringify(before.get(key)) !== JSON.stringify(after.get(key)),
      );
      const typed = differing.filter(
        (key) => before.get(key)?.formula === undefined || before.get(key)?.formula === "",
      );
      expect(typed.map((key) => key.split("!")[1])).toEqual([edit.address]);
      // Formulas stay as they are written; their answers may be others.
      expect(
        differing.filter((key) => before.get(key)?.formula !== after.get(key)?.formula && key !== typed[0]),
      ).toEqual([]);
      writeFileSync(path.join(folder, "before", name), file);
      writeFileSync(path.join(folder, "after", name), saved.package.toFile());
      edited.set(name, { edit, differing: differing.length });

      // A reader that had no part in it finds the cell in what was saved, where it can open what was there before.
      const original = await readByOther(file);
      if (original === undefined) return;
      const reread = await readByOther(saved.package.toFile());
      const value = reread?.getWorksheet(edit.sheet)?.getCell(edit.address).value;
      // Day 25569 of the sheet is the first of January 1970.
      expect(value instanceof Date ? value.getTime() / 86_400_000 + 25_569 : value).toBe(edit.value);
    });
  });

  (isOfficeThere ? test : test.skip)(
    "LibreOffice reads each before and after to the same values, but for the edit",
    () => {
      for (const sub of ["before", "after"]) {
        const files = names.map((name) => path.join(folder, sub, name));
        convert(files, sheetsAsText(false), path.join(folder, `${sub}-text`), 300_000);
      }
      const textsOf = (sub: string): string[] =>
        readdirSync(path.join(folder, `${sub}-text`))
          .filter((name) => name.endsWith(".csv"))
          .sort();
      const texts = textsOf("before");
      expect(texts.length).toBeGreaterThan(names.length);
      expect(textsOf("after")).toEqual(texts);
      for (const name of names) {
        const own = texts.filter((text) => text.startsWith(`${name.replace(/\.xlsx$/, "")}-`));
        const lines = (sub: string): string[] =>
          own.flatMap((text) =>
            readFileSync(path.join(folder, `${sub}-text`, text), "utf8")
              .split("\n")
              // Rows that are put in to reach the edited cell are empty ones.
              .map((line) => line.replace(/,+$/, ""))
              .filter((line) => line !== ""),
          );
        const before = new Set(lines("before"));
        const differing = lines("after").filter((line) => !before.has(line));
        // A pivot table is worked out anew by LibreOffice itself: it is still one.
        const most = (edited.get(name)?.differing ?? 0) + (PIVOT_LINES[name] ?? 0);
        if (differing.length > most) throw new Error(`${name}: LibreOffice reads ${JSON.stringify(differing)}.`);
        expect(differing.length).toBeGreaterThan(0);
      }
    },
  );
});
