import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { Workbook } from "@cj-tech-master/excelts";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { parquetReadObjects, parquetMetadata } from "hyparquet";
import { analyse, analysisOptions, workbooksIn } from "../../../src/tools/analyse/analyse";
import { seasonRows, type SeasonRow } from "../../../src/tools/analyse/season-rows";
import { seasonPlan, sheetNames } from "../../../src/workbook/season/season";
import { SAMPLE_LABEL, sampleRecords, sampleSeason, sampleSettings } from "../../../src/workbook/sample/sample-season";
import { writeWorkbookFile } from "../../../src/xlsx/write-plan";

const samples = path.resolve(__dirname, "../../../sample-workbooks");
const folder = mkdtempSync(path.join(os.tmpdir(), "twirl-ledger-"));
const out = path.join(folder, "season.parquet");
const options = { folder, out, standard: 0.8, setSize: 10, withNames: false };
const sample = readFileSync(path.join(samples, "season.xlsx"));
const lines: string[] = [];
const silent = (): void => undefined;

beforeEach(() => {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  lines.length = 0;
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

type Row = Readonly<Record<string, unknown>>;

async function table(further: Partial<typeof options> = {}): Promise<Row[]> {
  await analyse({ ...options, ...further }, (line) => lines.push(line));
  const bytes = readFileSync(out);
  return parquetReadObjects({ file: bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length) });
}

const PRACTICE_PART = "xl/worksheets/sheet3.xml";
const sampleParts = unzipSync(sample);
/** The sample with the first weeks of its log alone. */
const seasonSheets = sampleSeason().sheets.map(({ name }) => name);
const shortParts: Readonly<Record<string, Uint8Array>> = {
  ...sampleParts,
  [PRACTICE_PART]: strToU8(
    strFromU8(sampleParts[PRACTICE_PART] ?? new Uint8Array()).replace(/<row r="(\d+)".*?<\/row>/gs, (row, number) =>
      Number(number) > 100 ? "" : row,
    ),
  ),
};

/** The short sample with other content in one cell. */
function withCell(sheet: "Practice" | "Contests", address: string, content: string): Uint8Array {
  const place = seasonSheets.findIndex((one) => one.startsWith(`${sheet} `)) + 1;
  const name = `xl/worksheets/sheet${String(place)}.xml`;
  const before = strFromU8(shortParts[name] ?? new Uint8Array());
  const after = before.replace(
    new RegExp(`(<c r="${address}"[^>]*?)(?: t="\\w+")?(?:/>|>.*?</c>)`),
    `$1 ${content}</c>`,
  );
  if (after === before) throw new Error(`${name} has no ${address}.`);
  return zipSync({ ...shortParts, [name]: strToU8(after) }, { level: 1 });
}

const text = (words: string): string => `t="inlineStr"><is><t xml:space="preserve">${words}</t></is>`;

test("a trick's row says what the board of the workbook itself says", async () => {
  cpSync(path.join(samples, "season.xlsx"), path.join(folder, "a.xlsx"));
  const rows = (await table({ withNames: true })).filter(({ record }) => record === "trick");
  // The answers that the built functions left in the file, read by a library that is not ours.
  const workbook = new Workbook();
  await workbook.xlsx.load(sample);
  const board = workbook.getWorksheet(sheetNames(SAMPLE_LABEL).board);
  const valueAt = (row: number, column: number): unknown => {
    const value: unknown = board?.getCell(row, column).value;
    return typeof value === "object" && value !== null && "result" in value ? value.result : value;
  };
  const isHeading = (row: number): boolean => valueAt(row, 1) === "Athlete" && valueAt(row, 2) === "Trick";
  const heading = Array.from({ length: 12 }, (_, index) => index + 1).find(isHeading) ?? 0;
  expect(heading).toBeGreaterThan(0);
  expect(rows.length).toBeGreaterThan(40);
  rows.forEach((row, index) => {
    const at = (column: number): unknown => valueAt(heading + 1 + index, column);
    expect([
      row["athlete_name"],
      row["trick"],
      row["attempts"],
      row["streak"],
      row["best_streak"],
      row["status"],
    ]).toEqual([at(1), at(2), at(3), at(9), at(10), at(11)]);
    expect(`${String(row["last_set_caught"])}/${String(row["last_set_attempts"])}`).toBe(at(4));
    expect(row["recent_rate"]).toBeCloseTo(Number(at(5)), 12);
    expect(row["low"]).toBeCloseTo(Number(at(6)), 12);
    expect(row["high"]).toBeCloseTo(Number(at(7)), 12);
    expect(row["chance"]).toBeCloseTo(Number(at(8)), 12);
  });
});

test("a contest's row says what the season was written with", async () => {
  cpSync(path.join(samples, "season.xlsx"), path.join(folder, "a.xlsx"));
  const rows = (await table({ withNames: true })).filter(({ record }) => record === "contest");
  expect(rows.map((row) => [row["athlete_name"], row["tosses"], row["drops"], row["score"], row["penalties"]])).toEqual(
    sampleRecords.contests.map((one) => [one.athlete, one.tosses, one.drops, one.score, one.penalties]),
  );
  // 46060 is Saturday 7 February 2026 in the 1900 system.
  const days = rows.map(({ day }) => (day as Date).toISOString().slice(0, 10));
  expect(days).toContain("2026-02-07");
  expect(sampleRecords.contests.map(({ date }) => date)).toContain(46060);
});

test("no name leaves unless it is asked for", async () => {
  cpSync(path.join(samples, "season.xlsx"), path.join(folder, "club of M.K..xlsx"));
  const rows = await table();
  const bytes = readFileSync(out);
  for (const athlete of sampleSettings.athletes) expect(bytes.includes(athlete)).toBe(false);
  expect(bytes.includes("club of")).toBe(false);
  const columns = parquetMetadata(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length)).schema.map(
    ({ name }) => name,
  );
  expect(columns).not.toContain("athlete_name");
  expect(columns).not.toContain("file");
  expect(new Set(rows.map(({ athlete }) => athlete))).toEqual(new Set([1, 2, 3, 4, 5, 6]));
  const named = await table({ withNames: true });
  expect(new Set(named.map((row) => row["athlete_name"]))).toEqual(new Set(sampleSettings.athletes));
  expect(named.every((row) => row["file"] === "club of M.K..xlsx")).toBe(true);
});

