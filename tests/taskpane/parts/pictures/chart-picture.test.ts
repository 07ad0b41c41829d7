/** @jest-environment jsdom */
import { type ChartPicture, drawChart } from "../../../../src/taskpane/parts/pictures/chart-picture";
import { seriesLooks } from "../../../../src/workbook/plan/looks";

const rates: ChartPicture = {
  title: "Share caught, day by day",
  description: "M.K., Double spin.",
  across: { title: "Practice day", scale: "day" },
  up: { title: "Share caught", scale: "percent", least: 0, most: 1 },
  sameScales: false,
  nothingYet: "Nothing to show yet",
  series: [
    {
      name: "Rate",
      drawing: seriesLooks.rate,
      // 4 January 2027 and two and four weeks later.
      points: [
        { across: 46_391, up: 0.5 },
        { across: 46_405, up: 0.75 },
        { across: 46_419, up: 1 },
      ],
    },
    { name: "Frame", drawing: seriesLooks.frame, points: [{ across: 46_391, up: 0 }] },
  ],
};

const landings: ChartPicture = {
  title: "Where the tosses land",
  description: "",
  across: { title: "Right", scale: "number" },
  up: { title: "Forward", scale: "number" },
  sameScales: true,
  nothingYet: "Nothing to show yet",
  series: [
    {
      name: "Circle",
      drawing: seriesLooks.innerCircle,
      points: [...Array(37).keys()].map((point) => ({
        across: Math.cos((point * Math.PI) / 18),
        up: Math.sin((point * Math.PI) / 18),
      })),
    },
    { name: "Target", drawing: seriesLooks.target, points: [{ across: 0, up: 0 }] },
    { name: "Marks", drawing: seriesLooks.landings, points: [{ across: 2, up: 0 }, { across: 0, up: -0.5 }] }, // prettier-ignore
  ],
};

const all = (svg: Element, selector: string): Element[] => [...svg.querySelectorAll(selector)];
const words = (svg: Element): string[] => all(svg, "text").map((one) => one.textContent);
const number = (element: Element | undefined, name: string): number => Number(element?.getAttribute(name));

/** The corners of the first polyline. */
function corners(svg: Element): { x: number; y: number }[] {
  const points = svg.querySelector("polyline")?.getAttribute("points") ?? "";
  return points.split(" ").map((pair) => {
    const [x = NaN, y = NaN] = pair.split(",").map(Number);
    return { x, y };
  });
}

test("days say their year where it begins, and only over a new year", () => {
  const over = (first: number, last: number): ChartPicture => ({
    ...rates,
    series: rates.series.map((one) => ({ ...one, points: [{ across: first, up: 0.5 }, { across: last, up: 0.5 }] })), // prettier-ignore
  });
  const years = (picture: ChartPicture): string[] =>
    words(drawChart(picture, { width: 480, height: 320 })).flatMap((one) => /^\d+ \w+ (\d{4})$/.exec(one)?.[1] ?? []);
  // 1 November 2026 to 1 April 2027, and January to April 2027.
  expect(years(over(46_327, 46_478))).toEqual(["2026", "2027"]);
  expect(years(over(46_391, 46_478))).toEqual([]);
});

test("equal steps of days are equal steps across, and higher is up", () => {
  const [first, second, third] = corners(drawChart(rates, { width: 480, height: 320 }));
  if (!first || !second || !third) throw new Error("no line");
  expect(second.x - first.x).toBeCloseTo(third.x - second.x, 0);
  expect(first.y - second.y).toBeCloseTo(second.y - third.y, 0);
  expect(third.y).toBeLessThan(second.y);
});

test("the axis of shares goes from 0 to 100 %, whatever the rates; days are told with the month as a word", () => {
  const said = words(drawChart(rates, { width: 480, height: 320 }));
  expect(said).toEqual(expect.arrayContaining(["0%", "100%", "Practice day", "Share caught"]));
  expect(said.filter((one) => /^\d{1,2} (Jan|Feb)$/.test(one)).length).toBeGreaterThanOrEqual(2);
});

test("a series that is not named is neither drawn nor in the key", () => {
  const svg = drawChart(rates, { width: 480, height: 320 });
  expect(words(svg)).toContain("Rate");
  expect(words(svg)).not.toContain("Frame");
  expect(all(svg, "[data-series]").map((one) => one.getAttribute("data-series"))).toEqual(["Rate"]);
  expect(all(svg, '[data-series="Rate"] circle')).toHaveLength(3);
});

test.each([
  { width: 402, height: 550 },
  { width: 600, height: 300 },
])("with the same scales a circle is round at $width by $height", (size) => {
  const svg = drawChart(landings, size);
  const xs = corners(svg).map(({ x }) => x);
  const ys = corners(svg).map(({ y }) => y);
  const wide = Math.max(...xs) - Math.min(...xs);
  const tall = Math.max(...ys) - Math.min(...ys);
  expect(wide).toBeGreaterThan(20);
  expect(Math.abs(wide - tall)).toBeLessThanOrEqual(0.4);
  // A mark two radii to the right of the middle lies twice as far from it as the circle.
  const [far] = all(svg, '[data-series="Marks"] circle');
  expect(number(far, "cx") - (Math.max(...xs) + Math.min(...xs)) / 2).toBeCloseTo(wide, 0);
});

test("everything lies within the picture", () => {
  for (const size of [
    { width: 320, height: 260 },
    { width: 640, height: 400 },
  ]) {
    // prettier-ignore
    for (const picture of [rates, landings]) {
      const svg = drawChart(picture, size);
      for (const mark of all(svg, "[data-series] circle")) {
        expect(number(mark, "cx")).toBeGreaterThan(0);
        expect(number(mark, "cx")).toBeLessThan(size.width);
        expect(number(mark, "cy")).toBeGreaterThan(0);
        expect(number(mark, "cy")).toBeLessThan(size.height);
      }
      for (const text of all(svg, "text[x]")) expect(number(text, "x")).toBeLessThan(size.width);
    }
  }
});

test("it is a picture with a text in its place", () => {
  const svg = drawChart(rates, { width: 480, height: 320 });
  expect(svg.getAttribute("role")).toBe("img");
  expect(svg.getAttribute("aria-label")).toBe("Share caught, day by day. M.K., Double spin.");
});

test("with no points it says so, and with one point it stands", () => {
  const empty = { ...rates, series: [{ ...rates.series[0], points: [] }] } as ChartPicture;
  expect(words(drawChart(empty, { width: 480, height: 320 }))).toContain("Nothing to show yet");
  const one = {
    ...rates,
    series: [{ name: "Rate", drawing: seriesLooks.rate, points: [{ across: 46_391, up: 0.5 }] }],
  };
  const svg = drawChart(one, { width: 480, height: 320 });
  const [mark] = all(svg, '[data-series="Rate"] circle');
  expect(Number.isFinite(number(mark, "cx")) && Number.isFinite(number(mark, "cy"))).toBe(true);
});

test("a name that reads as markup is text", () => {
  const svg = drawChart({ ...rates, title: "<img src=x onerror=alert(1)>" }, { width: 300, height: 200 });
  expect(svg.querySelector("img")).toBeNull();
  expect(words(svg)).toContain("<img src=x onerror=alert(1)>");
});
