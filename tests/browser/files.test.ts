import { readFileSync } from "node:fs";
import { join } from "node:path";
import axe, { type AxeResults } from "axe-core";

import { fileTexts } from "../../src/page/files/file-texts";
import { readWorkbook } from "../../src/grid/file/open";
import { WorkbookPackage } from "../../src/xlsx/package/workbook-package";
import { bookFile, type BookParts } from "../grid/file/parts";
import { isKept } from "./kept-drafts";
import { type OpenPage, openTryOutPage, screenshots } from "./page";

jest.setTimeout(300_000);

const log: BookParts = {
  styles:
    '<fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill/><fill/></fills><borders count="1"><border/></borders>' +
    '<cellXfs count="3"><xf/><xf numFmtId="49" applyNumberFormat="1"/><xf numFmtId="14" applyNumberFormat="1"/></cellXfs>',
  sheets: [
    {
      name: "Club log",
      before: '<cols><col min="3" max="3" width="14" style="1"/></cols>',
      rows:
        '<row r="1"><c r="A1" t="str"><v>Date</v></c><c r="B1" t="str"><v>Who</v></c><c r="C1" s="1" t="str"><v>Marks</v></c></row>' +
        '<row r="2"><c r="A2" s="2"><v>46391</v></c><c r="B2" t="str"><v>M.K.</v></c><c r="C2" s="1" t="str"><v>8/10</v></c></row>' +
        '<row r="6"><c r="E6" cm="1"><f t="array" ref="E6">_xldudf_TWIRL_CATCHRATE(Log[Marks])</f><v>0.8</v></c></row>',
      tables: [
        '<table name="Log" displayName="Log" ref="A1:C2"><autoFilter ref="A1:C2"/><tableColumns count="3"><tableColumn id="1" name="Date"/><tableColumn id="2" name="Who"/><tableColumn id="3" name="Marks"/></tableColumns></table>',
      ],
    },
    { name: "Notes", rows: '<row r="1"><c r="A1"><v>1</v></c></row>' },
  ],
};

/** The same with a comment on the second sheet, which the page cannot show. */
const commented: BookParts = {
  sheets: [
    log.sheets[0] ?? {},
    { name: "Notes", rows: '<row r="1"><c r="A1"><v>1</v></c></row>', related: [["comments", "../comments1.xml"]] },
  ],
  ...(log.styles === undefined ? {} : { styles: log.styles }),
  parts: { "xl/comments1.xml": "<comments/>" },
};

const ownFunctions = (
  JSON.parse(readFileSync("dist/functions.json", "utf8")) as { functions: { id: string }[] }
).functions.map(({ id }) => id);

const message = (opened: OpenPage, words: string): Promise<void> =>
  opened.page.locator("#file-message", { hasText: words }).waitFor();

/** What Save hands to the browser's downloads. */
async function saved(opened: OpenPage, act: () => Promise<void>): Promise<{ name: string; bytes: Uint8Array }> {
  const [download] = await Promise.all([opened.page.waitForEvent("download"), act()]).catch(async (cause: unknown) => {
    const said = await opened.page.locator("#file-message, dialog").allTextContents();
    throw new Error(`Nothing was downloaded; the page says: ${said.join(" | ")}`, { cause });
  });
  const path = await download.path();
  return { name: download.suggestedFilename(), bytes: new Uint8Array(readFileSync(path)) };
}

const press = (opened: OpenPage, keys: string) => () => opened.page.keyboard.press(keys);

function unsaved(opened: OpenPage): Promise<string | undefined> {
  return opened.page.evaluate(() => document.body.dataset["file"]);
}

async function type(opened: OpenPage, sheet: string, address: string, value: string): Promise<void> {
  await opened.goTo(sheet, address);
  await opened.page.keyboard.type(value);
  await opened.page.keyboard.press("Enter");
  await opened.ready();
}