test("what cannot be read is named with why, and the others go on under their own numbers", async () => {
  writeFileSync(path.join(folder, "1-cut.xlsx"), sample.subarray(0, 60_000));
  writeFileSync(path.join(folder, "2-good.xlsx"), sample);
  writeFileSync(path.join(folder, "3-text.xlsx"), "no workbook");
  cpSync(path.join(samples, "older-log.xlsx"), path.join(folder, "4-older.xlsx"));
  mkdirSync(path.join(folder, "5-below"));
  writeFileSync(path.join(folder, "5-below/good.xlsx"), sample);
  writeFileSync(path.join(folder, "~$2-good.xlsx"), "a lock");
  writeFileSync(path.join(folder, "notes.txt"), "notes");
  const rows = await table();
  expect(new Set(rows.map(({ workbook }) => workbook))).toEqual(new Set([2, 5]));
  expect(lines).toEqual([
    "Left out: 1-cut.xlsx: This file is damaged and cannot be opened.",
    "Left out: 3-text.xlsx: This file is not an .xlsx workbook.",
    "Left out: 4-older.xlsx: It holds no season: no table called Practice_… or Contests_….",
  ]);
});

/** The rows of the short sample that are changed are of stages that count, ten attempts each. */
test.each([
  ["a mark", "E46", text("maybe"), 'Practice 2026, row 46: Marks: found the text "maybe".'],
  ["no mark", "E46", ">", "Practice 2026, row 46: Not complete yet: nothing in Marks."],
  ["a blank name", "B47", text("  "), "Practice 2026, row 47: Not complete yet: nothing in Athlete."],
  ["an error", "E46", 't="e"><v>#N/A</v>', "Practice 2026, row 46: Marks: found the error #N/A"],
  ["a truth value for a name", "C48", 't="b"><v>1</v>', "Practice 2026, row 48: Trick: found TRUE"],
  ["a day as text", "A52", 't="str"><v>5 Oct</v>', 'Practice 2026, row 52: Date: found the text "5 Oct".'],
  ["a stage", "D53", text("Jonied"), 'Practice 2026, row 53: Stage: found the text "Jonied".'],
] as const)(
  "a row with %s that cannot be read is left out and said, and every other counts",
  (_what, address, content, words) => {
    const told: string[] = [];
    const rows = seasonRows(withCell("Practice", address, content), options, (line) => told.push(line));
    expect(told).toEqual([expect.stringContaining(words)]);
    const attempts = (all: readonly SeasonRow[]) =>
      all.reduce((sum, row) => sum + (row.record === "trick" ? row.attempts : 0), 0);
    const whole = attempts(seasonRows(zipSync(shortParts), options, silent));
    expect(attempts(rows)).toBeLessThan(whole);
    expect(attempts(rows)).toBeGreaterThanOrEqual(whole - 10);
  },
);

