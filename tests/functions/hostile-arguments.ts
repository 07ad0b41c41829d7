/** Arguments for any cell function, kind and hostile, for the property tests and for `npm run fuzz`. */
import { readFileSync } from "node:fs";
import path from "node:path";
import fc from "fast-check";
import { BUILT, HostError } from "./built";

export interface Parameter {
  readonly name: string;
  readonly dimensionality?: string;
}
interface Metadata {
  readonly functions: readonly {
    readonly id: string;
    readonly parameters: readonly Parameter[];
    readonly result: { readonly dimensionality?: string };
  }[];
}
export const metadata = JSON.parse(readFileSync(path.join(BUILT, "functions.json"), "utf8")) as Metadata;

/** What a cell may hold, kind or hostile. */
const kindCell = fc.oneof(
  fc.constantFrom("c", "d", "b", "ccdcc ccccd", "8/10", "", 0, null, "x", 1, true, false),
  fc.constantFrom("M.K.", "Two spin", "Joined", "Wall", 46300, 46301.5, 0.8, 10, "m", "ft", "best", "wilson", "1/0"),
  fc.integer({ min: -3, max: 40 }),
  fc.double({ min: 0, max: 1, noNaN: true }),
);
/** Texts that look like marks, numbers or names and are none, and names that mean something to the language. */
const HOSTILE_TEXTS: readonly string[] = [
  ...["#N/A", "#REF!", "#SPILL!", "__proto__", "constructor", "toString", "hasOwnProperty", "valueOf", "prototype"],
  // Cyrillic, Greek and full-width letters, other digits and slashes.
  ...[
    "\u0441",
    "\u03f2",
    "\uff43",
    "\uff43\uff43\uff44",
    "\uff18/\uff11\uff10",
    "8\uff0f10",
    "8\u204410",
    "\u0668/\u0661\u0660",
  ],
  // Combining marks, invisible characters, turned writing, halves of a character.
  ...[
    "c\u0301",
    "c\u200bd",
    "\ufeffc",
    "\u202ecd",
    "\u2066c\u2069",
    "c\u00a0d",
    "\u2714\ufe0f",
    "\ud83d",
    "c\udc4d",
    "\u0130",
    "\u00df",
  ],
  ...["\0", "c\0d", "c\nd", "\r", "\t", "c\td", " ", "\u3000", "e\u0301".repeat(50), "\u0301".repeat(300)],
  ...[
    "=1+1",
    "+1",
    "-1",
    "@A1",
    '=HYPERLINK("x")',
    "<b>c</b>",
    "%s",
    "${c}",
    "\\",
    "'",
    '"',
    "c/d",
    "8//10",
    "/",
    "8/",
    "/10",
  ],
  ...[
    "10/8",
    "0/0",
    "999999999/999999999",
    "1000001/1000001",
    "1000000/1000000",
    "8 / 10",
    "1e3/1e4",
    "-8/10",
    "8.5/10",
  ],
  ...[
    "NaN",
    "Infinity",
    "undefined",
    "null",
    "true",
    "1e308",
    "0x10",
    "1,5",
    "1.5",
    "80%",
    "80 %",
    "1/0/b",
    "ok/o",
    "x/x",
  ],
  ...[
    "c".repeat(32_767),
    "cd ".repeat(10_000),
    "8" + " ".repeat(32_000) + "/10",
    "\ud83d\ude00".repeat(16_000),
    "x".repeat(16_000) + "/o",
  ],
  ...[
    "#".repeat(32_767),
    "\u0301".repeat(32_767),
    ",".repeat(32_767),
    "1".repeat(32_767),
    `${"a".repeat(16_383)}/${"b".repeat(16_383)}`,
  ],
];
const HOSTILE_NUMBERS: readonly number[] = [
  ...[
    NaN,
    Infinity,
    -Infinity,
    -0,
    1e308,
    -1e308,
    5e-324,
    1e-320,
    1e-15,
    -1e-9,
    Number.EPSILON,
    1 - 2 ** -53,
    1 + 2 ** -52,
  ],
  ...[2 ** 31, 2 ** 32, 2 ** 53, 2 ** 53 + 2, 1e15, 1e16, 1e21, 9_999_999, 10_000_000, 10_000_001, 100_000, 0.1 + 0.2],
  ...[2_958_465, 2_958_466, 1101, 36_526, 60, 1900, 0.5, 0.8, 0.999999999999, 100, 1000, 10_000],
];
/** What a spreadsheet program hands over beside plain values, and what only a mistake could. */
const HOSTILE_OBJECTS: readonly unknown[] = [
  {},
  [],
  { type: "Error", basicType: "Error", basicValue: "#DIV/0!", errorType: 2 },
  { code: "#N/A" },
  { code: "__proto__", message: "x" },
  new HostError("#N/A", "said before"),
  new Error("none of the host's"),
  { type: "FormattedNumber", basicType: "Double", basicValue: 0.8, numberFormat: "0%" },
  { type: "Double", basicType: "Double", basicValue: NaN },
  { type: "String", basicType: "String", basicValue: "c".repeat(32_767) },
  { type: "Boolean", basicType: "Boolean", basicValue: true },
  { type: "Empty", basicType: "Empty", basicValue: "" },
  { type: "Entity", text: "c", basicType: "Error", basicValue: "#VALUE!", properties: { c: { type: "String" } } },
  { type: "Array", elements: [[{ type: "Double", basicValue: 1 }]], basicType: "Error", basicValue: "#VALUE!" },
  { type: "WebImage", address: "pictures/c.png", basicType: "Error", basicValue: "#VALUE!" },
  { basicValue: { basicValue: 1 } },
  JSON.parse('{"__proto__":{"polluted":1},"constructor":{"prototype":{"polluted":1}},"basicValue":"c"}'),
  {
    get basicValue(): never {
      throw new Error("not to be read");
    },
  },
  { toString: () => "c", valueOf: () => 1 },
  Object.create(null),
  new Date(0),
  new Map([["c", 1]]),
  new Uint8Array(3),
  () => 1,
  Symbol.iterator,
  10n,
  undefined,
];
/** Put together from the signs that marks, tallies and keys are made of: near to what is accepted. */
const nearlyMarks = fc
  .array(fc.constantFrom(..."cdb01/✓✗xo, 8Cß\u0301".split(""), "10", "8/10", "ccdcc", "  "), {
    minLength: 1,
    maxLength: 9,
  })
  .map((signs) => signs.join(""));
