/** @jest-environment jsdom */
/** The four drawings: each number stands where it belongs, and every fact is in words too. */
import { historyBySet } from "../../../../src/core/history";
import { recordOf } from "../../../core/logs";
import { placement } from "../../../../src/core/placement";
import { cleanChance, expectedDrops } from "../../../../src/core/routine";
import { timeline } from "../../../../src/core/timeline";
import { flightPath, planToss, type TossQuestion } from "../../../../src/core/toss";
import { landingsPicture } from "../../../../src/taskpane/parts/pictures/landings-picture";
import { figureOf, type Picture } from "../../../../src/taskpane/parts/pictures/picture";
import { recordPicture, type RecordQuestion } from "../../../../src/taskpane/parts/pictures/record-picture";
import { routinePicture, type RoutineStep } from "../../../../src/taskpane/parts/pictures/routine-picture";
import { tossPicture } from "../../../../src/taskpane/parts/pictures/toss-picture";
import { texts } from "../../../../src/taskpane/words/texts";

const WIDTH = 276;
const number = (element: Element, name: string): number => Number(element.getAttribute(name));
const all = (picture: Picture, look: string): readonly Element[] => [...picture.svg.querySelectorAll(`.twirl-${look}`)];
const one = (picture: Picture, look: string): Element => {
  const found = all(picture, look);
  expect([look, found.length]).toEqual([look, 1]);
  return found[0] as Element;
};
const wordsIn = (picture: Picture): readonly string[] =>
  [...picture.svg.querySelectorAll("text")].map((text) => text.textContent);

/** Nothing that is drawn lies outside the picture, and nothing is drawn at a place that is no number. */
function expectInside({ svg }: Picture): void {
  const [, , width = 0, height = 0] = (svg.getAttribute("viewBox") ?? "").split(" ").map(Number);
  for (const drawn of svg.querySelectorAll("line, circle, rect")) {
    if (drawn.closest("pattern")) continue;
    for (const name of ["x", "x1", "x2", "cx"]) {
      if (drawn.hasAttribute(name)) expect(number(drawn, name)).toBeGreaterThanOrEqual(0);
      if (drawn.hasAttribute(name)) expect(number(drawn, name)).toBeLessThanOrEqual(width);
    }
    for (const name of ["y", "y1", "y2", "cy"]) {
      if (drawn.hasAttribute(name)) expect(number(drawn, name)).toBeGreaterThanOrEqual(0);
      if (drawn.hasAttribute(name)) expect(number(drawn, name)).toBeLessThanOrEqual(height);
    }
  }
  expect(svg.outerHTML).not.toMatch(/NaN|Infinity|undefined/);
}

const day = 46391;
const sets = (...marks: readonly string[]): RecordQuestion["sets"] =>
  historyBySet(recordOf(marks.map((cell, index) => [day + index, cell])), 0.8, 10);
const record = (given: Partial<RecordQuestion> = {}, width = WIDTH): Picture =>
  recordPicture(
    {
      ...{ athlete: "M.K.", trick: "Double turn", sets: sets("ccccc ddddd", "ccccc ccccc", "ccc") },
      ...{ standard: 0.8, setSize: 10, contests: [], caution: null },
      ...given,
    },
    width,
  );

