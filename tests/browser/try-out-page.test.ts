import { mkdirSync } from "node:fs";
import { join } from "node:path";
import axe, { type AxeResults } from "axe-core";

import { STATUSES } from "../../src/trade/statuses";
import { type OpenPage, openTryOutPage, screenshots } from "./page";

jest.setTimeout(300_000);

/** The first row of a sheet's column, from `from` on, that shows one of the words, or nothing for the first free one. */
async function findRow(opened: OpenPage, sheet: string, column: string, from: number, word: string): Promise<number> {
  const found = await opened.page.evaluate(
    ([name, letters, first, words]) => {
      for (let row = first; row < first + 5000; row += 1) {
        if (String((window.tryOutPage?.read(name, letters + String(row)) as string | undefined) ?? "") === words)
          return row;
      }
      return null;
    },
    [sheet, column, from, word] as const,
  );
  if (found !== null) return found;
  throw new Error(`${sheet} shows ${word === "" ? "no end" : word} in column ${column}.`);
}

/** The whole board as the page shows it. */
async function board(opened: OpenPage, sheet: string): Promise<string[][]> {
  const end = await findRow(opened, sheet, "A", 4, "");
  return opened.page.evaluate(
    ([name, last]) => {
      const rows: string[][] = [];
      for (let row = 4; row < last; row += 1) {
        rows.push(
          [..."ABCDEFGHIJKLM"].map((column) => String(window.tryOutPage?.read(name, column + String(row)) ?? "")),
        );
      }
      return rows;
    },
    [sheet, end] as const,
  );
}

