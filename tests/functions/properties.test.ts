import { readFileSync } from "node:fs";
import path from "node:path";
import fc from "fast-check";
import { BUILT, callCell, HostError } from "./built";

interface Parameter {
  readonly name: string;
  readonly dimensionality?: string;
}
interface Metadata {
  readonly functions: readonly {
    readonly id: string;
    readonly parameters: readonly Parameter[];
  }[];
}
const metadata = JSON.parse(readFileSync(path.join(BUILT, "functions.json"), "utf8")) as Metadata;

/** What a cell may hold, kind or hostile. */
const kindCell = fc.oneof(
  fc.constantFrom("c", "d", "b", "ccdcc ccccd", "8/10", "", 0, null, "x", 1, true, false),
  fc.constantFrom("M.K.", "Two spin", "Joined", "Wall", 46300, 46301.5, 0.8, 10, "m", "ft", "best", "wilson", "1/0"),
  fc.integer({ min: -3, max: 40 }),
  fc.double({ min: 0, max: 1, noNaN: true }),
);
const hostileCell = fc.oneof(
  fc.double(),
  fc.integer(),
  fc.string(),
  fc.string({ unit: "grapheme" }),
  fc.constantFrom(
    NaN,
    Infinity,
    -Infinity,
    -0,
    1e308,
    5e-324,
    2958466,
    1101,
    36526,
    undefined,
    "#N/A",
    "#REF!",
    "__proto__",
    "constructor",
    "c".repeat(32767),
  ),
  fc.constantFrom(
    {},
    [],
    { type: "Error", basicValue: "#DIV/0!" },
    { code: "#N/A" },
    { type: "Entity", basicValue: "c" },
    { basicValue: { basicValue: 1 } },
    Object.create(null),
    () => 1,
    Symbol.iterator,
    10n,
  ),
);
const cell: fc.Arbitrary<unknown> = fc.oneof({ weight: 4, arbitrary: kindCell }, { weight: 1, arbitrary: hostileCell });
const range: fc.Arbitrary<unknown> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc
      .tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 3 }))
      .chain(([rows, columns]) =>
        fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows }),
      ),
  },
  { weight: 1, arbitrary: fc.array(fc.array(cell, { maxLength: 3 }), { maxLength: 4 }) },
  { weight: 1, arbitrary: fc.array(cell, { maxLength: 3 }) },
  { weight: 1, arbitrary: cell },
);
const marks = fc.array(fc.tuple(fc.constantFrom("c", "d", "b", "ccdcc ccccd", "", 0, "8/10", true)), {
  minLength: 1,
  maxLength: 6,
});
/** Values that each argument accepts, so that calls also come through to an answer. */
const ACCEPTED: Readonly<Record<string, fc.Arbitrary<unknown>>> = {
  marks,
  dates: fc.constant([[46300], [46301.5], [46303], [0]]),
  athletes: fc.constant([["M.K."], ["A.R."], ["m.k. "], [""]]),
  tricks: fc.constant([["Flat"], ["Two spin"], ["flat"], [null]]),
  stages: fc.constantFrom(null, [["Joined"], ["Wall"], ["In context"], [""]]),
  key: fc.constantFrom(null, "", undefined, "c/d/b"),
  unit: fc.constantFrom(null, "m", "ft"),
  method: fc.constantFrom("wilson", "exact", "jeffreys", ""),
  which: fc.constantFrom("current", "best", "misses", null),
  asOf: fc.constantFrom(null, 46300, 46301.9),
  caught: fc.integer({ min: 0, max: 30 }),
  attempts: fc.integer({ min: 30, max: 2000 }),
  last: fc.constantFrom(null, 1, 5, 100),
  setSize: fc.constantFrom(null, 1, 5, 10, 1000),
  length: fc.integer({ min: 1, max: 30 }),
};
// Doubles come mostly as tiny numbers, so ordinary shares are mixed in.
const share = fc.oneof(
  fc.double({ min: 0, max: 1, noNaN: true }),
  fc.integer({ min: 0, max: 1000 }).map((thousandths) => thousandths / 1000),
);
const shareNames = ["rate", "standard", "confidence", "rateNow", "rateOther"];
for (const name of shareNames) Object.assign(ACCEPTED, { [name]: share });
const amount = fc.oneof(fc.constantFrom(0, 1, 1e-9, 9999), fc.double({ min: 0, max: 200, noNaN: true }));
const amountNames = [
  ...["rise", "dropBelow", "terminalSpeed", "airtime", "counts", "bodyCounts", "extraCounts", "countsPerMinute"],
  ...["seconds", "travel", "release", "catch", "ceiling", "clearance", "turns", "turnsPerSecond", "limitSeconds"],
  ...["valueNow", "valueOther", "dropCost", "falseAlarm", "framesPerSecond", "releaseFrame", "catchFrame"],
];
for (const name of amountNames) Object.assign(ACCEPTED, { [name]: amount });
Object.assign(ACCEPTED, {
  usual: fc.integer({ min: 500, max: 999 }).map((thousandths) => thousandths / 1000),
  slumped: fc.integer({ min: 1, max: 700 }).map((thousandths) => thousandths / 1000),
  athlete: fc.constantFrom("M.K.", "A.R.", " m.k. "),
  trick: fc.constantFrom("Flat", "Two spin", 360),
  rates: fc.array(fc.tuple(fc.oneof(share, fc.constantFrom(0, 1, null))), { minLength: 1, maxLength: 6 }),
  drops: fc.nat(6),
  budget: fc.nat(400),
  age: fc.integer({ min: 5, max: 40 }),
  caughtA: fc.nat(30),
  attemptsA: fc.integer({ min: 30, max: 2000 }),
  caughtB: fc.nat(30),
  attemptsB: fc.integer({ min: 30, max: 2000 }),
});
/** Columns for functions that read several beside each other: three filled rows and an empty one. */
const threeRows = (one: fc.Arbitrary<unknown>): fc.Arbitrary<unknown> =>
  fc.tuple(one, one, one).map((cells) => [...cells.map((cell) => [cell]), [0]]);