describe("a trick's record", () => {
  test("each set stands at its share, between its interval's ends (Newcombe 1998: 5 of 10, 24 to 76 %)", () => {
    const picture = record();
    expectInside(picture);
    const [half, full] = all(picture, "mark");
    const [top, bottom] = [number(full as Element, "cy"), number(one(picture, "axis"), "y1")];
    expect(number(half as Element, "cy")).toBeCloseTo((top + bottom) / 2, 1);
    const whisker = all(picture, "interval")[0] as Element;
    const share = (y: number): number => (bottom - y) / (bottom - top);
    expect(share(number(whisker, "y1"))).toBeCloseTo(0.2366, 2);
    expect(share(number(whisker, "y2"))).toBeCloseTo(0.7634, 2);
    expect(share(number(one(picture, "standard"), "y1"))).toBeCloseTo(0.8, 2);
    expect(picture.table.rows[0]).toEqual([
      "1",
      "4 Jan 2027",
      "5 of 10",
      "50\u00A0%",
      "24\u00A0% to 76\u00A0%",
      "Building",
      "5 of 10; the standard is 80 %",
    ]);
  });

  test("a set that is not full is drawn hollow, and the key says so; without one the key is silent", () => {
    expect(all(record(), "mark-part")).toHaveLength(1);
    expect(record().key.map(({ words }) => words)).toContain(texts.recordKey.part);
    const full = record({ sets: sets("ccccc ccccc") });
    expect(full.key.map(({ words }) => words)).not.toContain(texts.recordKey.part);
  });

  test("a change of status stands at its set with its word, and in the sentences with its day", () => {
    const picture = record({ sets: sets("ccccc ddddd", "ccccc ccccc", "ccccc ccccc") });
    const changes = picture.table.rows.map((row) => row[5]);
    expect(changes[0]).toBe("Building");
    expect(new Set(changes).size).toBeGreaterThan(1);
    expect(wordsIn(picture)).toEqual(expect.arrayContaining([...new Set(changes)]));
    const marks = all(picture, "mark");
    const lines = all(picture, "change").map((line) => number(line, "x1"));
    expect(lines).toEqual(
      marks.filter((_, index) => changes[index] !== changes[index - 1]).map((mark) => number(mark, "cx")),
    );
    expect(picture.sentences.join(" ")).toContain(
      "Building on 4 Jan (5 of 10; the standard is 80 %); Confirm on 5 Jan (10 of 10; chance 35 %, 82 % is asked for)",
    );
  });

  test("words of changes that follow each other do not run over each other", () => {
    const picture = record({ sets: sets("ccccc ccccc", "ccccc ccccc", "ddddd ddddd", "ccccc ccccc", "ccccc ccccc") });
    const placed = all(picture, "status-word").map((word) => ({
      left: number(word, "x"),
      right: number(word, "x") + (word.textContent?.length ?? 0) * 6,
      y: number(word, "y"),
    }));
    for (const [index, word] of placed.entries()) {
      for (const other of placed.slice(index + 1)) {
        const apart = word.y !== other.y || word.right <= other.left || other.right <= word.left;
        expect([word, other, apart]).toEqual([word, other, true]);
      }
      expect(word.right).toBeLessThanOrEqual(WIDTH + 1);
    }
  });

  test("a contest stands after the sets that were before it", () => {
    const picture = record({ contests: [{ date: day + 1, contest: "Spring cup" }] });
    const line = number(one(picture, "contest"), "x1");
    const [first, second] = all(picture, "mark").map((mark) => number(mark, "cx"));
    expect(line).toBeGreaterThan(first ?? 0);
    expect(line).toBeLessThan(second ?? 0);
    expect(picture.sentences.join(" ")).toContain("Spring cup (5 Jan)");
  });

  test("of a long record the latest sets are drawn, the table has all, and the words say so", () => {
    const marks = Array.from({ length: 90 }, (_, index) => (index % 3 === 0 ? "ccccc ccccd" : "ccccc ccccc"));
    const picture = record({ sets: sets(...marks) });
    expectInside(picture);
    const drawn = all(picture, "mark").length;
    expect(drawn).toBeLessThan(90);
    expect(picture.table.rows).toHaveLength(90);
    expect(picture.sentences).toContain(texts.recordLatest(drawn, 90));
    expect(all(record({ sets: sets(...marks) }, 640), "mark").length).toBeGreaterThan(drawn);
  });

  test("one set alone is drawn too", () => {
    expectInside(record({ sets: sets("ccc") }));
  });
});

