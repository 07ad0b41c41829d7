/**
 * What a person or a file may bring along to do harm: formulas and scripts as names, notes, sheets and file names. In
 * the real page, under its own Content-Security-Policy, no script of theirs runs, nothing breaks the policy, and what
 * was typed as text is text on the sheet and in the saved file.
 */
import { readFileSync } from "node:fs";
import { strFromU8, unzipSync } from "fflate";
import { texts } from "../../src/taskpane/words/texts";
import { bookFile } from "../grid/file/parts";
import { type OpenPage, openTryOutPage } from "./page";

jest.setTimeout(300_000);

const script = "<img src=x onerror=hurt()>";
const athletes = ["=1+1", "+1+1", "-1+1", "@MAX(1)", script];
const tricks = [
  '=HYPERLINK("x")',
  "+cmd|' /C calc'!A0",
  "-2+3",
  "@A1",
  "<script>hurt()</script>",
  '"><svg onload=hurt()>',
];

let opened: OpenPage;

beforeAll(async () => {
  opened = await openTryOutPage();
  await opened.page.evaluate(() => {
    const state = window as unknown as { hurtBy: string[]; hurt: () => void };
    state.hurtBy = [];
    state.hurt = () => state.hurtBy.push("a script ran");
    document.addEventListener("securitypolicyviolation", (event) => state.hurtBy.push(event.violatedDirective));
  });
});

afterEach(async () => {
  expect(await opened.page.evaluate(() => (window as unknown as { hurtBy: string[] }).hurtBy)).toEqual([]);
  expect(opened.problems).toEqual([]);
  expect(await opened.page.locator("img[src=x], svg[onload]").count()).toBe(0);
});

afterAll(async () => {
  await opened.close();
});

const pane = () => opened.page.locator("#pane");
const readAll = (sheet: string, column: string, first: number, rows: number) =>
  opened.page.evaluate(
    ([name, letter, from, many]) =>
      Array.from({ length: many }, (_, row) =>
        String(window.tryOutPage?.read(name, letter + String(from + row)) ?? ""),
      ),
    [sheet, column, first, rows] as const,
  );

test("a season of hostile names holds them as they were typed", async () => {
  await pane().getByRole("tab", { name: texts.newSeasonTitle }).click();
  await pane().getByLabel("Season label").fill("Hostile");
  await pane().getByLabel("Athletes, one a line").fill(athletes.join("\n"));
  await pane().getByLabel("Tricks, one a line").fill(tricks.join("\n"));
  await pane().getByRole("button", { name: "Build the season" }).click();
  const built = opened.page.waitForFunction(() => window.tryOutPage?.sheetNames().includes("Contests Hostile"));
  await built.catch(async () => {
    throw new Error(`The season was not built; the pane says: ${(await pane().textContent()) ?? ""}`);
  });
  await opened.ready();
  const listed = await readAll("Tricks Hostile", "A", 5, 12);
  for (const name of tricks) expect(listed).toContain(name);
});

test("a set with hostile names and note is logged as text", async () => {
  await pane().getByRole("tab", { name: texts.logSetTitle }).click();
  const season = pane().getByLabel("Season", { exact: true });
  if ((await season.count()) > 0) await season.selectOption({ label: "Hostile" });
  for (const athlete of ["=1+1", script]) {
    await pane().getByRole("combobox", { name: texts.athleteLabel, exact: true }).fill(athlete);
    await pane().getByRole("combobox", { name: texts.trickLabel, exact: true }).fill("@A1");
    await opened.page.keyboard.press("Tab");
    for (const key of "ccdcc") await opened.page.locator(".twirl-log").press(key);
    await pane().getByRole("button", { name: texts.saveSet }).click();
    await pane().locator(".twirl-outcome", { hasText: "ccdcc" }).waitFor();
    await opened.ready();
  }
  const sheet = (await opened.page.evaluate(() => window.tryOutPage?.sheetNames() ?? [])).filter((name) => name.startsWith("Practice")); // prettier-ignore
  const found = await Promise.all(sheet.map((name) => readAll(name, "B", 5, 2200)));
  expect(found.flat()).toContain("=1+1");
  expect(found.flat()).toContain(script);
});

