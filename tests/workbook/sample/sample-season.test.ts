/** The sample season tells the story it is meant to tell. */
import { readFileSync } from "node:fs";
import path from "node:path";
import { Workbook } from "@cj-tech-master/excelts";
import { readiness } from "../../../src/core/readiness";
import { sampleRecords, sampleSettings } from "../../../src/workbook/sample/sample-season";
import { STAGES } from "../../../src/trade/stages";
import { logOf } from "../../core/logs";

const { standard, setSize } = sampleSettings;

/** The readiness rule, which its own tests hold to an independent reading of it in R. */
function status(marks: string): string {
  return readiness(logOf([marks]), standard, setSize);
}

const APART = ["Body only", "Toss only", "Wall"];

/** Days as whole sheet serial numbers: days from 30 December 1899. */
function serial(year: number, month: number, day: number): number {
  return (Date.UTC(year, month - 1, day) - Date.UTC(1899, 11, 30)) / 86_400_000;
}

const FIRST_MONDAY = serial(2025, 10, 6);
const WINTER_CONTEST = serial(2026, 2, 7);
const SPRING_CUP = serial(2026, 3, 22);

function weekOf(date: number): number {
  return Math.floor((date - FIRST_MONDAY) / 7);
}

function countedMarks(athlete: string, trick: string, until = Infinity): string {
  return sampleRecords.practice
    .filter((entry) => entry.athlete === athlete && entry.trick === trick && !APART.includes(entry.stage))
    .filter(({ date }) => date <= until)
    .map(({ marks }) => marks.replaceAll(" ", ""))
    .join("");
}

/** How each athlete's tricks end, A to Z as the board has them. */
const endings: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  "A.R.": {
    Cartwheel: "Confirm",
    "Double spin": "Solid",
    "Double spin blind catch": "Building",
    "Double spin left hand": "Building",
    "Flat under-leg": "Confirm",
    Leap: "Ready",
    "Open hand back catch": "Building",
    "Single illusion": "Solid",
    "Triple spin": "Building",
  },
  "D.L.": {
    "Back walkover": "Too few",
    "Cartwheel blind catch": "Solid",
    "Double illusion": "Building",
    "Double spin": "Solid",
    "Flat under-leg": "Solid",
    "Illusion back catch": "Building",
    Leap: "Solid",
    "Leap back catch": "Ready",
    "Open hand back catch": "Ready",
    "Quad spin": "Building",
    "Single illusion": "Solid",
    "Triple spin": "Solid",
  },
  "J.T.": {
    "Double spin": "Ready",
    "Flat single spin": "Confirm",
    "Flat under-leg": "Building",
    "Open hand back catch": "Confirm",
    "Single illusion": "Too few",
    "Single spin": "Solid",
  },
  "M.K.": {
    Cartwheel: "Ready",
    "Cartwheel blind catch": "At risk",
    "Double illusion": "Too few",
    "Double spin": "Solid",
    "Flat under-leg": "Solid",
    "Front walkover": "Building",
    Leap: "Solid",
    "Leap back catch": "Building",
    "Open hand back catch": "Solid",
    "Single illusion": "Solid",
    "Triple spin": "Ready",
  },
  "N.W.": {
    "Backhand head catch": "Building",
    Cartwheel: "Building",
    "Double spin": "Ready",
    "Flat single spin": "Solid",
    "Flat under-leg": "Solid",
    "Open hand back catch": "Ready",
    "Single illusion": "Ready",
  },
  "S.B.": {
    Cartwheel: "Building",
    "Double spin": "Ready",
    "Flat under-leg": "Ready",
    Leap: "Confirm",
    "One and a half spin": "Ready",
    "Open hand back catch": "Building",
    "Single spin": "Solid",
  },
};

const story = Object.entries(endings).flatMap(([athlete, tricks]) =>
  Object.entries(tricks).map(([trick, expected]) => ({ athlete, trick, expected })),
);

test.each(story)("$athlete $trick ends $expected", ({ athlete, trick, expected }) => {
  expect(status(countedMarks(athlete, trick))).toBe(expected);
});

test("the board stored in the sample workbook shows the same statuses, as the built functions gave them", async () => {
  const workbook = new Workbook();
  await workbook.xlsx.load(readFileSync(path.join(__dirname, "../../../sample-workbooks/season.xlsx")));
  const board = workbook.getWorksheet("Board 2026");
  // The first cell holds the formula with the first heading as its answer; the headings' row is part of the spill.
  const shown = Array.from({ length: story.length + 1 }, (_, index) =>
    ["A", "B", "K"].map((letter) => board?.getCell(`${letter}${5 + index}`).value),
  );
  const expected = story.map(({ athlete, trick, expected: word }) => [athlete, trick, word]);
  expect(shown.slice(0, -1)).toEqual(expected);
  expect(shown.at(-1)).toEqual([null, null, null]);
});

