import { readFileSync, readdirSync } from "node:fs";
import path from "node:path";
import { runInNewContext } from "node:vm";
import { gzipSync } from "node:zlib";
import { readFunctionDocs } from "../../src/tools/function-docs";
import { BUILT, callCell, HostError } from "./built";

interface Parameter {
  readonly name: string;
  readonly description?: string;
  readonly optional?: boolean;
  readonly dimensionality?: string;
}
interface Metadata {
  readonly allowErrorForDataTypeAny?: boolean;
  readonly functions: readonly {
    readonly id: string;
    readonly name: string;
    readonly description?: string;
    readonly helpUrl?: string;
    readonly parameters: readonly Parameter[];
    readonly result: { readonly dimensionality?: string };
  }[];
}

const script = readFileSync(path.join(BUILT, "functions.js"), "utf8");
const metadata = JSON.parse(readFileSync(path.join(BUILT, "functions.json"), "utf8")) as Metadata;
const ids = metadata.functions.map(({ id }) => id).sort();

/**
 * The contract's functions and their arguments, [optional] ones in brackets. Ids and the order of arguments never
 * change: workbooks hold them.
 */
const CONTRACT = `
CATCHRATE(marks, [last], [key])
CATCHINTERVAL(caught, attempts, [confidence], [method])
CHANCEABOVE(caught, attempts, [standard])
READINESS(marks, [standard], [setSize], [key])
READINESSCARD(marks, [standard], [setSize], [key], [dates])
STREAK(marks, [which], [key])
STREAKCHANCE(rate, length, attempts)
STREAKATTEMPTS(rate, length)
BOARD(dates, athletes, tricks, marks, [standard], [setSize], [stages], [asOf], [key])
AIRTIME(rise, [dropBelow], [unit], [terminalSpeed])
TOSSHEIGHT(airtime, [dropBelow], [unit], [terminalSpeed])
TOSSSPEED(airtime, [dropBelow], [unit], [terminalSpeed])
COUNTTIME(counts, countsPerMinute)
TIMECOUNTS(seconds, countsPerMinute)
TOSSPLAN(bodyCounts, countsPerMinute, [extraCounts], [travel], [release], [catch], [ceiling], [unit])
TALLYREADINESS(caught, attempts, [standard], [setSize])
PROOFATTEMPTS(rate, [standard], [confidence])
SLUMP(marks, [usual], [slumped], [falseAlarm], [key])
COMPARE(caughtA, attemptsA, caughtB, attemptsB, [confidence])
READYDATE(dates, caught, attempts, [standard], [confidence])
TRICKHISTORY(dates, athletes, tricks, marks, athlete, trick, [standard], [key], [stages])
CATCHBARS(marks, [setSize], [key], [dates])
TALLYBOARD(dates, athletes, tricks, caught, attempts, [standard], [setSize], [stages], [asOf])
STAGEBOARD(tricks, stages, marks, [key], [athletes])
LOGCHECK(dates, athletes, tricks, marks, [stages], [key])
CHANGEDAY(dates, marks, [key])
WAYS(ways, marks, [dates], [key])
CONDITIONS(conditions, athletes, tricks, marks, [key])
FIRSTTRIES(dates, marks, [breakDays], [key], [tricks])
TELLAPART(rateA, rateB, [power], [confidence])
PROGRESSION(dates, stages, marks, [standard], [setSize], [since], [key])
CEILINGCOUNTS(ceiling, countsPerMinute, [release], [clearance], [unit])
FILMTIME(releaseFrame, catchFrame, framesPerSecond)
BATONTURNS(airtime, turnsPerSecond)
TURNRATE(turns, airtime)
PLACEMENT(sideways, forward, [unit])
LINESPREAD(names, airtimes, countsPerMinute)
CLEANCHANCE(rates)
DROPCHANCE(rates, drops)
DROPSPREAD(rates)
EXPECTEDDROPS(rates)
ROUTINESCORE(rates, values, dropCost)
WEAKLINK(tricks, rates, [values], [dropCost])
KEEPORSWAP(rateNow, valueNow, rateOther, valueOther, dropCost)
TIMELINE(tricks, counts, countsPerMinute, [limitSeconds])
PRACTICEPLAN(tricks, caught, attempts, budget, [standard], [setSize], [weights])
CLUBPLAN(dates, athletes, tricks, marks, minutes, practiceMinutes, [practising], [standard], [setSize], [stages], [routine], [key])
TRAININGLOAD(dates, minutes, age, [asOf])
CONTESTCHANCE(dates, caught, attempts, contest, [standard], [confidence], [setSize])
COUNTDOWN(dates, athletes, tricks, marks, contest, [standard], [setSize], [stages], [asOf], [key], [daysOff], [practicesAWeek])
PAIRBOARD(throwers, catchers, marks, [key])
`
  .trim()
  .split("\n");

test("the metadata holds the contract's functions and arguments, in their order", () => {
  const written = metadata.functions.map(
    ({ id, parameters }) =>
      `${id}(${parameters.map(({ name, optional }) => (optional ? `[${name}]` : name)).join(", ")})`,
  );
  expect(written.sort()).toEqual([...CONTRACT].sort());
});

