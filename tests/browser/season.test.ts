/**
 * A season from nothing in the real browser, beside one that is there: built from the pane, its tricks filled in, three
 * weeks logged by keyboard and by paste, and every other sheet followed. The first season must stay as it was.
 */
import { mkdirSync } from "node:fs";
import { join } from "node:path";

import { columnLetters } from "../../src/core/sheet";
import { type OpenPage, openTryOutPage, screenshots } from "./page";

jest.setTimeout(600_000);

const LABEL = "2027 B";
const sheet = (word: string): string => `${word} ${LABEL}`;

/** Everything that a sheet shows in its first columns and rows. */
function shown(opened: OpenPage, name: string): Promise<Record<string, string>> {
  const letters = [...Array(34).keys()].map((index) => columnLetters(index + 1));
  return opened.page.evaluate(
    ([sheetName, columns]) => {
      const cells: Record<string, string> = {};
      for (let row = 1; row <= 260; row += 1) {
        for (const column of columns) {
          const value = window.tryOutPage?.read(sheetName, column + String(row));
          if (value !== undefined && value !== null && value !== "")
            cells[column + String(row)] = String(value as string);
        }
      }
      return cells;
    },
    [name, letters] as const,
  );
}

async function typeAt(opened: OpenPage, name: string, address: string, value: string): Promise<void> {
  await opened.goTo(name, address);
  await opened.page.keyboard.type(value);
  await opened.page.keyboard.press("Enter");
  await opened.page.waitForFunction(
    ([sheetName, cell]) =>
      !["", undefined, null].includes(window.tryOutPage?.read(sheetName, cell) as string | undefined),
    [name, address] as const,
  );
}

/** Pastes rows as a coach does who has them elsewhere: by the clipboard, from the cell on. */
async function paste(
  opened: OpenPage,
  name: string,
  address: string,
  rows: readonly (readonly string[])[],
): Promise<void> {
  const text = rows.map((row) => row.join("\t")).join("\n");
  await opened.page.evaluate((words) => navigator.clipboard.writeText(words), text);
  await opened.goTo(name, address);
  await opened.page.keyboard.press("Control+V");
}

/** One set a practice for each trick: the blind catch is caught seven times of ten, the spin always. */
const setOf = (date: string, trick: string, marks: string): string[] => [date, "P.Q.", trick, "Joined", marks];
const firstWeek = [
  setOf("2027-09-06", "Double spin", "ccccc ccccc"),
  setOf("2027-09-06", "Blind catch", "cccdc cdccd"),
];
const laterWeeks = [
  setOf("2027-09-13", "Double spin", "ccccc ccccc"),
  setOf("2027-09-13", "Blind catch", "7/10"),
  setOf("2027-09-20", "Double spin", "ccccc ccccc"),
  setOf("2027-09-20", "Blind catch", "7/10"),
];