test("every status that a practised trick can have is on the board", () => {
  expect(new Set(story.map(({ expected }) => expected))).toEqual(
    new Set(["Too few", "Building", "Confirm", "Ready", "Solid", "At risk"]),
  );
});

test("the story names every athlete and trick that was practised", () => {
  const practised = new Set(sampleRecords.practice.map(({ athlete, trick }) => `${athlete} ${trick}`));
  expect(practised).toEqual(new Set(story.map(({ athlete, trick }) => `${athlete} ${trick}`)));
});

describe("turns in the story", () => {
  const turns = [
    {
      athlete: "M.K.",
      trick: "Cartwheel blind catch",
      at: [serial(2026, 2, 20), SPRING_CUP],
      words: [["Ready", "Solid"], ["At risk"]],
      because: "it was ready before it slid",
    },
    {
      athlete: "A.R.",
      trick: "Single illusion",
      at: [serial(2025, 11, 28), serial(2025, 12, 12), WINTER_CONTEST, SPRING_CUP],
      words: [["Ready", "Solid"], ["At risk"], ["Ready", "Solid"], ["Ready", "Solid"]],
      because: "it slid before the winter and came back",
    },
    {
      athlete: "D.L.",
      trick: "Leap back catch",
      at: [serial(2025, 12, 22), WINTER_CONTEST, SPRING_CUP],
      words: [["Ready", "Solid"], ["At risk"], ["Ready"]],
      because: "it failed at the contest, was replaced and retrained apart",
    },
  ];
  test.each(turns)("$athlete $trick: $because", ({ athlete, trick, at, words }) => {
    at.forEach((date, index) => expect(words[index]).toContain(status(countedMarks(athlete, trick, date))));
  });

  test("who slides goes back to body and toss apart", () => {
    for (const [athlete, trick, from] of [
      ["A.R.", "Single illusion", serial(2025, 12, 15)],
      ["D.L.", "Leap back catch", WINTER_CONTEST + 1],
    ] as const) {
      const stages = sampleRecords.practice
        .filter((entry) => entry.athlete === athlete && entry.trick === trick && entry.date >= from)
        .map(({ stage }) => stage)
        .filter((stage) => stage !== "Run-through");
      expect(stages.slice(0, 6)).toEqual(["Body only", "Body only", "Toss only", "Toss only", "Wall", "Joined"]);
    }
  });

  test("the leap back catch is replaced in the routine by the leap after the winter contest", () => {
    const runThroughs = sampleRecords.practice.filter(
      ({ stage, athlete }) => ["Run-through", "Contest"].includes(stage) && ["M.K.", "D.L."].includes(athlete),
    );
    const days = (trick: string): readonly number[] =>
      runThroughs.filter((entry) => entry.trick === trick).map(({ date }) => date);
    expect(Math.max(...days("Leap back catch"))).toBe(WINTER_CONTEST);
    expect(Math.min(...days("Leap"))).toBeGreaterThan(WINTER_CONTEST);
    const inRoutine = sampleRecords.routine.map(({ trick }) => trick);
    expect(inRoutine).toContain("Leap");
    expect(inRoutine).not.toContain("Leap back catch");
  });
});