const COLUMNS: Readonly<Record<string, fc.Arbitrary<unknown>>> = {
  names: fc.constant([["M.K."], ["A.R."], ["m.k. "], [""]]),
  airtimes: threeRows(fc.double({ min: 0.5, max: 4, noNaN: true })),
  // A record that grows, so that a forecast has something to tell.
  caught: fc.oneof(threeRows(fc.nat(10)), fc.constant([[2], [5], [9], [0]])),
  attempts: threeRows(fc.integer({ min: 20, max: 24 })),
  weights: fc.oneof(fc.constant(null), threeRows(fc.double({ min: 0, max: 5, noNaN: true }))),
  minutes: threeRows(fc.integer({ min: 0, max: 300 })),
  sideways: threeRows(fc.double({ min: -5, max: 5, noNaN: true })),
  forward: threeRows(fc.double({ min: -5, max: 5, noNaN: true })),
  rates: threeRows(share),
  values: threeRows(fc.integer({ min: 0, max: 20 })),
  counts: threeRows(fc.integer({ min: 1, max: 20 })),
  stages: fc.constantFrom(null, [["Joined"], ["Wall"], ["In context"], [""]]),
};
/** Columns of one length, so that functions of aligned ranges come past that check. */
const alignedRange = fc.array(fc.tuple(cell), { minLength: 3, maxLength: 4 });

/** Marks beside the dates and names above: a row for each of theirs. */
const logMarks = fc.tuple(
  fc.constantFrom(["ccd"], ["8/10"]),
  fc.constantFrom(["c"], [false]),
  fc.constant(["dcb"]),
  fc.constant([0]),
);

/** For one argument: mostly what it accepts, else anything. */
function argumentFor({ name, dimensionality }: Parameter, isLog: boolean): fc.Arbitrary<unknown> {
  const inColumns = name === "marks" ? logMarks : COLUMNS[name];
  const accepted = isLog && dimensionality === "matrix" && inColumns ? inColumns : ACCEPTED[name];
  if (!accepted) throw new Error(`no accepted values are written down for ${name}`);
  const anything = dimensionality === "matrix" ? fc.oneof(range, alignedRange) : cell;
  return fc.oneof({ weight: 4, arbitrary: accepted }, { weight: 1, arbitrary: anything });
}

function isFine(value: unknown): boolean {
  return typeof value === "string" || (typeof value === "number" && Number.isFinite(value));
}

/** A finite number or a text, a full rectangle of these, or one of the two cell errors with a message. */
function isGoodAnswer(answer: unknown): boolean {
  if (answer instanceof HostError)
    return ["#VALUE!", "#N/A"].includes(answer.code) && answer.message.length > 10 && answer.message.length < 500;
  if (!Array.isArray(answer)) return isFine(answer);
  const width = (answer[0] as unknown[] | undefined)?.length ?? 0;
  return width > 0 && answer.every((row) => Array.isArray(row) && row.length === width && row.every(isFine));
}

describe("no argument whatever gives NaN, Infinity, null in a spill, or another exception", () => {
  test.each(metadata.functions)("$id", ({ id, parameters }) => {
    let answered = 0;
    const isLog = parameters.filter(({ dimensionality }) => dimensionality === "matrix").length > 1;
    const args = parameters.map((parameter) => argumentFor(parameter, isLog));
    fc.assert(
      fc.property(fc.tuple(...args), (given) => {
        const answer = callCell(id, ...given);
        if (!(answer instanceof HostError)) answered++;
        expect({ answer, good: isGoodAnswer(answer) }).toMatchObject({ good: true });
        expect(callCell(id, ...given)).toEqual(answer);
      }),
      { numRuns: 3000 },
    );
    // The property would prove little if every call were refused.
    expect(answered).toBeGreaterThan(100);
  });

  test("fewer and more arguments than declared", () => {
    for (const { id } of metadata.functions) {
      for (const count of [0, 1, 2, 20])
        expect({ id, good: isGoodAnswer(callCell(id, ...Array(count).fill([["c"]]))) }).toEqual({ id, good: true });
    }
  });
});

test("a well-filled log always gives a board", () => {
  const row = fc.tuple(
    fc.integer({ min: 40000, max: 50000 }),
    fc.constantFrom("M.K.", "A.R.", "É.B."),
    fc.constantFrom("Two spin", "Flat"),
    fc.constantFrom("ccd", "8/10", "ccccc ccccc", "bb"),
  );
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 40 }), (rows) => {
      const column = (place: number) => rows.map((cells) => [cells[place]]);
      const board = callCell("BOARD", column(0), column(1), column(2), column(3)) as unknown[][];
      expect(isGoodAnswer(board)).toBe(true);
      expect(board.length - 1).toBe(new Set(rows.map(([, athlete, trick]) => `${athlete} ${trick}`)).size);
      const attempts = rows.reduce(
        (sum, [, , , marks]) => sum + ({ ccd: 3, "8/10": 10, "ccccc ccccc": 10, bb: 2 }[marks] ?? NaN),
        0,
      );
      expect(board.slice(1).reduce((sum, cells) => sum + Number(cells[2]), 0)).toBe(attempts);
    }),
  );
});