describe("a season of its own, beside another", () => {
  let opened: OpenPage;
  let before: Record<string, Record<string, string>>;
  let others: string[];

  beforeAll(async () => {
    opened = await openTryOutPage();
    await opened.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    others = await opened.page.evaluate(() => window.tryOutPage?.sheetNames() ?? []);
    before = {};
    for (const name of others) before[name] = await shown(opened, name);
    mkdirSync(screenshots, { recursive: true });
  });

  afterAll(async () => {
    await opened.close();
  });

  test("is built from the pane with all its sheets", async () => {
    const pane = opened.page.locator("#pane");
    await pane.getByRole("tab", { name: "New season" }).click();
    await pane.getByLabel("Season label").fill(LABEL);
    await pane.getByLabel("Athletes, one a line").fill("P.Q.\nR.S.");
    await pane.getByLabel("Tricks, one a line").fill("Double spin, 3\nBlind catch, 4");
    await pane.getByRole("button", { name: "Build the season" }).click();
    const words = ["Season", "Tricks", "Practice", "Board", "Trick", "Routine", "Week"];
    words.push("Club week", "Toss lab", "Contests");
    await opened.page.waitForFunction(
      (names) => names.every((name) => window.tryOutPage?.sheetNames().includes(name)),
      words.map(sheet),
    );
    await opened.ready();
    await opened.shows(sheet("Board"), "A4", "Log a first set on the Practice sheet: the board fills itself.");
  });

  test("its tricks are filled in, and airtime and rise follow", async () => {
    for (const [row, values] of [
      [6, { B: "Thumb", C: "2 spins", D: "Hand", E: "right", I: "1.2", J: "yes" }],
      [7, { B: "Backhand", C: "turn", D: "Blind", E: "left", I: "1.9", J: "yes" }],
    ] as const) {
      for (const [column, value] of Object.entries(values)) {
        await typeAt(opened, sheet("Tricks"), `${column}${String(row)}`, value);
      }
    }
    await opened.ready();
    // Three and two counts at 200 a minute are 1.5 s, and g T² / 8 is 2.758 m (g = 9.80665).
    await opened.shows(sheet("Tricks"), "L6", "1.50");
    await opened.shows(sheet("Tricks"), "M6", "2.8");
  });

  test("three weeks are logged, one typed and two pasted, and the board follows", async () => {
    for (const [index, row] of firstWeek.entries()) await opened.typeRow(sheet("Practice"), 5 + index, row);
    await opened.shows(sheet("Board"), "C5", "10");
    await paste(opened, sheet("Practice"), `A${String(5 + firstWeek.length)}`, laterWeeks);
    await opened.shows(sheet("Practice"), "E10", "7/10");
    await opened.ready();
    // By hand: thirty attempts each; 7, 7 and 7 of ten, all of ten.
    await opened.shows(sheet("Board"), "A5", "P.Q.");
    await opened.shows(sheet("Board"), "B5", "Blind catch");
    await opened.shows(sheet("Board"), "C5", "30");
    await opened.shows(sheet("Board"), "D5", "7/10");
    await opened.shows(sheet("Board"), "K5", "Building");
    await opened.shows(sheet("Board"), "B6", "Double spin");
    await opened.shows(sheet("Board"), "D6", "10/10");
    await opened.shows(sheet("Board"), "E6", "100%");
    await opened.shows(sheet("Board"), "I6", "30");
    await opened.shows(sheet("Board"), "K6", "Solid");
  });

  test("one trick's history by day stands beside the board with its chart", async () => {
    await typeAt(opened, sheet("Board"), "P3", "Blind catch");
    await opened.shows(sheet("Board"), "R5", "70%");
    await opened.shows(sheet("Board"), "O7", "20 Sep 2027");
    await opened.goTo(sheet("Board"), "V8");
    await opened.ready();
    const chart = opened.page.getByRole("img", { name: /^Share caught, day by day/ });
    await chart.waitFor();
    expect(await chart.locator('[data-series="Rate"] circle').count()).toBe(3);
    // All three days have the same rate: their marks lie at one height.
    const heights = await chart
      .locator('[data-series="Rate"] circle')
      .evaluateAll((marks) => marks.map((mark) => mark.getAttribute("cy")));
    expect(new Set(heights).size).toBe(1);
    await opened.page.screenshot({ path: join(screenshots, "season-board-history.png") });
  });

  test("the routine tells its chances, its weak link and its time over the limit", async () => {
    for (const [index, [order, trick]] of [
      ["1", "Double spin"],
      ["2", "Blind catch"],
    ].entries()) {
      await typeAt(opened, sheet("Routine"), `A${String(7 + index)}`, order ?? "");
      await typeAt(opened, sheet("Routine"), `B${String(7 + index)}`, trick ?? "");
    }
    // Rates of 100 % and 70 %: the chance of no drop is 70 %, 0.30 drops are to be expected.
    await opened.shows(sheet("Routine"), "G8", "70%");
    await opened.shows(sheet("Routine"), "L7", "70%");
    await opened.shows(sheet("Routine"), "L8", "0.30");
    await opened.shows(sheet("Routine"), "N7", "Blind catch");
    // Eleven counts at 200 a minute are 3.3 s; with a limit of 3 s that is 0.3 s over.
    await typeAt(opened, sheet("Routine"), "D3", "3");
    await opened.ready();
    const timeline = Object.values(await shown(opened, sheet("Routine"))).filter((words) => /over/.test(words));
    expect(timeline.join()).toMatch(/0:00\.3 over/);
    await opened.page.screenshot({ path: join(screenshots, "season-routine.png") });
  });

  test("the week says what to practise: the trick that is not ready comes first", async () => {
    await opened.shows(sheet("Week"), "D5", "Blind catch");
    await opened.goTo(sheet("Week"), "D5");
    await opened.page.screenshot({ path: join(screenshots, "season-week.png") });
  });

  test("everybody's week: own minutes, away, and minutes mistyped; a contest of the calendar is counted down", async () => {
    const club = sheet("Club week");
    // Nobody noted minutes: an attempt a minute; at most three sets of one trick.
    for (const [address, words] of Object.entries({ A7: "P.Q.", B7: "60", D7: "60", E7: "Blind catch: 30" })) {
      await opened.shows(club, address, words);
    }
    await opened.shows(club, "F7", "Double spin: 30");
    await opened.shows(club, "E8", "Nothing logged yet: a first set of each trick");
    await typeAt(opened, sheet("Season"), "F6", "away");
    await typeAt(opened, sheet("Season"), "F5", "forty");
    await opened.shows(club, "B8", "away");
    await opened.shows(club, "E7", 'Minutes: found the text "forty". Accepted: minutes from 0 to 1,440, or away.');
    await typeAt(opened, sheet("Season"), "F5", "40");
    await opened.shows(club, "E7", "Blind catch: 30");
    await opened.shows(club, "D7", "40");
    await typeAt(opened, sheet("Season"), "N5", "2027-10-02");
    // Logged last on 20 September.
    await opened.shows(sheet("Week"), "B13", "2 Oct 2027");
    await opened.shows(sheet("Week"), "B14", "12");
    await opened.shows(club, "E4", "2 Oct 2027");
    await opened.goTo(club, "A7");
    await opened.ready();
    await opened.page.screenshot({ path: join(screenshots, "season-club-week.png") });
  });

  test("landing marks give the placement, and a chart with target and circles", async () => {
    const marks: readonly (readonly [string, string])[] = [
      ["0.3", "0.4"],
      ["-0.3", "-0.4"],
      ["0.6", "0.8"],
      ["0.6", "-0.8"],
    ];
    await paste(
      opened,
      sheet("Toss lab"),
      "E5",
      marks.map(([sideways, forward]) => ["2027-09-20", "P.Q.", "Double spin", sideways, forward]),
    );
    // By hand: the means are 0.3 and 0; the distances from the target 0.5, 0.5, 1 and 1.
    await opened.shows(sheet("Toss lab"), "L7", "4");
    await opened.shows(sheet("Toss lab"), "L8", "0.30");
    await opened.shows(sheet("Toss lab"), "L9", "0.00");
    await opened.shows(sheet("Toss lab"), "L12", "0.50");
    await opened.shows(sheet("Toss lab"), "L13", "1.00");
    await opened.goTo(sheet("Toss lab"), "L32");
    await opened.ready();
    const chart = opened.page.getByRole("img", { name: /^Where the tosses land/ });
    await chart.waitFor();
    expect(await chart.locator('[data-series="Landing marks"] circle').count()).toBe(4);
    expect(await chart.locator('[data-series="Target"] path').count()).toBe(1);
    const [inner, outer] = await Promise.all(
      ["Half of the tosses", "Nine tenths"].map((name) =>
        chart.locator(`[data-series="${name}"] polyline`).evaluate((line) => {
          const xs = (line.getAttribute("points") ?? "").split(" ").map((pair) => Number(pair.split(",")[0]));
          return Math.max(...xs) - Math.min(...xs);
        }),
      ),
    );
    expect((outer ?? 0) / (inner ?? 1)).toBeCloseTo(2, 1);
    await opened.page.screenshot({ path: join(screenshots, "season-toss-lab.png") });
  });

  test("nothing of the first season has changed", async () => {
    for (const name of others) expect([name, await shown(opened, name)]).toEqual([name, before[name]]);
    expect(Object.values(before).map((cells) => Object.keys(cells).length)).toHaveLength(10);
    expect(opened.problems).toEqual([]);
  });
});
