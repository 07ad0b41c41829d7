/**
 * The colour of a status follows its word, whatever has changed the word: a season built from the pane, its log filled
 * from the pane, by keyboard and by paste, corrected, undone and emptied. What is compared is what the screen shows.
 */
import { mkdirSync } from "node:fs";
import { join } from "node:path";

import { texts } from "../../src/taskpane/words/texts";
import { STATUSES } from "../../src/trade/statuses";
import { statusesAsDrawn } from "./drawn-colours";
import { type OpenPage, openTryOutPage, screenshots } from "./page";

jest.setTimeout(900_000);

const LABEL = "2027 B";
const sheet = (word: string): string => `${word} ${LABEL}`;

const TEN_CAUGHT = "ccccc ccccc";

describe("a season built in the page", () => {
  let opened: OpenPage;

  beforeAll(async () => {
    mkdirSync(screenshots, { recursive: true });
    opened = await openTryOutPage();
    await opened.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    const pane = opened.page.locator("#pane");
    await pane.getByRole("tab", { name: "New season" }).click();
    await pane.getByLabel("Season label").fill(LABEL);
    await pane.getByLabel("Athletes, one a line").fill("P.Q.\nR.S.");
    await pane.getByLabel("Tricks, one a line").fill("Double spin, 3\nBlind catch, 4\nElbow roll, 2\nThree turns, 6");
    await pane.getByRole("button", { name: "Build the season" }).click();
    await opened.page.waitForFunction((last) => window.tryOutPage?.sheetNames().includes(last), sheet("Contests"));
    await opened.ready();
  });

  afterAll(async () => {
    await opened.close();
  });

  /** Every sheet whose statuses follow the log; answers the words of the board, the week and the routine. */
  async function followed(): Promise<{ board: string; week: string; routine: string }> {
    const words = async (name: string, column: string, first: number, last: number): Promise<string> =>
      (await statusesAsDrawn(opened, sheet(name), column, first, last)).join(" ").trim();
    return {
      board: await words("Board", "K", 5, 11),
      week: await words("Week", "K", 5, 11),
      routine: await words("Routine", "H", 7, 11),
    };
  }

  async function firstFree(): Promise<number> {
    for (let row = 5; ; row += 1)
      if (((await opened.read(sheet("Practice"), `A${String(row)}`)) ?? "") === "") return row;
  }

  async function logFromPane(athlete: string, trick: string, marks: string): Promise<void> {
    const { page } = opened;
    const row = await firstFree();
    await page.getByRole("tab", { name: texts.logSetTitle }).click();
    await page.getByRole("combobox", { name: texts.athleteLabel, exact: true }).fill(athlete);
    await page.getByRole("combobox", { name: texts.trickLabel, exact: true }).fill(trick);
    await page.keyboard.press("Tab");
    for (const key of marks.replaceAll(" ", "")) await page.locator(".twirl-log").press(key);
    await page.getByRole("button", { name: texts.saveSet }).click();
    await opened.shows(sheet("Practice"), `E${String(row)}`, marks);
    await opened.ready();
  }

  async function typeAt(name: string, address: string, value: string): Promise<void> {
    await opened.goTo(name, address);
    await opened.page.keyboard.type(value);
    await opened.page.keyboard.press("Enter");
    await opened.shows(name, address, value);
    await opened.ready();
  }

  test("what each word looks like stands on the Season sheet", async () => {
    const words = await statusesAsDrawn(opened, sheet("Season"), "A", 26, 25 + STATUSES.length);
    expect(words).toEqual(STATUSES);
  });

  test("sets logged from the pane", async () => {
    for (const [index, trick] of ["Double spin", "Blind catch", "Three turns"].entries()) {
      await typeAt(sheet("Routine"), `A${String(7 + index)}`, String(index + 1));
      await typeAt(sheet("Routine"), `B${String(7 + index)}`, trick);
    }
    await logFromPane("P.Q.", "Double spin", "cccdc dccdd");
    expect(await followed()).toEqual({ board: "Building", week: "Building", routine: "Building" });
    await logFromPane("P.Q.", "Double spin", TEN_CAUGHT);
    await logFromPane("P.Q.", "Double spin", TEN_CAUGHT);
    const third = await followed();
    expect(third.board).not.toBe("Building");
    expect(third).toEqual({ board: third.board, week: third.board, routine: third.board });
    await logFromPane("P.Q.", "Blind catch", "cc");
    // The board is by name: the blind catch comes before the double spin.
    expect(await followed()).toEqual({
      board: `Too few ${third.board}`,
      week: `Too few ${third.board}`,
      routine: `${third.board} Too few`,
    });
  });

  test("sets typed, and one corrected", async () => {
    const row = await firstFree();
    await opened.typeRow(sheet("Practice"), row, ["2027-09-01", "R.S.", "Blind catch", "Joined", TEN_CAUGHT]);
    await opened.typeRow(sheet("Practice"), row + 1, ["2027-09-02", "P.Q.", "Elbow roll", "Joined", TEN_CAUGHT]);
    const before = await followed();
    expect(before.board.split(/ (?=[A-Z])/)).toHaveLength(4);
    await typeAt(sheet("Practice"), `E${String(row + 1)}`, "ddddd ddddd");
    const after = await followed();
    expect(after.board).not.toBe(before.board);
    expect(after.week).not.toBe(before.week);
  });

  test("fifty rows pasted, and undone", async () => {
    const { page } = opened;
    const before = await followed();
    const row = await firstFree();
    const rows = Array.from({ length: 25 }, (_, day) => {
      const date = `2027-10-${String(day + 1).padStart(2, "0")}`;
      return [
        [date, "P.Q.", "Double spin", "Joined", day < 19 ? TEN_CAUGHT : "dddcd ddccd"],
        [date, "P.Q.", "Elbow roll", "Joined", TEN_CAUGHT],
      ];
    }).flat();
    await page.evaluate(
      (words) => navigator.clipboard.writeText(words),
      rows.map((cells) => cells.join("\t")).join("\n"),
    );
    await opened.goTo(sheet("Practice"), `A${String(row)}`);
    await page.keyboard.press("Control+V");
    await opened.shows(sheet("Practice"), `E${String(row + 49)}`, TEN_CAUGHT);
    await opened.ready();
    const pasted = await followed();
    expect(pasted.board).toContain("At risk");
    expect(pasted.week).toContain("At risk");
    expect(pasted.routine).toMatch(/^At risk /);
    await page.screenshot({ path: join(screenshots, "colours-routine.png") });
    await statusesAsDrawn(opened, sheet("Board"), "K", 5, 11);
    await page.screenshot({ path: join(screenshots, "colours-board.png") });

    await opened.goTo(sheet("Practice"), `A${String(row)}`);
    // The rows, and the table that has grown over them: a step each.
    for (let step = 1; (await firstFree()) !== row; step += 1) {
      if (step === 8) throw new Error("Undo does not take the paste back.");
      await page.keyboard.press("Control+z");
      await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
      await opened.ready();
    }
    expect(await followed()).toEqual(before);
  });

  test("rows of the log emptied: the board shrinks, and no colour stays behind", async () => {
    const { page } = opened;
    const last = (await firstFree()) - 1;
    await opened.goTo(sheet("Practice"), `A${String(last - 1)}`);
    await page.keyboard.press("Shift+ArrowDown");
    for (let column = 0; column < 4; column += 1) await page.keyboard.press("Shift+ArrowRight");
    await page.keyboard.press("Delete");
    await page.waitForFunction(([name, cell]) => (window.tryOutPage?.read(name, cell) ?? "") === "", [
      sheet("Practice"),
      `E${String(last)}`,
    ] as const);
    await opened.ready();
    const after = await followed();
    expect(after.board.split(/ (?=[A-Z])/)).toHaveLength(2);
    expect(opened.problems).toEqual([]);
  });
});