describe("the season is whole", () => {
  const { practice, contests, routine, trickDetails, landings } = sampleRecords;

  test("24 weeks, six athletes, twenty tricks, two contests", () => {
    expect(new Set(practice.map(({ date }) => weekOf(date)))).toEqual(new Set(Array.from({ length: 24 }, (_, n) => n)));
    expect(new Set(practice.map(({ athlete }) => athlete))).toEqual(new Set(sampleSettings.athletes));
    expect(sampleSettings.athletes).toHaveLength(6);
    expect(new Set(practice.map(({ trick }) => trick))).toEqual(new Set(sampleSettings.tricks.map(({ name }) => name)));
    expect(sampleSettings.tricks).toHaveLength(20);
    expect(new Set(contests.map(({ contest }) => contest)).size).toBe(2);
    expect(practice.length).toBeGreaterThanOrEqual(1500);
    expect(practice.length).toBeLessThanOrEqual(2500);
  });

  test("every trick is described in full, within the ranges of the trade", () => {
    expect([...trickDetails.keys()]).toEqual(sampleSettings.tricks.map(({ name }) => name));
    for (const details of trickDetails.values()) {
      for (const words of [details.release, details.body, details.catch]) expect(words).not.toBe("");
      expect(["right", "left", "either"]).toContain(details.hand);
      expect([2, 3]).toContain(details.extraCounts);
      expect(details.travel).toBeGreaterThanOrEqual(0);
      // A solo's floor is about ten metres by ten.
      expect(details.travel).toBeLessThanOrEqual(3);
      expect(details.value).toBeGreaterThan(0);
    }
    for (const { bodyCounts } of sampleSettings.tricks) {
      expect(bodyCounts).toBeGreaterThanOrEqual(1);
      expect(bodyCounts).toBeLessThanOrEqual(7);
    }
  });

  test("a trick is in the routine where the Tricks sheet says so", () => {
    const tosses = routine.map(({ trick }) => trick).filter((trick) => trickDetails.has(trick));
    const said = [...trickDetails].filter(([, { inRoutine }]) => inRoutine === true).map(([trick]) => trick);
    expect(new Set(tosses)).toEqual(new Set(said));
    // A line of the routine that is no toss takes counts of its own.
    for (const { trick, ownCounts } of routine) expect(ownCounts === null).toBe(trickDetails.has(trick));
  });

  test("every athlete has a result at both contests, and it is what the log says of the day", () => {
    for (const day of [WINTER_CONTEST, SPRING_CUP]) {
      for (const athlete of sampleSettings.athletes) {
        const tossed = practice.filter((entry) => entry.date === day && entry.athlete === athlete);
        expect(tossed.every(({ stage, marks }) => stage === "Contest" && /^[cd]$/.test(marks))).toBe(true);
        const results = contests.filter((entry) => entry.date === day && entry.athlete === athlete);
        expect(results.map(({ tosses, drops }) => [tosses, drops])).toEqual([
          [tossed.length, tossed.filter(({ marks }) => marks === "d").length],
        ]);
      }
    }
    expect(contests).toHaveLength(12);
    expect(sampleSettings.contestDate).toBe(SPRING_CUP);
  });

  test("a result's penalties are its drops' and a few tenths at most", () => {
    for (const { drops, penalties } of contests) {
      const others = (penalties ?? 0) - drops * sampleSettings.dropCost;
      expect(others).toBeGreaterThan(-1e-9);
      expect(others).toBeLessThan(0.3);
    }
  });

  test("landing marks are near their tape, each evening's of one athlete and trick", () => {
    expect(new Set(landings.map(({ date, athlete, trick }) => `${date} ${athlete} ${trick}`)).size).toBe(4);
    for (const { athlete, trick, date, sideways, forward } of landings) {
      expect(Math.hypot(sideways, forward)).toBeLessThan(1.5);
      // Nobody marks landings of a trick before it is taken up.
      expect(practice.some((e) => e.athlete === athlete && e.trick === trick && e.date <= date)).toBe(true);
    }
  });
});

describe("the log is believable", () => {
  const { practice } = sampleRecords;

  test("days run on to the cup, in order: three or four a week but for the holidays", () => {
    const days = [...new Set(practice.map(({ date }) => date))];
    expect(practice.map(({ date }) => date)).toEqual(
      practice.map(({ date }) => date).sort((one, other) => one - other),
    );
    expect(days[0]).toBe(FIRST_MONDAY);
    expect(days.at(-1)).toBe(SPRING_CUP);
    for (let week = 0; week < 24; week++) {
      const inWeek = days.filter((date) => weekOf(date) === week).length;
      // The weeks of 21 and 28 December.
      expect([11, 12].includes(week) ? [1] : [3, 4]).toContain(inWeek);
    }
  });

  test("marks are sets of c, d and b in fives, at most ten", () => {
    for (const { marks } of practice) expect(marks).toMatch(/^(?=(?:[cdb] ?){1,10}$)[cdb]{1,5}( [cdb]{1,5})?$/);
  });

  test("a stage is begun after the ones before it, as a trick is learned", () => {
    const begun = new Map<string, number[]>();
    for (const { athlete, trick, stage } of practice) {
      const stages = begun.get(`${athlete} ${trick}`) ?? [];
      const place = STAGES.indexOf(stage);
      // Going back to a wall after a slide is no beginning.
      const goesBack = APART.includes(stage) && stages.includes(STAGES.indexOf("Joined"));
      if (!stages.includes(place) && !goesBack) stages.push(place);
      begun.set(`${athlete} ${trick}`, stages);
    }
    for (const stages of begun.values()) expect(stages).toEqual([...stages].sort((one, other) => one - other));
    expect(new Set(practice.map(({ stage }) => stage))).toEqual(new Set(STAGES));
  });

  test("two bails end a set, and the note says so", () => {
    const stopped = practice.filter(({ marks }) => [...marks].filter((mark) => mark === "b").length >= 2);
    expect(stopped.length).toBeGreaterThan(0);
    for (const { marks, note } of stopped) {
      expect(marks.endsWith("b")).toBe(true);
      expect(note).toMatch(/^Two bails/);
    }
  });

  test("nothing of a medical kind is noted, as the Season sheet asks", () => {
    const notes = [...practice, ...sampleRecords.contests].map(({ note }) => note).filter((note) => note !== "");
    expect(notes.length).toBeGreaterThan(100);
    for (const note of notes) expect(note).not.toMatch(/injur|pain|hurt|sore|sprain|bruise|struck|dizzy|doctor/i);
  });
});