test("a message that quotes a hostile mark shows it as text", async () => {
  await opened.goTo("Practice Hostile", "E5");
  await opened.page.keyboard.type(script);
  await opened.page.keyboard.press("Enter");
  await opened.ready();
  await opened.page.evaluate(() => window.tryOutPage?.write("Practice Hostile", "A5", 46300));
  await opened.page.evaluate(() => window.tryOutPage?.write("Practice Hostile", "B5", "M.K."));
  await opened.page.evaluate(() => window.tryOutPage?.write("Practice Hostile", "C5", "Flat"));
  await opened.page.evaluate(() => window.tryOutPage?.write("Practice Hostile", "D5", "Joined"));
  // The board stands, and lists the row; a formula of its own over the mark says what is wrong.
  await opened.goTo("Practice Hostile", "J3");
  await opened.page.keyboard.type("=TWIRL.READINESS(E5)");
  await opened.page.keyboard.press("Enter");
  await opened.shows("Practice Hostile", "J3", "#VALUE!");
  await opened.ready();
  await opened.page.locator("#messages", { hasText: script }).waitFor();
});

test("a hand-out of an athlete with a hostile name shows it as text", async () => {
  await pane().getByRole("tab", { name: texts.handOutTitle }).click();
  const choice = pane().getByLabel(texts.handOutAthlete);
  await choice.waitFor();
  const labels = await choice.evaluate((select) => [...(select as HTMLSelectElement).options].map(({ text }) => text));
  for (const athlete of ["=1+1", script]) {
    const before = (await opened.page.evaluate(() => window.tryOutPage?.sheetNames())) ?? [];
    await choice.selectOption({ label: labels.find((label) => label.startsWith(athlete)) ?? athlete });
    await pane().getByRole("button", { name: texts.handOutMake }).click();
    await opened.page.waitForFunction((count) => (window.tryOutPage?.sheetNames().length ?? 0) > count, before.length);
    await opened.ready();
    const after = (await opened.page.evaluate(() => window.tryOutPage?.sheetNames())) ?? [];
    const sheet = after.find((name) => !before.includes(name)) ?? "";
    expect(String(await opened.read(sheet, "A1"))).toContain(athlete);
  }
});

test("the saved file holds hostile names as texts, and no formula begins with them", async () => {
  const [download] = await Promise.all([opened.page.waitForEvent("download"), opened.page.keyboard.press("Control+s")]);
  const parts = unzipSync(new Uint8Array(readFileSync(await download.path())));
  const sheets = Object.entries(parts).filter(([name]) => /worksheets\/sheet\d+\.xml$/.test(name));
  const all = sheets.map(([, bytes]) => strFromU8(bytes)).join("");
  expect(all.includes("<f")).toBe(true);
  for (const formula of ["1+1", "HYPERLINK(", "cmd|", "SUM(1)"]) expect(new RegExp(`<f[^>]*>=?[+@-]?${formula.replace(/[|()+]/g, "\\$&")}`).test(all)).toBe(false); // prettier-ignore
  const held = all + strFromU8(parts["xl/sharedStrings.xml"] ?? new Uint8Array());
  for (const name of ["=1+1", "@A1", "&lt;img src=x onerror=hurt()&gt;"])
    expect({ name, held: held.includes(name) }).toEqual({ name, held: true });
  expect(held.includes("<img")).toBe(false);
});