describe("the try-out page", () => {
  let opened: OpenPage;
  let sheets: string[];
  const sheetFor = (word: string): string => sheets.find((name) => name.startsWith(word)) ?? word;

  beforeAll(async () => {
    opened = await openTryOutPage();
    sheets = await opened.page.evaluate(() => window.tryOutPage?.sheetNames() ?? []);
    mkdirSync(screenshots, { recursive: true });
  });

  afterAll(async () => {
    await opened.close();
  });

  test("opens on a board that is filled", async () => {
    expect(await opened.page.title()).toBe("Twirl Ledger — try-out page");
    // Each mend of the grid has found what it reaches for: the version that is installed is the one that they are for.
    expect(await opened.page.evaluate(() => window.tryOutPage?.notMended)).toEqual([]);
    const [heading, ...rows] = await board(opened, sheetFor("Board"));
    expect(heading?.[10]).toBe("Status");
    expect(rows.length).toBeGreaterThan(5);
    expect(
      rows.map((row) => row[10]).filter((word) => !(STATUSES as readonly (string | undefined)[]).includes(word)),
    ).toEqual([]);
    await opened.page.screenshot({ path: join(screenshots, "try-out-page-1366x768.png") });
  });

  test("tells the arguments of a function while it is typed", async () => {
    const { page } = opened;
    await opened.goTo(sheetFor("Season"), "P40");
    for (const key of "=TWIRL.STREAK(") await page.keyboard.press(key);
    await page.getByText("[which]").first().waitFor();
    // What was begun goes again.
    await page.keyboard.press("Escape");
    await page.keyboard.press("Escape");
    expect(await opened.read(sheetFor("Season"), "P40")).toBeUndefined();
  });

  test("shows the board's status, and where its next step begins, on a laptop's screen", async () => {
    const { page } = opened;
    await opened.goTo(sheetFor("Board"), "A5");
    const pane = await page.locator("#pane").boundingBox();
    const places = await page.evaluate(() => [window.tryOutPage?.place("K5"), window.tryOutPage?.place("M5")]);
    expect(places[0]?.right).toBeLessThan(pane?.x ?? 0);
    expect(places[1]?.left).toBeLessThan((pane?.x ?? 0) - 50);
  });

  test("lets the board follow what is typed under the log", async () => {
    const practice = sheetFor("Practice");
    const boardSheet = sheetFor("Board");
    const trick = String(await opened.read(sheetFor("Tricks"), "A6"));
    const row = await findRow(opened, practice, "A", 5, "");
    // Ten attempts and none caught: enough for a set, far from the standard.
    await opened.typeRow(practice, row, ["2027-04-01", "Z.Z.", trick, "Joined", "ddddd ddddd"]);
    const onBoard = await findRow(opened, boardSheet, "A", 5, "Z.Z.");
    await opened.shows(boardSheet, `K${String(onBoard)}`, "Building");
    // Ten of ten after that: the last set is good enough, twenty attempts as a whole are not.
    await opened.typeRow(practice, row + 1, ["2027-04-02", "Z.Z.", trick, "Joined", "ccccc ccccc"]);
    await opened.shows(boardSheet, `K${String(onBoard)}`, "Confirm");
    await opened.shows(boardSheet, `D${String(onBoard)}`, "10/10");
    await opened.shows(practice, `A${String(row + 1)}`, "2 Apr 2027");
  });

  test("keeps marks as they are typed", async () => {
    const practice = sheetFor("Practice");
    const row = await findRow(opened, practice, "A", 5, "");
    await opened.typeRow(practice, row, ["2027-04-03", "Z.Z.", "Tally only", "Joined", "8/10"]);
    await opened.typeRow(practice, row + 1, ["2027-04-03", "Z.Z.", "Zeros first", "Joined", "0110"]);
    await opened.shows(practice, `E${String(row)}`, "8/10");
    await opened.shows(practice, `E${String(row + 1)}`, "0110");
    const boardSheet = sheetFor("Board");
    await opened.shows(boardSheet, `D${String(await findRow(opened, boardSheet, "B", 5, "Tally only"))}`, "8/10");
    await opened.shows(boardSheet, `D${String(await findRow(opened, boardSheet, "B", 5, "Zeros first"))}`, "2/4");
  });

  test("shows what a function has to say, and leads to the cell", async () => {
    const practice = sheetFor("Practice");
    const boardSheet = sheetFor("Board");
    const row = (await findRow(opened, practice, "A", 5, "")) - 1;
    // A mark that cannot be read in the log leaves the board standing; a formula of its own over it says what is wrong.
    await opened.goTo(practice, `E${String(row)}`);
    await opened.page.keyboard.type("x");
    await opened.page.keyboard.press("Enter");
    await opened.goTo(practice, "J3");
    await opened.page.keyboard.type(`=TWIRL.READINESS(E${String(row)})`);
    await opened.page.keyboard.press("Enter");
    await opened.shows(practice, "J3", "#VALUE!");
    await opened.shows(boardSheet, "A4", "Athlete");
    await opened.ready();
    const messages = opened.page.locator("#messages");
    await messages.locator("summary").click();
    const message = messages.getByRole("button", { name: `${practice} J3` });
    await expect(message.textContent()).resolves.toMatch(/found the text "x".*Accepted: c, d or b/);
    await message.click();
    await opened.page.locator("#selected", { hasText: `${practice} J3: #VALUE!` }).waitFor();
    await opened.page.screenshot({ path: join(screenshots, "try-out-page-message.png") });

    await opened.goTo(practice, `E${String(row)}`);
    await opened.page.keyboard.type("0110");
    await opened.page.keyboard.press("Enter");
    await opened.shows(practice, "J3", "Too few");
    await messages.waitFor({ state: "hidden" });
  });

  test("refuses what a list does not hold, and says what it holds", async () => {
    const practice = sheetFor("Practice");
    const row = await findRow(opened, practice, "A", 5, "");
    await opened.goTo(practice, `D${String(row)}`);
    await opened.page.keyboard.type("Nonsense");
    await opened.page.keyboard.press("Enter");
    const refusal = opened.page.getByRole("alert");
    await refusal.getByText("Choose one of: Body only").waitFor();
    await opened.page.keyboard.press("Escape");
    await refusal.waitFor({ state: "hidden" });
    expect((await opened.read(practice, `D${String(row)}`)) ?? "").toBe("");
  });

  test("goes from the sheet to the pane and back by F6", async () => {
    const practice = sheetFor("Practice");
    const row = await findRow(opened, practice, "A", 5, "");
    await opened.goTo(practice, `G${String(row + 5)}`);
    await opened.page.keyboard.press("F6");
    expect(await opened.page.evaluate(() => document.activeElement?.closest("#pane") !== null)).toBe(true);
    await opened.page.keyboard.press("F6");
    await opened.page.keyboard.type("typed after F6");
    await opened.page.keyboard.press("Enter");
    await opened.shows(practice, `G${String(row + 5)}`, "typed after F6");
    await opened.ready();
  });

  test("builds a season from the pane, and its board works at once", async () => {
    const pane = opened.page.locator("#pane");
    await pane.getByRole("tab", { name: "New season" }).click();
    await pane.getByLabel("Season label").fill("2031");
    await pane.getByLabel("Athletes, one a line").fill("P.Q.\nR.S.");
    await pane.getByLabel("Tricks, one a line").fill("Double turn, 4\n=1+1");
    await pane.getByRole("button", { name: "Build the season" }).click();
    const added = ["Season 2031", "Tricks 2031", "Practice 2031", "Board 2031"];
    await opened.page.waitForFunction(
      (names) => names.every((name) => window.tryOutPage?.sheetNames().includes(name)),
      added,
    );
    await opened.shows("Board 2031", "A4", "Log a first set on the Practice sheet: the board fills itself.");
    await opened.ready();
    await opened.shows("Tricks 2031", `A${String(await findRow(opened, "Tricks 2031", "A", 1, "=1+1"))}`, "=1+1");
    await opened.typeRow("Practice 2031", 5, ["2031-01-10", "P.Q.", "Double turn", "Joined", "ccc"]);
    await opened.shows("Board 2031", "K5", "Too few");
    await opened.page.screenshot({ path: join(screenshots, "try-out-page-new-season.png") });
    // The other season stands as it stood.
    await opened.shows(sheetFor("Board"), "A4", "Athlete");
  });

  test("does not build the same season twice", async () => {
    const pane = opened.page.locator("#pane");
    const before = await opened.page.evaluate(() => window.tryOutPage?.sheetNames());
    await pane.getByLabel("Season label").fill("2031");
    await pane.getByLabel("Athletes, one a line").fill("P.Q.");
    await pane.getByLabel("Tricks, one a line").fill("Double turn");
    await pane.getByRole("button", { name: "Build the season" }).click();
    await pane.getByText('This workbook has "Season 2031" already.').first().waitFor();
    expect(await opened.page.evaluate(() => window.tryOutPage?.sheetNames())).toEqual(before);
  });

  test("asks nothing of another host, and has nothing to complain about", () => {
    expect(opened.requests.length).toBeGreaterThan(5);
    expect(
      opened.requests.filter((request) => !request.startsWith(opened.url) && !/^(data|blob):/.test(request)),
    ).toEqual([]);
    expect(opened.problems).toEqual([]);
  });
});

