/** Every key typed arrives: in a new season, while everything is worked out anew, and where a cell refuses a value. */
import { mkdirSync } from "node:fs";
import { join } from "node:path";

import { type OpenPage, openTryOutPage, screenshots } from "./page";
import { ATHLETES, buildSeason, keysOfRow, type Pace, shownRow, STAGES, TRICKS, typeKeys } from "./typing";

jest.setTimeout(600_000);

const LABEL = "2031";
const PRACTICE = `Practice ${LABEL}`;
const TRICK_SHEET = `Tricks ${LABEL}`;
const FAST: Pace = [0, 10];
const DATE_TYPED = "2031-01-10";
const DATE_SHOWN = "10 Jan 2031";
const FIRST_ROW = 5;

describe("what is typed into a new season", () => {
  let opened: OpenPage;
  let next = FIRST_ROW;

  beforeAll(async () => {
    opened = await openTryOutPage();
    await buildSeason(opened.page, LABEL);
    await opened.ready();
    mkdirSync(screenshots, { recursive: true });
  });

  afterAll(async () => {
    await opened.close();
  });

  /** What a row of the log is to hold; another one each time. */
  const rowOf = (index: number): string[] => [
    DATE_TYPED,
    ATHLETES[index % 3] ?? "",
    TRICKS[(index + 1) % 3] ?? "",
    STAGES[index % 2] ?? "",
    "cccdc cdccb".slice(0, 5 + index),
    String(10 + index),
  ];

  const holds = async (row: number, values: readonly string[]): Promise<void> => {
    await opened.shows(PRACTICE, `F${String(row)}`, values[5] ?? "");
    expect(await shownRow(opened.page, PRACTICE, "ABCDEF", row)).toEqual([DATE_SHOWN, ...values.slice(1)]);
  };

  /** As an answer that is worked out there: what the sheet of the tricks holds far below its table matters to nobody. */
  const writeElsewhere = (address: string, value: number): Promise<void> =>
    opened.page.evaluate(([sheet, cell, number]) => window.tryOutPage?.write(sheet, cell, number), [
      TRICK_SHEET,
      address,
      value,
    ] as const);

  test("stands in its cells, however fast it comes", async () => {
    const rows = [...Array(5).keys()].map(rowOf);
    await opened.goTo(PRACTICE, `A${String(next)}`);
    await typeKeys(opened.page, rows.flatMap(keysOfRow), FAST);
    for (const [index, row] of rows.entries()) await holds(next + index, row);
    next += rows.length;
  });

  test("is not touched by what is written into another sheet at the same place, or worked out anew", async () => {
    const rows = [...Array(2).keys()].map(rowOf);
    await opened.goTo(PRACTICE, `A${String(next)}`);
    for (const [index, values] of rows.entries()) {
      for (const [column, value] of values.entries()) {
        const address = `${"ABCDEF"[column] ?? ""}${String(next + index)}`;
        const [first = "", ...others] = value;
        await typeKeys(opened.page, [first], FAST);
        await writeElsewhere(address, index);
        await typeKeys(opened.page, others, FAST);
        await writeElsewhere(address, index + 1);
        await typeKeys(opened.page, ["Tab"], FAST);
      }
      await typeKeys(opened.page, ["Enter"], FAST);
    }
    for (const [index, row] of rows.entries()) await holds(next + index, row);
    next += rows.length;
  });

  test("takes the place of what a cell held", async () => {
    await opened.goTo(PRACTICE, `E${String(FIRST_ROW)}`);
    await typeKeys(opened.page, [..."dd", "ArrowDown", ..."8/10", "ArrowDown", ..."ccc"], FAST);
    for (const row of [0, 1, 2]) await writeElsewhere(`E${String(FIRST_ROW + row)}`, row);
    await typeKeys(opened.page, [..."bb", "Tab", ..."45", "Enter"], FAST);
    await opened.shows(PRACTICE, `F${String(FIRST_ROW + 2)}`, "45");
    for (const [row, marks] of ["dd", "8/10", "cccbb"].entries()) {
      expect(await opened.read(PRACTICE, `E${String(FIRST_ROW + row)}`)).toBe(marks);
    }
  });

  const editor = (): Promise<string> => opened.page.evaluate(() => document.activeElement?.id ?? "");
  const refusal = () => opened.page.getByRole("alert");

  test("stays in the cell's editor where the list refuses it, and can be put right by keys alone", async () => {
    const row = rowOf(0);
    await opened.goTo(PRACTICE, `A${String(next)}`);
    await typeKeys(opened.page, [...row.slice(0, 3).flatMap((value) => [...value, "Tab"]), ..."Bodyonly", "Tab"], FAST);
    await refusal().getByText("Choose one of: Body only").waitFor();
    await refusal().getByText("What you typed is still in the cell").waitFor();
    expect(await editor()).toContain("DOCS_NORMAL");
    expect((await opened.read(PRACTICE, `D${String(next)}`)) ?? "").toBe("");
    await opened.page.screenshot({ path: join(screenshots, "try-out-page-refused.png") });
    // The last four letters anew, and on: nothing that is typed goes anywhere else.
    await typeKeys(opened.page, [...Array<string>(4).fill("Backspace"), ..." only"], FAST);
    await typeKeys(opened.page, ["Tab", ...(row[4] ?? ""), "Tab", ...(row[5] ?? ""), "Tab", "Enter"], FAST);
    await holds(next, row);
    await refusal().waitFor({ state: "hidden" });
    next += 1;
  });

  test("is all there where somebody typed on without looking", async () => {
    await opened.goTo(PRACTICE, `D${String(next)}`);
    await typeKeys(opened.page, [..."Jined", "Tab", ..."ccdcc", "Tab", ..."12", "Tab"], FAST);
    await refusal().getByText("Choose one of: Body only").waitFor();
    // All of it: what is left of it without the last twelve is the first letter.
    await typeKeys(opened.page, [..."!"], FAST);
    await opened.page.waitForFunction(() => document.body.dataset["state"] === "ready");
    expect(await shownRow(opened.page, PRACTICE, "DEF", next)).toEqual(["", "", ""]);
    await opened.page.screenshot({ path: join(screenshots, "try-out-page-refused-twice.png") });
    await typeKeys(opened.page, [...Array<string>(12).fill("Backspace"), ..."oined", "Tab", ..."cc", "Tab"], FAST);
    await opened.shows(PRACTICE, `E${String(next)}`, "cc");
    expect(await opened.read(PRACTICE, `D${String(next)}`)).toBe("Joined");
    await refusal().waitFor({ state: "hidden" });
    next += 1;
  });

  test("stays where it is no date, and Escape leaves the cell as it was", async () => {
    await opened.goTo(PRACTICE, `A${String(FIRST_ROW)}`);
    await typeKeys(opened.page, [..."2031-13-45", "Enter"], FAST);
    await refusal().getByText("“2031-13-45” is not a day.").waitFor();
    await typeKeys(opened.page, ["Escape"], FAST);
    await refusal().waitFor({ state: "hidden" });
    await opened.shows(PRACTICE, `A${String(FIRST_ROW)}`, DATE_SHOWN);
    await typeKeys(opened.page, ["Delete"], FAST);
    await opened.shows(PRACTICE, `A${String(FIRST_ROW)}`, "");
    await typeKeys(opened.page, [..."2031-13-45", "Tab"], FAST);
    await refusal().getByText("“2031-13-45” is not a day.").waitFor();
    await typeKeys(opened.page, [...Array<string>(5).fill("Backspace"), ..."01-10", "Tab"], FAST);
    await opened.shows(PRACTICE, `A${String(FIRST_ROW)}`, DATE_SHOWN);
  });

  test("stays where it is no date in the first free row, which belongs to the log only once it is put right", async () => {
    const row = rowOf(1);
    await opened.goTo(PRACTICE, `A${String(next)}`);
    await typeKeys(opened.page, [..."2031-13-45", "Tab"], FAST);
    await refusal().getByText("“2031-13-45” is not a day.").waitFor();
    expect((await opened.read(PRACTICE, `A${String(next)}`)) ?? "").toBe("");
    const keys = [..."01-10", "Tab", ...keysOfRow(row.slice(1))];
    await typeKeys(opened.page, [...Array<string>(5).fill("Backspace"), ...keys], FAST);
    await holds(next, row);
    await refusal().waitFor({ state: "hidden" });
    next += 1;
  });

  test("comes back when the mouse has gone to another cell", async () => {
    await opened.goTo(PRACTICE, `D${String(FIRST_ROW)}`);
    await typeKeys(opened.page, [..."Jo"], FAST);
    const grid = await opened.page.locator('#grid canvas[id^="univer-sheet-main-canvas"]').boundingBox();
    if (!grid) throw new Error("There is no grid.");
    await opened.page.mouse.click(grid.x + 300, grid.y + 400);
    await refusal().getByText("Choose one of: Body only").waitFor();
    await opened.page.locator("#selected", { hasText: new RegExp(`^${PRACTICE} D${String(FIRST_ROW)}\\b`) }).waitFor();
    await typeKeys(opened.page, [..."ined", "Enter"], FAST);
    await opened.shows(PRACTICE, `D${String(FIRST_ROW)}`, "Joined");
  });

  test("leaves nothing to complain about", () => {
    expect(opened.problems).toEqual([]);
  });
});
