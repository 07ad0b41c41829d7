/**
 * A club that keeps its workbook, the whole way: the older log of the sample workbooks is opened, mapped, gets its board,
 * is saved, and opens again; not a cell of the log is another. Then what goes to the wall and to the parents: one
 * athlete's page from the season, and a sheet on paper.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { readWorkbook } from "../../src/grid/file/open";
import { WorkbookPackage } from "../../src/xlsx/package/workbook-package";
import { inProject } from "../../src/tools/paths";
import { texts } from "../../src/taskpane/words/texts";
import { type OpenPage, openTryOutPage, screenshots } from "./page";

jest.setTimeout(300_000);

const ownFunctions = (
  JSON.parse(readFileSync(inProject("dist/functions.json"), "utf8")) as { functions: { id: string }[] }
).functions.map(({ id }) => id);

async function open(opened: OpenPage, name: string, bytes: Uint8Array): Promise<void> {
  await opened.pickFile(name, bytes);
  await opened.page.locator("#file-message", { hasText: `${name} is open.` }).waitFor();
  await opened.ready();
}

/** What the log's sheet holds, by its part and by another way than the page: rows as they stand in the file. */
function rowsOf(bytes: Uint8Array, sheet: string): string {
  const contents = WorkbookPackage.open(bytes);
  const { sheets } = readWorkbook(contents, { ownFunctions });
  const part = sheets.find(({ entry }) => entry.name === sheet)?.entry.part;
  if (part === undefined) throw new Error(`There is no sheet ${sheet}.`);
  return /<sheetData>.*<\/sheetData>/s.exec(contents.text(part))?.[0] ?? "";
}

describe("the older log of the sample workbooks", () => {
  let opened: OpenPage;
  const file = new Uint8Array(readFileSync(inProject("sample-workbooks/older-log.xlsx")));
  let board: readonly (readonly unknown[])[];
  let savedFile: Uint8Array;

  const boardRows = (name: string): Promise<unknown[][]> =>
    opened.page.evaluate(
      (sheet) =>
        Array.from({ length: 60 }, (_, row) =>
          [..."ABCDEFGHIJK"].map((letter) => window.tryOutPage?.read(sheet, `${letter}${String(row + 9)}`) ?? null),
        ).filter(([athlete]) => athlete !== null && athlete !== ""),
      name,
    );

  beforeAll(async () => {
    opened = await openTryOutPage();
  });
  afterAll(async () => {
    await opened.close();
  });

  test("is opened and mapped, with every cell that cannot be read", async () => {
    await open(opened, "older-log.xlsx", file);
    await opened.goTo("Log", "B6");
    const { page } = opened;
    await page.locator("#pane").getByRole("tab", { name: texts.ownSheetTitle }).click();
    const part = page.locator("#twirl-panel-own-sheet");
    await part.getByRole("button", { name: texts.ownSheetRead }).click();
    await part.getByText(texts.ownSheetColumns).waitFor();
    const chosen = async (label: string): Promise<string> =>
      part
        .getByLabel(label, { exact: true })
        .evaluate((select) => (select as HTMLSelectElement).selectedOptions[0]?.text ?? "");
    expect(await chosen(texts.ownSheetDate)).toMatch(/^A Day/);
    expect(await chosen(texts.athleteLabel)).toMatch(/^B Name/);
    expect(await chosen(texts.trickLabel)).toMatch(/^C Move/);
    expect(await chosen(texts.ownSheetCaught)).toMatch(/^E Good/);
    expect(await chosen(texts.ownSheetTried)).toMatch(/^F Tries/);
    expect(await part.locator(".twirl-cells li").count()).toBeGreaterThan(0);
    await page.screenshot({ path: join(screenshots, "older-log-mapped.png") });
  });

  test("gets its board on a sheet of its own", async () => {
    const { page } = opened;
    const part = page.locator("#twirl-panel-own-sheet");
    await part.getByRole("button", { name: texts.ownSheetPut }).click();
    await part.getByText(texts.ownSheetDone("Board (Log)")).waitFor();
    await opened.shows("Board (Log)", "A8", "Athlete");
    await opened.ready();
    board = await boardRows("Board (Log)");
    // Five athletes; sums that the log itself bears out are in the mapping's own tests.
    expect(new Set(board.map(([athlete]) => String(athlete).toUpperCase())).size).toBeGreaterThanOrEqual(5);
    expect(board.every((row) => Number(row[2]) > 0)).toBe(true);
    await page.screenshot({ path: join(screenshots, "older-log-board.png") });
  });

  test("is saved with the board, and not a cell of it is another", async () => {
    const { page } = opened;
    const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#save-file").click()]);
    expect(download.suggestedFilename()).toBe("older-log.xlsx");
    savedFile = new Uint8Array(readFileSync(await download.path()));
    for (const sheet of ["Log", "Notes"]) expect(rowsOf(savedFile, sheet)).toBe(rowsOf(file, sheet));
  });

  test("opens again with the same board, which follows a row that is added", async () => {
    await open(opened, "older-log again.xlsx", savedFile);
    await opened.shows("Board (Log)", "A8", "Athlete");
    expect(await boardRows("Board (Log)")).toEqual(board);
    const before = String(await opened.read("Board (Log)", "F4"));
    const last = await opened.page.evaluate(() => {
      for (let row = 900; row > 3; row -= 1) if (window.tryOutPage?.read("Log", `A${String(row)}`)) return row;
      return 0;
    });
    const stage = String(await opened.read("Log", "D6"));
    await opened.typeRow("Log", last + 1, ["2026-11-02", "B.F.", String(board[0]?.[1]), stage, "9", "10"]);
    await opened.shows("Board (Log)", "F4", String(Number(before) + 1));
    expect(opened.problems).toEqual([]);
  });
});