test("the answers are the same, whatever an empty cell is handed over as", async () => {
  const answers: string[][][] = [];
  for (const query of ["?empty=zero", "?empty=null"]) {
    const opened = await openTryOutPage({ query });
    try {
      const chosen = await opened.page.locator('input[name="empty"]:checked').getAttribute("value");
      expect(`?empty=${String(chosen)}`).toBe(query);
      const name = (await opened.page.evaluate(() => window.tryOutPage?.sheetNames() ?? [])).find((sheet) =>
        sheet.startsWith("Board"),
      );
      answers.push(await board(opened, name ?? "Board"));
    } finally {
      await opened.close();
    }
  }
  expect(answers[0]?.length).toBeGreaterThan(5);
  expect(answers[1]).toEqual(answers[0]);
});

test("the page's own parts keep the rules of accessibility, in light and in dark", async () => {
  const opened = await openTryOutPage();
  try {
    await opened.page.locator(".page-host summary").click();
    await opened.page.evaluate(axe.source);
    for (const colorScheme of ["light", "dark"] as const) {
      await opened.page.emulateMedia({ colorScheme });
      const results = await opened.page.evaluate(() =>
        (window as unknown as { axe: { run: (context: object, options: object) => Promise<AxeResults> } }).axe.run(
          // The grid is another project's, and so are its faults.
          { exclude: [["#grid"]] },
          { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] },
        ),
      );
      expect(results.passes.length).toBeGreaterThan(10);
      expect(results.violations.map(({ id, nodes }) => ({ id, at: nodes.map(({ html }) => html) }))).toEqual([]);
    }
    // The bar and the pane are one page: both dark, and the sheet as its workbook has it.
    const paper = (selector: string): Promise<string> =>
      opened.page.locator(selector).evaluate((part) => getComputedStyle(part).backgroundColor);
    expect(await paper("body")).toBe(await paper("#pane"));
    expect(await paper("body")).toBe("rgb(27, 29, 33)");
  } finally {
    await opened.close();
  }
});

test("a picture for the README", async () => {
  const opened = await openTryOutPage({ width: 1440, height: 720 });
  try {
    await opened.page.screenshot({ path: join(screenshots, "readme.png") });
    expect(opened.problems).toEqual([]);
  } finally {
    await opened.close();
  }
});
