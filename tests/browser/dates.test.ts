/**
 * Days as clubs write them, typed and pasted into the log by keys, in a browser that speaks British English and in one that
 * speaks American: each becomes a real date, and what is none is refused with an example.
 */
import { join } from "node:path";
import { type OpenPage, openTryOutPage, screenshots } from "./page";

jest.setTimeout(600_000);

const PRACTICE = "Practice 2026";
const FIRST_ROW = 5;

/** The first row below the log. */
function rowBelow(opened: OpenPage): Promise<number> {
  return opened.page.evaluate(
    ([sheet, first]) => {
      let row = first;
      while (window.tryOutPage?.read(sheet, `A${String(row)}`) !== undefined) row += 1;
      return row;
    },
    [PRACTICE, FIRST_ROW] as const,
  );
}

async function typeDay(opened: OpenPage, row: number, typed: string): Promise<void> {
  await opened.goTo(PRACTICE, `A${String(row)}`);
  await opened.page.keyboard.type(typed);
  await opened.page.keyboard.press("Tab");
}

/** The column's own format, which a text does not take on: none of the days is typed like this. */
const holds = (opened: OpenPage, row: number, day: string): Promise<void> =>
  opened.shows(PRACTICE, `A${String(row)}`, day);

async function paste(opened: OpenPage, address: string, lines: string): Promise<void> {
  await opened.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  await opened.page.evaluate((words) => navigator.clipboard.writeText(words), lines);
  await opened.goTo(PRACTICE, address);
  await opened.page.keyboard.press("Control+v");
}

describe.each([
  { locale: "en-GB", ambiguous: "3 Apr 2026", today: (): string => numbers("en-GB") },
  { locale: "en-US", ambiguous: "4 Mar 2026", today: (): string => numbers("en-US") },
])("a page in $locale", ({ locale, ambiguous, today }) => {
  let opened: OpenPage;
  let row: number;

  beforeAll(async () => {
    opened = await openTryOutPage({ locale });
    row = await rowBelow(opened);
  });
  afterAll(async () => {
    await opened.close();
  });

  test("takes a day however it is typed", async () => {
    for (const [typed, day] of [
      ["13/10/2026", "13 Oct 2026"],
      ["14.10.2026", "14 Oct 2026"],
      ["2026-10-13", "13 Oct 2026"],
      ["13 oct. 2026", "13 Oct 2026"],
      ["Tue 13 Oct 2026", "13 Oct 2026"],
      ["03/04/2026", ambiguous],
      [today().slice(0, 5), dayInFormat()],
    ] as const) {
      await typeDay(opened, row, typed);
      await holds(opened, row, day);
      row += 1;
    }
    await opened.ready();
  });

  test("refuses a number alone and a day that is none, and says how one is typed", async () => {
    for (const typed of ["10", "31/9/2026", "soon"]) {
      await typeDay(opened, row, typed);
      const words = opened.page.getByText(`“${typed}” is not a day. Today, for example, can be typed as ${today()}`);
      await words.waitFor();
      expect(await opened.page.locator("#refused strong").textContent()).toMatch(/^“/);
      if (typed === "10") await opened.page.screenshot({ path: join(screenshots, `no-day-${locale}.png`) });
      await opened.page.keyboard.press("Escape");
      await words.waitFor({ state: "hidden" });
      expect(await opened.read(PRACTICE, `A${String(row)}`)).not.toBe(10);
      // Whatever still stands in the cell's editor is taken back.
      await opened.page.keyboard.press("Escape");
    }
  });

  test("refuses a number alone where no rule of the sheet asks for a day, but the cell shows one", async () => {
    const cell = `L${String(FIRST_ROW)}`;
    const type = async (typed: string): Promise<void> => {
      await opened.goTo(PRACTICE, cell);
      await opened.page.keyboard.type(typed);
      await opened.page.keyboard.press("Enter");
    };
    await type(today());
    await opened.shows(PRACTICE, cell, today());
    await type("10");
    const words = opened.page.getByText(`“10” is not a day. Today, for example, can be typed as ${today()}`);
    await words.waitFor();
    await opened.page.keyboard.press("Escape");
    await words.waitFor({ state: "hidden" });
    await opened.shows(PRACTICE, cell, today());
  });

  test("reads a pasted column the same, and says which cells are no days", async () => {
    await paste(
      opened,
      `A${String(row)}`,
      ["13/10/2026", "03/04/2026", "Tue 13 Oct 2026", "10", "14.10.2026"].join("\n"),
    );
    await holds(opened, row, "13 Oct 2026");
    await holds(opened, row + 1, ambiguous);
    await holds(opened, row + 2, "13 Oct 2026");
    await holds(opened, row + 4, "14 Oct 2026");
    expect(await opened.read(PRACTICE, `A${String(row + 3)}`)).toBe("10");
    const told = opened.page.locator("#file-message");
    expect(await told.textContent()).toContain(`1 pasted cell is not a day and stays as text: A${String(row + 3)}.`);
    expect(await told.textContent()).toContain(today());
    row += 5;
    // One text alone comes another way.
    await paste(opened, `A${String(row)}`, "03/04/2026");
    await holds(opened, row, ambiguous);
    await opened.ready();
    await opened.page.screenshot({ path: join(screenshots, `days-${locale}.png`) });
    expect(opened.problems).toEqual([]);
  });

  test("leaves a day as it is that is opened and left again", async () => {
    await opened.goTo(PRACTICE, `A${String(row)}`);
    await opened.page.keyboard.press("F2");
    await opened.page.keyboard.press("Enter");
    await opened.ready();
    await holds(opened, row, ambiguous);
  });
});

/** Today as the log's column shows it. */
function dayInFormat(): string {
  const [weekday, month, day, year] = new Date().toDateString().split(" ");
  if (weekday === undefined || month === undefined || year === undefined) throw new Error("Today has no date.");
  return `${String(Number(day))} ${month} ${year}`;
}

/** Today in numbers as the platform writes it there, with two digits each. */
function numbers(locale: string): string {
  return new Date().toLocaleDateString(locale, { day: "2-digit", month: "2-digit", year: "numeric" });
}
