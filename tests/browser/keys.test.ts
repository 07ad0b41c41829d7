/** Every key typed arrives: in a new season, and while other cells are written and worked out. */
import { type OpenPage, openTryOutPage } from "./page";
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

  test("leaves nothing to complain about", () => {
    expect(opened.problems).toEqual([]);
  });
});