describe("landing marks", () => {
  const landings = (points: readonly (readonly [number, number])[]): Picture =>
    landingsPicture(
      {
        ...{ athlete: "M.K.", trick: "Double turn", unit: "m" },
        marks: points.map(([sideways, forward]) => ({ date: day, sideways, forward })),
        placement: placement(points.map(([x]) => x), points.map(([, y]) => y)), // prettier-ignore
      },
      WIDTH,
    );

  test("right is right and forward is up, to one scale, the circles about the target", () => {
    const picture = landings([
      [0.3, 0.4],
      [-0.3, -0.4],
      [0.4, -0.3],
      [-0.4, 0.3],
    ]);
    expectInside(picture);
    const [upRight, downLeft] = all(picture, "landing");
    expect(number(upRight as Element, "cx")).toBeGreaterThan(number(downLeft as Element, "cx"));
    expect(number(upRight as Element, "cy")).toBeLessThan(number(downLeft as Element, "cy"));
    const circle = one(picture, "circle-half");
    const [cx, cy, r] = ["cx", "cy", "r"].map((name) => number(circle, name)) as [number, number, number];
    // 3, 4, 5: all four lie half a metre from the target, and so on the circle.
    for (const mark of all(picture, "landing")) {
      expect(Math.hypot(number(mark, "cx") - cx, number(mark, "cy") - cy)).toBeCloseTo(r, 0);
    }
    expect(picture.sentences.join(" ")).toContain(texts.landingsWithin("0.50", "0.50", "m"));
    expect(picture.sentences.join(" ")).toContain(texts.landingsMean(texts.landingsOnTarget));
    expect(picture.table.rows[0]).toEqual(["4 Jan 2027", "0.30", "0.40", "0.50"]);
  });

  test("the wall is spoken of where tosses drift forward or back, and only there", () => {
    const forward = landings([[0, 1], [0.1, 1.1], [-0.1, 0.9], [0.05, 1], [-0.05, 1.05]]); // prettier-ignore
    expect(forward.caution).toBe(texts.landingsCaution);
    expect(forward.sentences).toContain(texts.landingsDrift);
    const sideways = landings([[1, 0], [1.1, 0.1], [0.9, -0.1], [1, 0.05], [1.05, -0.05]]); // prettier-ignore
    expect(sideways.sentences).toContain(texts.landingsDrift);
    expect(sideways.caution).toBeNull();
    const few = landings([[0, 1]]);
    expect(few.caution).toBeNull();
    expect(few.sentences).toContain(texts.landingsFew(3));
    expectInside(few);
  });
});

