/**
 * A third reader: LibreOffice opens the season, works out the plain formulas itself, and hands the sheets out as text.
 * It knows none of our functions and works array formulas out anew, so the board's own cells are not looked at here.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { sampleRecords, sampleSeason, sampleSettings } from "../../../src/workbook/sample-season";
import { writeWorkbookFile } from "../../../src/workbook/writers/file";

const version = spawnSync("soffice", ["--version"], { encoding: "utf8" });
const isThere = version.status === 0;
if (!isThere) console.log("Skipped: LibreOffice (soffice) is not on this machine.");
const whenThere = isThere ? describe : describe.skip;

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

whenThere("LibreOffice", () => {
  const folder = mkdtempSync(path.join(tmpdir(), "season-"));
  const sheets = new Map<string, readonly (readonly string[])[]>();

  beforeAll(() => {
    const file = path.join(folder, "season.xlsx");
    writeFileSync(file, writeWorkbookFile(sampleSeason()));
    const profile = pathToFileURL(path.join(folder, "profile")).href;
    // Commas, double quotes, UTF-8, cells as they are shown, every sheet into a file of its own (-1).
    const filter = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,true,false,false,-1";
    const run = spawnSync(
      "soffice",
      [`-env:UserInstallation=${profile}`, "--headless", "--convert-to", filter, "--outdir", folder, file],
      { encoding: "utf8", timeout: 120_000 },
    );
    if (run.status !== 0) throw new Error(`LibreOffice stopped: ${run.stderr}`);
    for (const name of sampleSeason().sheets.map((sheet) => sheet.name)) {
      sheets.set(name, parseCsv(readFileSync(path.join(folder, `season-${name}.csv`), "utf8")));
    }
  }, 150_000);

  afterAll(() => {
    rmSync(folder, { recursive: true, force: true });
  });

  test("shows the log as it was typed: dates as days, marks as text", () => {
    const rows = (sheets.get("Practice 2027") ?? []).slice(3);
    expect(rows[0]).toEqual(["Date", "Athlete", "Trick", "Stage", "Marks", "Minutes", "Note"]);
    const months = ["Jan", "Feb", "Mar", "", "", "", "", "", "", "Oct", "Nov", "Dec"];
    const shown = sampleRecords.practice.map(({ date, athlete, trick, stage, marks, minutes, note }) => {
      const day = new Date(Date.UTC(1899, 11, 30) + date * 86_400_000);
      const dayShown = `${day.getUTCDate()} ${months[day.getUTCMonth()]} ${day.getUTCFullYear()}`;
      return [dayShown, athlete, trick, stage, marks, minutes === null ? "" : String(minutes), note];
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
    const rows = (sheets.get("Tricks 2027") ?? []).slice(5);
    expect(rows.map((row) => row[0])).toEqual(sampleSettings.tricks.map(({ name }) => name));
    expect(
      rows.map((row) => ({ trick: row[0], counts: row[10], airtime: row[11], rise: row[12], clears: row[13] })),
    ).toEqual(tosses);
  });

  test("shows the settings in their formats", () => {
    const rows = sheets.get("Season 2027") ?? [];
    const shown = (words: string): string | undefined => rows.find((row) => row[0] === words)?.[1];
    expect(shown("Catch standard")).toBe("80%");
    expect(shown("Contest date")).toBe("21 Mar 2027");
    expect(shown("Ceiling height")).toBe("9.0");
  });
});