const hostileCell: fc.Arbitrary<unknown> = fc.oneof(
  fc.double(),
  fc.integer(),
  fc.string(),
  fc.string({ unit: "grapheme" }),
  nearlyMarks,
  fc.constantFrom(...HOSTILE_TEXTS),
  fc.constantFrom(...HOSTILE_NUMBERS),
  fc.constantFrom(...HOSTILE_OBJECTS),
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
  since: fc.constantFrom(null, 46300, 46301.9, 46303),
  breakDays: fc.constantFrom(null, 1, 2, 7),
  daysOff: fc.constantFrom(
    null,
    [[46301, 46302]],
    [
      [46304, ""],
      [0, 0],
    ],
  ),
  practicesAWeek: fc.constantFrom(null, 0, 0.5, 3, 21),
  practiceMinutes: fc.constantFrom(0, 30, 60, 1440),
  practising: fc.constantFrom(
    null,
    [["M.K."], ["A.R."]],
    [
      ["A.R.", 45],
      ["m.k.", "away"],
      ["N.W.", 0],
    ],
  ),
  routine: fc.constantFrom(null, [["Flat"]], [["M.K.", "Flat"]]),
  contest: fc.constantFrom(46302, 46303, 46305.5, 46320, null),
  throwers: fc.constant([["M.K."], ["A.R."], ["m.k. "], [""]]),
  catchers: fc.constant([["A.R."], ["M.K."], ["R.S."], [0]]),
  ways: fc.constant([["Spin"], ["Walk"], ["spin "], [""]]),
  conditions: fc.constant([["left hand"], [""], ["outdoors; Left hand"], [0]]),
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
const shareNames = ["rate", "standard", "confidence", "rateNow", "rateOther", "rateA", "rateB", "power"];
for (const name of shareNames) Object.assign(ACCEPTED, { [name]: share });
const amount = fc.oneof(
  fc.constantFrom(0, 1, 1e-9, 9999),
  fc.double({ min: 0, max: 200, noNaN: true }),
  fc.integer({ min: 0, max: 20_000 }).map((hundredths) => hundredths / 100),
  fc.integer({ min: 1, max: 240 }),
);
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
  ways: fc.constantFrom([["Spin"], ["Walk"], ["spin "], [""]], [["Spin"], [0], ["Walk"], [""]]),
  conditions: fc.constantFrom(
    [["left hand"], [""], ["outdoors; Left hand"], [0]],
    [["tired"], ["tired"], [null], [""]],
  ),
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

/** All arguments of one call. */
export function argumentsFor(parameters: readonly Parameter[]): fc.Arbitrary<unknown[]> {
  const isLog = parameters.filter(({ dimensionality }) => dimensionality === "matrix").length > 1;
  return fc.tuple(...parameters.map((parameter) => argumentFor(parameter, isLog)));
}

export const SHEET_ROWS = 1_048_576;

/** What stands at the top of a whole column, by the argument's name. */
const TOPS: Readonly<Record<string, readonly unknown[]>> = {
  marks: ["ccd", "8/10", "dcb"],
  dates: [46300, 46301, 46303],
  athletes: ["M.K.", "A.R.", "m.k. "],
  tricks: ["Flat", "Two spin", "flat"],
  names: ["M.K.", "A.R.", "J.T."],
  throwers: ["M.K.", "A.R.", "m.k. "],
  catchers: ["A.R.", "M.K.", "R.S."],
  stages: ["Joined", "Wall", "In context"],
  ways: ["Spin", "Walk", "spin "],
  conditions: ["left hand", "", "outdoors; left hand"],
  // A record that grows, and is not all catches below.
  caught: [6, 2, 9],
  attempts: [10, 10, 10],
};
const NUMBERS_ON_TOP: readonly unknown[] = [0.25, 0.5, 0.75];
const COUNTS_ON_TOP: readonly unknown[] = [8, 9, 10];
const columns = new Map<string, unknown[][]>();
/** What stands below the top: nothing, as hosts say it, or the same as in the first row down to the last. */
type Filling = 0 | null | "" | "full";

/** A whole column; its rows are few and shared, as a million of their own would fill the memory. */
function wholeColumn(name: string, filling: Filling, last: unknown): unknown[][] {
  const tops = TOPS[name] ?? (["counts", "minutes"].includes(name) ? COUNTS_ON_TOP : NUMBERS_ON_TOP);
  const key = `${name} ${String(filling)} ${String(last)}`;
  let column = columns.get(key);
  if (!column) {
    const rows = tops.map((top) => [top]);
    const rest = [filling === "full" ? tops[0] : filling];
    column = Array.from({ length: SHEET_ROWS }, (_, row) => rows[row] ?? rest);
    if (last !== undefined) column[SHEET_ROWS - 1] = [last];
    columns.set(key, column);
  }
  return column;
}

/** Whole columns for every range, nearly empty or full, and now and then something in the last row of a sheet. */
export function wholeColumnsFor(parameters: readonly Parameter[]): fc.Arbitrary<unknown[]> {
  const common = fc.tuple(
    fc.constantFrom<Filling>(0, null, "", "full"),
    fc.constantFrom(undefined, undefined, undefined, "x"),
  );
  return common.chain(([filling, last]) =>
    fc.tuple(
      ...parameters.map((parameter, place) =>
        parameter.dimensionality === "matrix"
          ? fc.constant(wholeColumn(parameter.name, filling, place === 0 ? last : undefined))
          : argumentFor(parameter, false),
      ),
    ),
  );
}
