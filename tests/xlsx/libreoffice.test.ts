/**
 * A third reader: LibreOffice opens the season, works out the plain formulas itself, and hands the sheets out as text.
 * It knows none of our functions and works array formulas out anew, so the board's own cells are not looked at here.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { convert, isOfficeThere, sheetsAsText } from "../libreoffice";
import { calculate, type HeadlessWorkbook } from "../../src/grid/headless";
import { builtFunctions } from "../../src/tools/build-samples";
import { cellName } from "../../src/workbook/plan/address";
import { sampleRecords, sampleSeason, sampleSettings } from "../../src/workbook/sample/sample-season";
import { answersOnly } from "../../src/xlsx/answers-only";
import { WorkbookPackage } from "../../src/xlsx/package/workbook-package";
import { writeWorkbookFile } from "../../src/xlsx/write-plan";

if (!isOfficeThere) console.log("Skipped: LibreOffice (soffice) is not on this machine.");
const whenThere = isOfficeThere ? describe : describe.skip;

/** Cells of a text file with commas and doubled quotes. */
function parseCsv(content: string): readonly (readonly string[])[] {
  return content
    .split("\n")
    .filter((line) => line !== "")
    .map((line) =>
      [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)].map(([, quoted, bare]) =>
        quoted === undefined ? (bare ?? "") : quoted.replaceAll('""', '"'),
      ),
    );
}

/** Each sheet of the sample season as LibreOffice handed it out. */
function textSheets(folder: string, file: string): [name: string, cells: readonly (readonly string[])[]][] {
  return sampleSeason().sheets.map(({ name }) => [
    name,
    parseCsv(readFileSync(path.join(folder, `${file}-${name}.csv`), "utf8")),
  ]);
}