describe("files on the try-out page", () => {
  let opened: OpenPage;

  beforeAll(async () => {
    opened = await openTryOutPage();
  });

  afterAll(async () => {
    await opened.close();
  });

  test("the page opens with a season that has no changes", async () => {
    expect(await unsaved(opened)).toBe("saved");
    expect(await opened.page.locator("#file-name").textContent()).toBe("season.xlsx");
  });

  test("a browser that gives no way to a file's place has what it had: a choice of contents, and downloads", async () => {
    const { page } = opened;
    expect(await page.evaluate(() => "showSaveFilePicker" in window)).toBe(false);
    expect(await page.locator("#save-as").isHidden()).toBe(true);
    expect(await page.locator("#recent-files").isHidden()).toBe(true);
    expect(await page.locator("#save-file").getAttribute("title")).toBe("Ctrl+S: puts the file among your downloads");
    const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.locator("#open-file").click()]);
    expect(chooser.isMultiple()).toBe(false);
  });

  test("a club's own file is opened, its table grows, and its functions answer", async () => {
    await opened.pickFile("club log.xlsx", bookFile(log));
    await message(opened, "club log.xlsx is open.");
    expect(await opened.page.evaluate(() => window.tryOutPage?.sheetNames())).toEqual(["Club log", "Notes"]);
    await opened.shows("Club log", "E6", "0.8");
    expect(await unsaved(opened)).toBe("saved");
    await opened.typeRow("Club log", 3, ["2027-01-05", "M.K.", "9/10"]);
    await opened.shows("Club log", "E6", "0.85");
    await opened.shows("Club log", "C3", "9/10");
    expect(await unsaved(opened)).toBe("changed");
  });

  test("it is saved under its name, with what was typed and nothing else, and opens again", async () => {
    const { name, bytes } = await saved(opened, press(opened, "Control+s"));
    expect(name).toBe("club log.xlsx");
    expect(await unsaved(opened)).toBe("saved");
    const before = WorkbookPackage.open(bookFile(log));
    const after = WorkbookPackage.open(bytes);
    const changed = after.names().filter((part) => !before.has(part) || before.text(part) !== after.text(part));
    expect(changed.sort()).toEqual(
      [
        "[Content_Types].xml",
        "xl/_rels/workbook.xml.rels",
        "xl/metadata.xml",
        "xl/tables/table1.xml",
        "xl/worksheets/sheet1.xml",
      ].filter((part) => changed.includes(part)),
    );
    expect(after.text("xl/tables/table1.xml")).toContain('ref="A1:C3"');
    expect(after.text("xl/worksheets/sheet1.xml")).toMatch(
      /<c r="E6"[^>]*><f t="array" ref="E6">_xldudf_TWIRL_CATCHRATE\(Log\[Marks\]\)<\/f><v>0.85<\/v>/,
    );
    expect(after.text("xl/worksheets/sheet1.xml")).toMatch(/<c r="C3" s="1" t="inlineStr"><is><t[^>]*>9\/10<\/t>/);

    await opened.pickFile("again.xlsx", bytes);
    await message(opened, "again.xlsx is open.");
    await opened.shows("Club log", "E6", "0.85");
    await opened.shows("Club log", "A3", "1/5/2027");
  });

  test("a copy with answers only holds what was typed a moment before, and changes nothing of the workbook", async () => {
    await opened.goTo("Club log", "C3");
    await opened.page.keyboard.type("2/10");
    // No Enter, and no waiting: what stands half typed belongs to the copy, and its answer to the mark.
    const copy = await saved(opened, () => opened.page.locator("#save-answers").click());
    expect(copy.name).toBe("again (answers).xlsx");
    await message(opened, "Saved a copy with answers only as again (answers).xlsx, among your downloads.");
    await message(opened, "again.xlsx stays open here as it is.");
    await opened.page.screenshot({ path: join(screenshots, "answers-only.png") });
    expect(await opened.page.locator("#file-name").textContent()).toBe("again.xlsx – not saved");
    expect(await unsaved(opened)).toBe("changed");

    const source = WorkbookPackage.open(copy.bytes);
    expect(
      source
        .names()
        .map((part) => source.text(part))
        .join(""),
    ).not.toMatch(/<f[\s>]|_xldudf|\scm=|calcChain/);
    const [sheet] = readWorkbook(source, { ownFunctions }).sheets;
    const shown = (row: number, column: number): unknown => sheet?.sheet.cellData?.[row]?.[column]?.v;
    expect([shown(1, 2), shown(2, 2), shown(5, 4)]).toEqual(["8/10", "2/10", 0.5]);
    expect(sheet?.sheet.cellData?.[5]?.[4]).not.toHaveProperty("f");
    expect(sheet?.tables.map(({ file }) => [file.name, file.range.endRow])).toEqual([["Log", 2]]);

    // Its formulas are at work as before, and a saving of its own has them.
    await opened.shows("Club log", "E6", "0.5");
    await type(opened, "Club log", "C3", "9/10");
    await opened.shows("Club log", "E6", "0.85");
    const whole = await saved(opened, press(opened, "Control+s"));
    expect(whole.name).toBe("again.xlsx");
    expect(WorkbookPackage.open(whole.bytes).text("xl/worksheets/sheet1.xml")).toContain("_xldudf_TWIRL_CATCHRATE");
  });

  test("a new season from the pane comes into the opened file", async () => {
    const pane = opened.page.locator("#pane");
    await pane.getByRole("tab", { name: "New season" }).click();
    await pane.getByLabel("Season label").fill("2032");
    await pane.getByLabel("Athletes, one a line").fill("M.K.");
    await pane.getByLabel("Tricks, one a line").fill("Double turn, 4");
    await pane.getByRole("button", { name: "Build the season" }).click();
    await opened.page.waitForFunction(() => window.tryOutPage?.sheetNames().includes("Board 2032"));
    await opened.ready();
    await opened.typeRow("Practice 2032", 5, ["2032-01-10", "M.K.", "Double turn", "Joined", "ccc"]);
    await opened.shows("Board 2032", "K5", "Too few");
    const { bytes } = await saved(opened, () => opened.page.locator("#save-file").click());
    const read = readWorkbook(WorkbookPackage.open(bytes), { ownFunctions });
    expect(read.sheets.map(({ entry }) => entry.name)).toEqual(
      expect.arrayContaining(["Club log", "Practice 2032", "Board 2032"]),
    );
    const practice = read.sheets.find(({ entry }) => entry.name === "Practice 2032");
    expect(practice?.sheet.cellData?.[4]?.[4]?.v).toBe("ccc");

    await opened.pickFile("with season.xlsx", bytes);
    await message(opened, "with season.xlsx is open.");
    await opened.shows("Board 2032", "K5", "Too few");
    await opened.shows("Club log", "E6", "0.85");
  });

  test("a damaged file gets one sentence, and the workbook stays as it was", async () => {
    await opened.pickFile("broken.xlsx", bookFile(log).slice(0, 900));
    await message(opened, "broken.xlsx was not opened. This file is damaged and cannot be opened.");
    await opened.shows("Club log", "E6", "0.85");
    expect(await opened.page.locator("#file-name").textContent()).toBe("with season.xlsx");
    await type(opened, "Notes", "B1", "=A1+1");
    await opened.shows("Notes", "B1", "2");
  });

  test("a file is not put in the place of changes without asking", async () => {
    await opened.pickFile("club log.xlsx", bookFile(log));
    const dialog = opened.page.getByRole("dialog");
    await dialog.getByRole("button", { name: "Cancel" }).click();
    await opened.shows("Notes", "B1", "2");
    await opened.pickFile("club log.xlsx", bookFile(log));
    await dialog.getByRole("button", { name: "Open without saving" }).click();
    await message(opened, "club log.xlsx is open.");
    expect(await unsaved(opened)).toBe("saved");
  });

  test("a table of text is opened as a new workbook, each cell as the text says it, and saved as one", async () => {
    const rows = ["Date;Athlète;Lancer;Résultat", "3/4/2026;Zoé M.;=1+1;8/10", "2026-09-07;Zoé M.;+1 tour;0110"].join(
      "\r\n",
    );
    // As a spreadsheet program of Western Europe writes it: one byte a letter.
    await opened.pickFile("notre journal.csv", Uint8Array.from([...rows].map((letter) => letter.charCodeAt(0))));
    await message(opened, fileTexts.openedAsWorkbook("notre journal.csv", "notre journal.xlsx", 0));
    await opened.shows("notre journal", "B1", "Athlète");
    await opened.shows("notre journal", "A2", "3/4/2026");
    await opened.shows("notre journal", "C2", "=1+1");
    await opened.shows("notre journal", "D3", "0110");
    await opened.page.screenshot({ path: join(screenshots, "text-as-workbook.png") });
    await opened.typeRow("notre journal", 4, ["2026-09-08", "M.K.", "Illusion", "1/10"]);
    const { name, bytes } = await saved(opened, press(opened, "Control+s"));
    expect(name).toBe("notre journal.xlsx");
    const sheet = readWorkbook(WorkbookPackage.open(bytes), { ownFunctions }).sheets[0]?.sheet;
    expect([sheet?.cellData?.[1]?.[2]?.v, sheet?.cellData?.[1]?.[2]?.f]).toEqual(["=1+1", undefined]);
    expect(sheet?.cellData?.[2]?.[0]?.v).toBe(46272);
    // What is typed below tallies is one too.
    expect(sheet?.cellData?.[3]?.[3]?.v).toBe("1/10");
  });

  test("a file may be dropped onto the page", async () => {
    const base64 = Buffer.from(bookFile(commented)).toString("base64");
    const transfer = await opened.page.evaluateHandle((text) => {
      const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
      const data = new DataTransfer();
      data.items.add(new File([bytes], "dropped.xlsx"));
      return data;
    }, base64);
    await opened.page.dispatchEvent("#grid", "drop", { dataTransfer: transfer });
    await message(opened, "dropped.xlsx is open.");
  });

  test("what the page cannot show is named before it is saved, and is in the file afterwards", async () => {
    await type(opened, "Club log", "G1", "typed");
    await opened.page.keyboard.press("Control+s");
    const dialog = opened.page.getByRole("dialog");
    await dialog.getByText("comments (Notes)").waitFor();
    await opened.page.evaluate(axe.source);
    const results = await opened.page.evaluate(() =>
      (window as unknown as { axe: { run: (context: object, options: object) => Promise<AxeResults> } }).axe.run(
        { include: [["dialog"], [".page-bar"], [".page-strip"]] },
        { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] },
      ),
    );
    expect(results.violations.map(({ id, nodes }) => ({ id, at: nodes.map(({ html }) => html) }))).toEqual([]);
    const { bytes } = await saved(opened, () => dialog.getByRole("button", { name: "Save" }).click());
    expect(WorkbookPackage.open(bytes).text("xl/comments1.xml")).toBe("<comments/>");
  });

  test("what goes into a copy beyond what the page shows is named too, once", async () => {
    const copying = opened.page.locator("#save-answers");
    await copying.click();
    const dialog = opened.page.getByRole("dialog", { name: "Before the copy is saved" });
    await dialog.getByText("comments (Notes)").waitFor();
    await dialog.getByRole("button", { name: "Cancel" }).click();
    await copying.click();
    const first = await saved(opened, () => dialog.getByRole("button", { name: "Save" }).click());
    expect(WorkbookPackage.open(first.bytes).text("xl/comments1.xml")).toBe("<comments/>");
    const second = await saved(opened, () => copying.click());
    expect(second.bytes).toEqual(first.bytes);
  });

  test("rows stay where they are on a sheet with something that would not move along", async () => {
    await opened.goTo("Notes", "A1");
    // The number of the first row, just below the letters of the columns.
    const grid = await opened.page.locator('#grid canvas[id^="univer-sheet-main-canvas"]').boundingBox();
    await opened.page.mouse.click((grid?.x ?? 0) + 20, (grid?.y ?? 0) + 30, { button: "right" });
    await opened.page.getByText("Delete Selected Row").first().click();
    await message(opened, "Rows and columns of Notes cannot be put in or taken out here");
    await opened.shows("Notes", "A1", "1");
  });

  test("unsaved work survives a reload", async () => {
    await type(opened, "Notes", "A2", "kept");
    await isKept(opened.page, "dropped.xlsx");
    const asked: string[] = [];
    opened.page.on("dialog", (dialog) => {
      asked.push(dialog.type());
      void dialog.accept();
    });
    await opened.page.reload();
    expect(asked).toEqual(["beforeunload"]);
    await opened.ready();
    await opened.shows("Notes", "A2", "kept");
    await opened.shows("Club log", "E6", "0.8");
    expect(await unsaved(opened)).toBe("changed");
    expect(await opened.page.locator("#drafts").isVisible()).toBe(false);
    // It is saved into the file that it came from.
    await opened.page.keyboard.press("Control+s");
    const { bytes } = await saved(opened, () =>
      opened.page.getByRole("dialog").getByRole("button", { name: "Save" }).click(),
    );
    const after = WorkbookPackage.open(bytes);
    expect(after.text("xl/comments1.xml")).toBe("<comments/>");
    expect(after.text("xl/worksheets/sheet2.xml")).toContain(">kept<");
  });

  test("what another page has left is offered back, and what is discarded is offered no more", async () => {
    const other = await opened.page.context().newPage();
    other.setDefaultTimeout(60_000);
    other.on("dialog", (dialog) => void dialog.accept());
    await other.goto(opened.url);
    await other.locator('body[data-state="ready"] #file-name', { hasText: "season.xlsx" }).waitFor();
    await other.evaluate(() => window.tryOutPage?.write("Practice 2026", "G5", "gone"));
    await isKept(other, "season.xlsx");
    const drafts = opened.page.locator("#drafts");
    expect(await drafts.isVisible()).toBe(false);
    await other.close();
    // Without loading anew, and after it.
    await drafts.getByText("season.xlsx").waitFor();
    await opened.page.reload();
    await opened.ready();
    // The page goes on with its own workbook.
    await opened.shows("Notes", "A2", "kept");
    await drafts.getByText("season.xlsx").waitFor();
    await drafts.getByRole("button", { name: "Discard" }).click();
    await drafts.waitFor({ state: "hidden" });
    await opened.page.reload();
    await opened.ready();
    expect(await drafts.isVisible()).toBe(false);
  });

  test("nothing is asked of another host, and nothing is complained about", () => {
    expect(
      opened.requests.filter((request) => !request.startsWith(opened.url) && !/^(data|blob):/.test(request)),
    ).toEqual([]);
    expect(opened.problems).toEqual([]);
  });
});