test("ids in functions.json = ids associated in a bare realm = @customfunction tags in the source", () => {
  const associated: string[] = [];
  const realm: Record<string, unknown> = {
    CustomFunctions: {
      associate: (id: string, body: unknown) => {
        expect(typeof body).toBe("function");
        associated.push(id);
      },
      Error: HostError,
      ErrorCode: { invalidValue: "#VALUE!", notAvailable: "#N/A" },
    },
  };
  const before = Object.keys(realm);
  runInNewContext(script, realm);
  // Nothing is left behind but what the pane on the same page takes from here.
  expect(Object.keys(realm)).toEqual([...before, "twirlLedgerTails"]);
  expect(associated.sort()).toEqual(ids);

  const folder = path.resolve(__dirname, "../../src/functions");
  const tags = readdirSync(folder)
    .filter((file) => file.endsWith(".ts"))
    .flatMap((file) => [...readFileSync(path.join(folder, file), "utf8").matchAll(/@customfunction (\w+)/g)])
    .map(([, id]) => id);
  expect(tags.sort()).toEqual(ids);
});

test("ids are single upper-case words, named as their ids, each met once", () => {
  for (const { id, name } of metadata.functions) {
    expect(id).toMatch(/^[A-Z]{3,}$/);
    expect(name).toBe(id);
  }
  expect(new Set(ids).size).toBe(ids.length);
});

test("every function and parameter is described, and every function has a help address on the help page", () => {
  const help = readFileSync(path.join(BUILT, "help.html"), "utf8");
  for (const { id, description, helpUrl, parameters } of metadata.functions) {
    expect(description).toMatch(/^[A-Z][^\n]*\.$/);
    expect(helpUrl).toBe(`https://localhost:3000/help.html#${id}`);
    expect(help).toContain(`<section id="${id}"`);
    for (const parameter of parameters)
      expect({ id, ...parameter, ok: /^["A-Z].*\.$/.test(parameter.description ?? "") }).toMatchObject({ ok: true });
  }
});

test("errors in ranges reach the functions", () => {
  expect(metadata.allowErrorForDataTypeAny).toBe(true);
});

test("functions.js stays within its budget: 280 kB, 80 kB gzipped", () => {
  expect(script.length).toBeLessThanOrEqual(280_000);
  expect(gzipSync(script).length).toBeLessThanOrEqual(80_000);
});

test("functions.js asks for no network, page, clock or chance", () => {
  for (const name of [
    "fetch(",
    "XMLHttpRequest",
    "WebSocket",
    "document.",
    "localStorage",
    "Math.random",
    "Date.now",
    "new Date",
    "setTimeout",
    "importScripts",
  ]) {
    expect({ name, found: script.includes(name) }).toEqual({ name, found: false });
  }
});

test("the pane's list has each function once", () => {
  const docs = readFunctionDocs();
  expect(docs.map(({ id }) => id).sort()).toEqual(ids);
});

test("a wrong cell in any range is named by the sheet's own cell where the host tells it", () => {
  /** Cells that each range's function takes in its first row. */
  const kind: Readonly<Record<string, unknown>> = {
    ...{ marks: "c", dates: 46300, athletes: "M.K.", tricks: "Flat", stages: "Joined", names: "M.K." },
    ...{ caught: 1, attempts: 2, rates: 0.8, values: 1, counts: 4, airtimes: 2, minutes: 30, weights: 1 },
    ...{ sideways: 0.1, forward: 0.1, athlete: "M.K.", trick: "Flat", countsPerMinute: 180, drops: 1, dropCost: 0.5 },
    ...{ budget: 20, age: 12, contest: 46310, throwers: "M.K.", catchers: "A.K." },
    ...{ practiceMinutes: 30, practising: "M.K.", routine: "Flat" },
  };
  const WITHOUT_WORDS = new Set(["TRICKHISTORY", "FIRSTTRIES", "PROGRESSION"]);
  const error = new HostError("#REF!");
  const ranges = metadata.functions.flatMap(({ id, parameters }) =>
    parameters.flatMap((parameter, index) =>
      parameter.dimensionality === "matrix" ? [{ id, parameters, index }] : [],
    ),
  );
  expect(ranges.length).toBeGreaterThan(50);
  for (const { id, parameters, index } of ranges) {
    const args = parameters.map(({ name, optional, dimensionality }, at) => {
      const cell = kind[name];
      if (dimensionality === "matrix") return at === index ? [[cell], [error]] : optional ? null : [[cell], [cell]];
      // What belongs to an optional range is given with it: values and dropCost.
      return optional && parameters[index]?.optional !== true ? null : (cell ?? null);
    });
    const parameterAddresses = parameters.map((_, at) => `Sheet${at}!C7:C8`);
    const answer = callCell(id, ...args, { parameterAddresses });
    const said = answer instanceof HostError ? answer.message : JSON.stringify(answer);
    const isHistory = WITHOUT_WORDS.has(id) || (id === "CATCHBARS" && index > 0);
    // These have no place for words: LOGCHECK tells their rows.
    const names = said.includes(isHistory ? "Sheet" : `Sheet${index}!C8`);
    expect({ id, index, said, names }).toEqual({ id, index, said, names: !isHistory });
  }
});