whenThere("LibreOffice", () => {
  const folder = mkdtempSync(path.join(tmpdir(), "season-"));
  const sheets = new Map<string, readonly (readonly string[])[]>();

  beforeAll(() => {
    const file = path.join(folder, "season.xlsx");
    writeFileSync(file, writeWorkbookFile(sampleSeason()));
    convert([file], sheetsAsText(true), folder);
    for (const [name, cells] of textSheets(folder, "season")) sheets.set(name, cells);
  }, 150_000);

  afterAll(() => {
    rmSync(folder, { recursive: true, force: true });
  });

  test("shows the log as it was typed: dates as days, marks as text", () => {
    const rows = (sheets.get("Practice 2026") ?? []).slice(3);
    expect(rows[0]).toEqual([
      "Date",
      "Athlete",
      "Trick",
      "Stage",
      "Marks",
      "Minutes",
      "Entrance",
      "Exit",
      "Condition",
      "Note",
    ]);
    const months = ["Jan", "Feb", "Mar", "", "", "", "", "", "", "Oct", "Nov", "Dec"];
    const shown = sampleRecords.practice.map((row) => {
      const { date, athlete, trick, stage, marks, minutes, entrance, exit, condition, note } = row;
      const day = new Date(Date.UTC(1899, 11, 30) + date * 86_400_000);
      const dayShown = `${day.getUTCDate()} ${months[day.getUTCMonth()]} ${day.getUTCFullYear()}`;
      return [
        dayShown,
        athlete,
        trick,
        stage,
        marks,
        minutes === null ? "" : String(minutes),
        entrance ?? "",
        exit ?? "",
        condition ?? "",
        note,
      ];
    });
    expect(rows.slice(1)).toEqual(shown);
  });

  /** Airtime and rise: the trade's own table at a level hand (1.8 s, 4.0 m), and g T² / 8 with g = 9.80665 by hand. */
  const tosses = [
    { trick: "Double spin", counts: "5", airtime: "1.50", rise: "2.8", clears: "yes" },
    { trick: "Triple spin", counts: "7", airtime: "2.10", rise: "5.4", clears: "yes" },
    { trick: "Single illusion", counts: "6", airtime: "1.80", rise: "4.0", clears: "yes" },
    { trick: "Double illusion", counts: "9", airtime: "2.70", rise: "8.9", clears: "no" },
    { trick: "Cartwheel blind catch", counts: "6", airtime: "1.80", rise: "4.0", clears: "yes" },
    { trick: "Front walkover", counts: "8", airtime: "2.40", rise: "7.1", clears: "close" },
    { trick: "Open hand back catch", counts: "3", airtime: "0.90", rise: "1.0", clears: "yes" },
    { trick: "Flat under-leg", counts: "3", airtime: "0.90", rise: "1.0", clears: "yes" },
    { trick: "Single spin", counts: "4", airtime: "1.20", rise: "1.8", clears: "yes" },
    { trick: "One and a half spin", counts: "5", airtime: "1.50", rise: "2.8", clears: "yes" },
    { trick: "Quad spin", counts: "8", airtime: "2.40", rise: "7.1", clears: "close" },
    { trick: "Double spin blind catch", counts: "6", airtime: "1.80", rise: "4.0", clears: "yes" },
    { trick: "Double spin left hand", counts: "5", airtime: "1.50", rise: "2.8", clears: "yes" },
    { trick: "Illusion back catch", counts: "7", airtime: "2.10", rise: "5.4", clears: "yes" },
    { trick: "Cartwheel", counts: "6", airtime: "1.80", rise: "4.0", clears: "yes" },
    { trick: "Back walkover", counts: "8", airtime: "2.40", rise: "7.1", clears: "close" },
    { trick: "Leap", counts: "5", airtime: "1.50", rise: "2.8", clears: "yes" },
    { trick: "Leap back catch", counts: "5", airtime: "1.50", rise: "2.8", clears: "yes" },
    { trick: "Flat single spin", counts: "4", airtime: "1.20", rise: "1.8", clears: "yes" },
    { trick: "Backhand head catch", counts: "3", airtime: "0.90", rise: "1.0", clears: "yes" },
  ];

  test("works out counts, airtime, rise and ceiling in the table of tricks", () => {
    const rows = (sheets.get("Tricks 2026") ?? []).slice(5);
    expect(rows.map((row) => row[0])).toEqual(sampleSettings.tricks.map(({ name }) => name));
    expect(
      rows.map((row) => ({ trick: row[0], counts: row[10], airtime: row[11], rise: row[12], clears: row[13] })),
    ).toEqual(tosses);
  });

  test("shows the settings in their formats", () => {
    const rows = sheets.get("Season 2026") ?? [];
    const shown = (words: string): string | undefined => rows.find((row) => row[0] === words)?.[1];
    expect(shown("Catch standard")).toBe("80%");
    expect(shown("Contest date")).toBe("22 Mar 2026");
    expect(shown("Ceiling height")).toBe("9.0");
  });

  test("prints the finished season", () => {
    convert([path.join(__dirname, "../../sample-workbooks/season.xlsx")], "pdf", folder);
    const pdf = readFileSync(path.join(folder, "season.pdf"));
    expect(pdf.subarray(0, 5).toString()).toBe("%PDF-");
    expect(pdf.length).toBeGreaterThan(50_000);
  }, 150_000);

  describe("a copy with answers only", () => {
    const copied = new Map<string, readonly (readonly string[])[]>();
    let calculated: HeadlessWorkbook;
    beforeAll(async () => {
      const plan = sampleSeason();
      calculated = await calculate(plan, builtFunctions());
      const file = path.join(folder, "copy.xlsx");
      writeFileSync(file, answersOnly(WorkbookPackage.open(writeWorkbookFile(plan, calculated))).package.toFile());
      convert([file], sheetsAsText(true), folder);
      for (const [name, cells] of textSheets(folder, "copy")) copied.set(name, cells);
    }, 300_000);

    test("shows no error anywhere", () => {
      for (const [name, rows] of copied) {
        expect([name, rows.flat().filter((words) => /^(#|Err:)/.test(words))]).toEqual([name, []]);
      }
    });

    test("shows the board as our functions answer it", () => {
      const answers = calculated.get("Board 2026")?.values;
      const rows = (copied.get("Board 2026") ?? []).slice(3);
      expect(rows.length).toBeGreaterThan(30);
      const status = (row: number): unknown => answers?.get(cellName({ row: 4 + row, column: 11 }));
      const shown = rows.map((row) => row[10] ?? "").filter((words) => words !== "");
      expect(shown.map((text) => ({ kind: "text", text }))).toEqual(shown.map((_, row) => status(row)));
      expect(new Set(shown)).toEqual(
        new Set(["Status", "Too few", "Building", "Confirm", "Ready", "Solid", "At risk"]),
      );
    });
  });
});
