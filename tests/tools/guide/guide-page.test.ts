/**
 * @jest-environment jsdom
 */
/**
 * The guide, read as a coach reads it: the blocks are typed into a sheet, each formula is worked out by the functions as
 * built for the host, and every number on the page must be one of them.
 */
import { readFileSync } from "node:fs";
import path from "node:path";
import { cellFunctions } from "../../../src/tools/guide/cell-functions";
import { makeGuidePage } from "../../../src/tools/guide/guide-page";
import { READY_CHANCE } from "../../../src/core/readiness";
import { type Functions, Sheet } from "../../../src/tools/guide/sheet";
import { loadBuilt } from "../../functions/built";

const html = makeGuidePage();
const page = new DOMParser().parseFromString(html, "text/html");
const built = Object.fromEntries(loadBuilt()) as Functions;

const valueOf = (cell: Element): string | number => {
  const held = cell.querySelector("data");
  return held ? Number(held.getAttribute("value")) : (cell.textContent ?? "");
};

/** What the coach types. */
const sheet = new Sheet(built);
for (const cell of page.querySelectorAll("[data-cell]")) sheet.put(cell.getAttribute("data-cell") ?? "", valueOf(cell));

const cells = [...page.querySelectorAll(".cell")].map((cell) => ({
  formula: cell.querySelector("code")?.textContent ?? "",
  shown: [...cell.querySelectorAll("tr")].map((row) => [...row.querySelectorAll("td")].map(valueOf)),
}));

test("the page that the build wrote is this one", () => {
  expect(readFileSync(path.resolve(__dirname, "../../../dist/guide.html"), "utf8")).toBe(html);
});

test.each(cells)("$formula shows what the built function answers", ({ formula, shown }) => {
  const answer = sheet.answer(formula);
  const rows = Array.isArray(answer) ? answer : [[answer]];
  expect(shown).toEqual(rows);
});

test("a number is shown as its value rounds", () => {
  for (const held of page.querySelectorAll("data")) {
    const value = Number(held.getAttribute("value"));
    const text = (held.textContent ?? "").replace("\u00a0", " ");
    if (/^\d+ [A-Z][a-z]{2}$/.test(text)) {
      // A day: 46300 is Monday 5 October 2026 in the 1900 system (ECMA-376, part 1, 18.17.4.1).
      const day = new Date(Date.UTC(2026, 9, 5) + (value - 46300) * 86_400_000);
      expect(text).toBe(day.toLocaleDateString("en-GB", { day: "numeric", month: "short", timeZone: "UTC" }));
      continue;
    }
    const percent = text.endsWith(" %");
    const number = Number(text.replace(" %", ""));
    const digits = text.split(".")[1]?.length ?? 0;
    const scaled = percent ? 100 * value : value;
    expect(Math.abs(number - scaled)).toBeLessThanOrEqual(0.5 * 10 ** -digits + 1e-9);
  }
});

test("no number stands in the text that is not given in a block, in a formula, or answered by one", () => {
  const known = [
    ...cells.flatMap(({ shown }) => shown.flat()),
    ...[...page.querySelectorAll("[data-cell]")].map(valueOf),
    ...cells.flatMap(({ formula }) => formula.match(/\d+(\.\d+)?/g) ?? []).map(Number),
    // The standard that the functions take where none is given, and the chance that the rule asks for.
    0.8,
    READY_CHANCE,
  ];
  for (const held of page.querySelectorAll("p data")) expect(known).toContain(Number(held.getAttribute("value")));
  const words = page.querySelector("main")?.cloneNode(true) as Element;
  for (const accounted of words.querySelectorAll("data, code, [data-cell], tbody th, thead th, .answer"))
    accounted.remove();
  expect(words.textContent).not.toMatch(/\d/);
});

/** From outside the project; R 4.2.2 where nothing else is said. */
test.each([
  { source: "g·1.5²/8, g = 9.80665 (ISO 80000-3)", formula: "TOSSPLAN", row: "Rise", expected: 2.7581203125 },
  { source: "g·1.5/2", formula: "TOSSPLAN", row: "Release speed", expected: 7.3549875 },
  {
    source: "atan(0.5 / 1.5 / (g·1.5/2)) in degrees",
    formula: "TOSSPLAN",
    row: "Lean from vertical",
    expected: 2.59491036489,
  },
  { source: "(157 − 112) / 30", formula: "FILMTIME", row: 0, column: 0, expected: 1.5 },
  { source: "1 / (√6 · 30)", formula: "FILMTIME", row: 0, column: 1, expected: 0.0136082763488 },
  { source: "sd of the second column", formula: "PLACEMENT", row: "Spread forward", expected: 0.130930734142 },
  {
    source: "prop.test(8, 10, correct = FALSE)",
    formula: "CATCHINTERVAL",
    row: 0,
    column: 0,
    expected: 0.490162471537,
  },
  {
    source: "prop.test(8, 10, correct = FALSE)",
    formula: "CATCHINTERVAL",
    row: 0,
    column: 1,
    expected: 0.943317848546,
  },
  // The six joined sets mark by mark, each weighing 2^(-age/30): w the caught weight, v the missed.
  { source: "w / (w + v)", formula: "READINESSCARD", row: "Recent rate", expected: 0.878635137606 },
  { source: "qbeta(0.025, w + 1/2, v + 1/2)", formula: "READINESSCARD", row: "Low", expected: 0.736477034417 },
  { source: "qbeta(0.975, w + 1/2, v + 1/2)", formula: "READINESSCARD", row: "High", expected: 0.95770664975 },
  { source: "1 - pbeta(0.8, w + 1/2, v + 1/2)", formula: "READINESSCARD", row: "Chance", expected: 0.87366559599 },
  { source: "0.93 · 0.97 · 0.9 · 0.95", formula: "CLEANCHANCE(K2:K5)", row: 0, column: 0, expected: 0.7712955 },
  { source: "the same · 0.85", formula: "CLEANCHANCE(K2:K6)", row: 0, column: 0, expected: 0.655601175 },
  { source: "0.85 · 1.7 − 0.15 · 0.5", formula: "KEEPORSWAP", row: "Points other", expected: 1.37 },
  {
    source: "(265 counts at 200 a minute) 79.5 s of 90",
    formula: "TIMELINE",
    row: "Total",
    column: 3,
    expected: "0:10.5 under the limit",
  },
])("$formula $row: $source", ({ formula, row, column = 1, expected }) => {
  const cell = cells.find((one) => one.formula.startsWith(`=TWIRL.${formula}`));
  const found = typeof row === "number" ? cell?.shown[row] : cell?.shown.find(([label]) => label === row);
  if (typeof expected === "number") expect(found?.[column]).toBeCloseTo(expected, 10);
  else expect(found?.[column]).toBe(expected);
});

test("a page whose words no longer fit the answers is not made", () => {
  const never: Functions = { ...cellFunctions, READINESS: () => "Solid" };
  expect(() => makeGuidePage(never)).toThrow("The guide is written for Building, and the answer is Solid.");
});