describe("the routine in time", () => {
  const routine = (rates: readonly (number | undefined)[], limitSeconds?: number, counts = 10): Picture => {
    const rated = rates.flatMap((rate) => (rate === undefined ? [] : [rate]));
    return routinePicture(
      {
        ...{ athlete: "M.K.", limitSeconds, expectedDrops: expectedDrops(rated), cleanChance: cleanChance(rated) },
        steps: timeline(
          rates.map((_, index) => ({ trick: `T${String(index + 1)}`, counts })),
          200,
        ).map((entry, index): RoutineStep => ({ ...entry, rate: rates[index], hasCounts: true })),
      },
      WIDTH,
    );
  };

  test("each toss is as wide as it is long, and hatched as high as the share that is dropped", () => {
    const picture = routine([0.75, 0.5, 1]);
    expectInside(picture);
    const [first, second] = all(picture, "step");
    const [quarter, half] = all(picture, "risk");
    expect(all(picture, "risk")).toHaveLength(2);
    expect(number(quarter as Element, "height") / number(first as Element, "height")).toBeCloseTo(0.25, 2);
    expect(number(half as Element, "height") / number(second as Element, "height")).toBeCloseTo(0.5, 2);
    expect(number(second as Element, "x")).toBeCloseTo(
      number(first as Element, "x") + number(first as Element, "width"),
      0,
    );
    expect(quarter?.getAttribute("fill")).toMatch(/^url\(#/);
  });

  test("eight tosses at 90 % are a clean routine 43 % of the time (0.9^8 = 0.4305)", () => {
    const picture = routine(Array.from({ length: 8 }, () => 0.9));
    expect(picture.sentences.join(" ")).toContain(texts.routineClean("43\u00A0%", "0.8"));
  });

  test("what runs over the end of a line goes on in the next, at its full length", () => {
    // 40 counts at 200 a minute are 12 s; a line has 30 s at this width.
    const picture = routine([0.9, 0.9, 0.9, 0.9], undefined, 40);
    const boxes = all(picture, "step");
    expect(boxes).toHaveLength(5);
    const [whole, , before, after] = boxes.map((each) => number(each, "width"));
    expect((before ?? 0) + (after ?? 0)).toBeCloseTo(whole ?? 0, 0);
    expect(wordsIn(picture).filter((words) => words === "3")).toHaveLength(1);
  });

  test("the limit is told over and under, and what has no record is drawn apart", () => {
    expect(routine([0.9, 0.9], 5).sentences).toContain(texts.routineOver("1.0", "0:05"));
    const under = routine([0.9, undefined], 30);
    expectInside(under);
    expect(under.sentences).toContain(texts.routineUnder("24.0", "0:30"));
    expect(all(under, "step-none")).toHaveLength(1);
    expect(under.table.rows[1]).toEqual(["2", "T2", "0:03.0", "–", "–"]);
  });
});

describe("a toss and the ceiling", () => {
  const toss = (ceiling: number | undefined, travel = 0, airtimeSeconds = 2.2): Picture => {
    const question: TossQuestion = {
      ...{ counts: 6, airtimeSeconds, travel, releaseHeight: 1.5, catchHeight: 1.5, ceiling, unit: "m" },
    };
    const path = flightPath(question, 60);
    return tossPicture(
      {
        ...{ trick: "Double turn", question, plan: planToss(question), path, atCounts: flightPath(question, 6) },
        ...{ countsPerMinute: 163.6, clearance: 0.5 },
      },
      WIDTH,
    );
  };

  test("2.2 s rise 5.9 m above the hand (g T² / 8), drawn to one scale with the ceiling", () => {
    const picture = toss(9);
    expectInside(picture);
    expect(picture.sentences.join(" ")).toContain(texts.tossRise("5.9", "7.4", "m"));
    const floor = number(one(picture, "axis"), "y1");
    const ceiling = floor - number(one(picture, "ceiling-line"), "y1");
    const peak = floor - Math.min(...all(picture, "mark").map((mark) => number(mark, "cy")));
    expect(peak / ceiling).toBeCloseTo(7.43 / 9, 2);
    expect(all(picture, "mark")).toHaveLength(7);
  });

  test.each([
    [9, texts.tossFits.fits, false],
    [7.6, texts.tossFits.close, true],
    [7, texts.tossFits.hits, true],
    [undefined, texts.tossFits["ceiling not known"], true],
  ])("under a ceiling of %p it says: %s", (ceiling, words, isCaution) => {
    const picture = toss(ceiling);
    expectInside(picture);
    expect(picture.caution).toBe(isCaution ? words : null);
    expect(picture.sentences.includes(words)).toBe(!isCaution);
  });

  test("a toss that travels far is drawn as wide as it travels, and the lane is spoken of", () => {
    const picture = toss(6, 6, 1.4);
    expectInside(picture);
    expect(picture.caution).toBe(texts.tossFits["travels far"]);
    const marks = all(picture, "mark").map((mark) => number(mark, "cx"));
    expect(marks.at(-1)).toBeGreaterThan((marks[0] ?? 0) + 100);
  });
});

test("a figure is named, tells its facts once, and has all of them as a table", () => {
  const figure = figureOf(record({ caution: texts.bailCaution }), false);
  const svg = figure.querySelector("svg.twirl-drawing") as SVGElement;
  expect(svg.getAttribute("role")).toBe("img");
  expect(svg.getAttribute("aria-label")).toBe("A trick’s record: M.K., Double turn");
  const facts = figure.querySelector(`#${svg.getAttribute("aria-describedby") ?? ""}`);
  expect(facts?.textContent).toContain("Status: ");
  expect(figure.querySelector(".twirl-care")?.textContent).toBe(texts.bailCaution);
  expect(figure.querySelectorAll("tbody tr")).toHaveLength(3);
  expect([...figure.querySelectorAll("thead th")].every((heading) => heading.getAttribute("scope") === "col")).toBe(
    true,
  );
  for (const sample of figure.querySelectorAll(".twirl-key svg")) {
    expect(sample.getAttribute("aria-hidden")).toBe("true");
  }
});