test.each([
  [
    "more drops than tosses",
    "Contests",
    "E6",
    "><v>99</v>",
    /Contests 2026, row 6, Drops: found 99 drops of \d+ tosses\./,
  ],
  ["half a toss", "Contests", "D7", "><v>9.5</v>", "Contests 2026, row 7, Tosses: found the number 9.5."],
  ["no athlete", "Contests", "C6", ">", "Contests 2026, row 6, Athlete: found an empty cell"],
  ["points in words", "Contests", "F6", text("many"), 'Contests 2026, row 6, Score: found "many".'],
] as const)("%s that cannot be read is said with its sheet and row", (_what, sheet, address, content, words) => {
  expect(() => seasonRows(withCell(sheet, address, content), options, silent)).toThrow(words);
});

test("a text is read wherever the file keeps it", () => {
  const before = seasonRows(zipSync(shortParts), options, silent);
  expect(before.length).toBeGreaterThan(15);
  const marks = sampleRecords.practice[1]?.marks ?? "";
  expect(seasonRows(withCell("Practice", "E6", text(marks)), options, silent)).toEqual(before);
  expect(seasonRows(withCell("Practice", "E6", `t="str"><f>UPPER("x")</f><v>${marks}</v>`), options, silent)).toEqual(
    before,
  );
});

test("an empty season has no rows, and two seasons in one workbook are told apart", () => {
  expect(seasonRows(readFileSync(path.join(samples, "empty-season.xlsx")), options, silent)).toEqual([]);
  const few = { ...sampleRecords, practice: sampleRecords.practice.slice(0, 100) };
  const [first, second] = ["2027", "2028"].map((label) => seasonPlan({ ...sampleSettings, label }, few));
  if (!first || !second) throw new Error("There are two plans.");
  const rows = seasonRows(
    writeWorkbookFile({ ...first, sheets: [...first.sheets, ...second.sheets] }),
    options,
    silent,
  );
  const of = (label: string) => rows.filter(({ season }) => season === label).map((row) => ({ ...row, season: "" }));
  expect(of("2027").length).toBeGreaterThan(15);
  expect(of("2028")).toEqual(of("2027"));
});

test("the standard and the size of a set are the federation's", async () => {
  cpSync(path.join(samples, "season.xlsx"), path.join(folder, "a.xlsx"));
  const [usual, strict] = [await table(), await table({ standard: 0.95 })];
  const ready = (rows: readonly Row[]): number =>
    rows.filter(({ status }) => status === "Ready" || status === "Solid").length;
  expect(ready(strict)).toBeLessThan(ready(usual));
});

test("the same folder gives the same bytes, and where nothing can be read the old table stays", async () => {
  writeFileSync(path.join(folder, "a.xlsx"), sample);
  await table();
  const first = readFileSync(out);
  await table();
  expect(readFileSync(out).equals(first)).toBe(true);
  writeFileSync(path.join(folder, "a.xlsx"), "no workbook");
  await expect(table()).rejects.toThrow("Not one workbook could be read, so no table was written.");
  expect(readFileSync(out).equals(first)).toBe(true);
  expect(existsSync(`${out}.part`)).toBe(false);
});

test.each([
  [[], "One folder of workbooks is needed."],
  [["a", "b", "--out", "x.parquet"], "One folder of workbooks is needed."],
  [["a"], "--out is missing."],
  [["a", "--out"], "--out needs a value."],
  [["a", "--out", "season.xlsx"], "its name is to end in .parquet"],
  [["a", "--out", "x.parquet", "--standard", "80"], "80 % is 0.8"],
  [["a", "--out", "x.parquet", "--set-size", "2.5"], "--set-size is a whole number"],
  [["a", "--out", "x.parquet", "--all"], "--all is not known."],
])("the words %j are refused: %s", (words, reason) => {
  expect(() => analysisOptions(words)).toThrow(reason);
});

test("the command's words, and a folder that is not there or holds nothing", async () => {
  expect(analysisOptions(["clubs", "--out", "x.parquet", "--names", "--standard", "0.9", "--set-size", "5"])).toEqual({
    folder: "clubs",
    out: "x.parquet",
    standard: 0.9,
    setSize: 5,
    withNames: true,
  });
  expect(() => workbooksIn(path.join(folder, "nowhere"))).toThrow("There is no folder");
  await expect(table()).rejects.toThrow("There is no .xlsx workbook in");
});