test("a file with a hostile name that is broken leaves the workbook as it is; one with hostile sheets opens", async () => {
  const sheetsBefore = await opened.page.evaluate(() => window.tryOutPage?.sheetNames());
  const good = bookFile({
    sheets: [
      {
        name: "&lt;img src=x onerror=hurt()&gt;",
        rows: `<row r="1"><c r="A1" t="str"><v>&lt;script&gt;hurt()&lt;/script&gt;</v></c><c r="B1" t="str"><v>=1+1</v></c></row>`,
      },
    ],
  });
  await opened.pickFile(`${script}.xlsx`, good.slice(0, 300));
  await opened.page.locator("#file-message", { hasText: /\.xlsx|damaged|file/i }).waitFor();
  expect(await opened.page.evaluate(() => window.tryOutPage?.sheetNames())).toEqual(sheetsBefore);
  await opened.pickFile(`${script}.xlsx`, good);
  await opened.page.waitForFunction((name) => window.tryOutPage?.sheetNames().includes(name), script);
  await opened.ready();
  expect(await opened.read(script, "B1")).toBe("=1+1");
  await opened.page.locator("#file-name", { hasText: script }).waitFor();
  await pane().getByRole("tab", { name: texts.ownSheetTitle }).click();
});

test("a log with hostile headings and names is mapped and gets its board, every name a text", async () => {
  const text = (address: string, words: string): string =>
    `<c r="${address}" t="str"><v>${words.replaceAll("&", "&amp;").replaceAll("<", "&lt;")}</v></c>`;
  const names = ["=1+1", "+1+1", "-1+1", "@MAX(1)", "&#9;=1+1", "&#13;=2+2", script];
  const rows = names.map((name, index) => {
    const row = String(index + 2);
    const own = name.startsWith("&#") ? `<c r="B${row}" t="str"><v>${name}</v></c>` : text(`B${row}`, name);
    const day = `<c r="A${row}" s="1"><v>${String(46300 + index)}</v></c>`;
    return `<row r="${row}">${day}${own}${text(`C${row}`, tricks[index % tricks.length] ?? "")}${text(`D${row}`, "ccdcc")}</row>`;
  });
  const heading = `<row r="1">${text("A1", "Date")}${text("B1", "Athlete")}${text("C1", "Trick")}${text("D1", `Marks ${script}`)}</row>`;
  const log = bookFile({
    styles:
      '<fonts count="1"><font/></fonts><fills count="2"><fill/><fill/></fills><borders count="1"><border/></borders>' +
      '<cellXfs count="2"><xf/><xf numFmtId="14" applyNumberFormat="1"/></cellXfs>',
    sheets: [{ name: "=Log", rows: heading + rows.join("") }],
  });
  await opened.pickFile("log.xlsx", log);
  await opened.page.waitForFunction(() => window.tryOutPage?.sheetNames().includes("=Log"));
  await opened.ready();
  await opened.goTo("=Log", "B2");
  await pane().getByRole("tab", { name: texts.ownSheetTitle }).click();
  const part = opened.page.locator("#twirl-panel-own-sheet");
  await part.getByRole("button", { name: texts.ownSheetRead }).click();
  await part.getByText(texts.ownSheetColumns).waitFor();
  // Names such as these are not taken for an athlete's: the column is chosen by hand, as the pane asks.
  const column = part.getByLabel(texts.athleteLabel, { exact: true });
  const labels = await column.evaluate((select) => [...(select as HTMLSelectElement).options].map(({ text }) => text));
  await column.selectOption({ label: labels.find((label) => label.startsWith("B ")) ?? "" });
  await part.getByRole("button", { name: texts.ownSheetPut }).click();
  const done = part.getByText(texts.ownSheetDone("Board (=Log)")).waitFor({ timeout: 20_000 });
  await done.catch(async () => {
    throw new Error(`No board was put; the pane says: ${((await part.textContent()) ?? "").slice(-900)}`);
  });
  await opened.shows("Board (=Log)", "A8", "Athlete");
  await opened.ready();
  const athletesOnBoard = await readAll("Board (=Log)", "A", 9, 12);
  for (const name of ["=1+1", "+1+1", "-1+1", "@MAX(1)", script]) expect(athletesOnBoard).toContain(name);
  // Whatever stands before the sign, it is a name and never a sum.
  expect(athletesOnBoard.filter((name) => name === "2" || name === "4" || name === "0")).toEqual([]);
});