describe("on paper", () => {
  test("one athlete's page holds that athlete's record alone, and prints", async () => {
    const opened = await openTryOutPage();
    try {
      const { page } = opened;
      await page.locator("#pane").getByRole("tab", { name: texts.handOutTitle }).click();
      const part = page.locator("#twirl-panel-hand-out");
      const choice = part.getByLabel(texts.handOutAthlete);
      await choice.waitFor();
      const athletes = await choice.evaluate((select) =>
        [...(select as HTMLSelectElement).options].map(({ text }) => text),
      );
      expect(athletes.length).toBeGreaterThanOrEqual(6);
      const [one = "", ...others] = athletes;
      await choice.selectOption({ label: one });
      const before = (await page.evaluate(() => window.tryOutPage?.sheetNames())) ?? [];
      await part.getByRole("button", { name: texts.handOutMake }).click();
      await page.waitForFunction((count) => (window.tryOutPage?.sheetNames().length ?? 0) > count, before.length);
      await opened.ready();
      const after = (await page.evaluate(() => window.tryOutPage?.sheetNames())) ?? [];
      const sheet = after.find((name) => !before.includes(name)) ?? "";
      await part.getByText(texts.handOutMade(sheet)).waitFor();

      await opened.printSheet();
      const paper = page.locator(".page-paper");
      const words = (await paper.textContent()) ?? "";
      expect(words).toContain(one);
      for (const other of others) expect(words).not.toContain(other);
      expect(await paper.locator("table").count()).toBeGreaterThan(0);
      await page.emulateMedia({ media: "print" });
      await page.screenshot({ path: join(screenshots, "hand-out-paper.png"), fullPage: true });
      await page.emulateMedia({ media: "screen" });
      await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
      expect(await paper.count()).toBe(0);

      // Everybody's: one page of paper each, the one that is there already among them.
      await part.getByRole("button", { name: texts.handOutMakeAll }).click();
      await part.getByText(texts.handOutMadeAll(athletes.length - 1, 1)).waitFor();
      await part.getByRole("button", { name: texts.handOutPrintAll(athletes.length) }).click();
      await paper.first().waitFor({ state: "attached" });
      const titles = await paper
        .locator("thead tr:first-child > :first-child")
        .evaluateAll((cells) => cells.map((cell) => cell.textContent));
      expect(titles.slice(0, athletes.length)).toEqual(athletes.map((name) => `${name}, season 2026`));
      await page.emulateMedia({ media: "print" });
      const pdf = await page.pdf({ path: join(screenshots, "hand-outs.pdf"), preferCSSPageSize: true });
      // Each page of a PDF is an object of this type.
      expect(pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)).toHaveLength(athletes.length);
      expect(opened.problems).toEqual([]);
    } finally {
      await opened.close();
    }
  });
});
