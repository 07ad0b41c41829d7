/**
 * What a club's own rules allow in a routine, and what of it the routine holds now. No rules are shipped: each federation,
 * age group and level has its own, and they change.
 */
import { empty, number, put, rowsOrEmpty, text } from "../plan/cell-plans";
import { call, column, operation, product, thisRow, type Formula } from "../plan/formula";
import type { CellPlan, Content, TableColumn, TablePlan } from "../plan/schema";
import { tableNames } from "./names";
import type { LimitEntry } from "./records";
import { setting } from "./season-sheet";
import { TRICK_HEADING } from "./tricks-sheet";

/** The headings, for the formulas that read them. */
export const LIMITS = { on: "Limit on", named: "Named", most: "At most", now: "In the routine", says: "Says" } as const;

const ON = { tosses: "Tosses", seconds: "Seconds", named: "Tricks named" } as const satisfies Record<
  string,
  LimitEntry["on"]
>;

const MOST = 10_000;
const NOTES = [
  "What your federation, level and hall allow: type it here; none is shipped, and the rules themselves come first.",
  "Named: a part of the tricks' names, such as quad. At most 0: it may not be shown.",
] as const;

/** The routine's columns that are counted: what is danced now, and its counts. */
interface Counted {
  readonly danced: Formula;
  readonly counts: Formula;
}

export function limitCells(atColumn: number): readonly CellPlan[] {
  return [
    put(1, atColumn, text("Limits of your rules"), { look: "title" }),
    ...NOTES.map((words, index) => put(2 + index, atColumn, text(words), { look: "note" })),
  ];
}

/** Says over the routine how many limits are passed; nothing while none is. */
export function limitsPassed(label: string): Formula {
  const { limits } = tableNames(label);
  const [now, most] = [column(limits, LIMITS.now), column(limits, LIMITS.most)];
  const over = call("SUMPRODUCT", product(call("ISNUMBER", now), call("ISNUMBER", most), operation(now, ">", most)));
  const words = operation(over, "&", call("IF", operation(over, "=", 1), " limit is passed", " limits are passed"));
  return call("IF", operation(over, "=", 0), "", operation(words, "&", ": see Limits of your rules, far right."));
}

export function limitsTable(
  label: string,
  at: { readonly row: number; readonly column: number },
  counted: Counted,
  limits: readonly LimitEntry[],
): TablePlan {
  const columns = limitColumns(label, counted);
  return {
    name: tableNames(label).limits,
    at,
    columns,
    rows: rowsOrEmpty(columns, limits.map(limitRow)),
  };
}

function limitRow({ on, named, most }: LimitEntry): readonly Content[] {
  return [text(on), named === "" ? empty : text(named), number(most), empty, empty];
}

function limitColumns(label: string, { danced, counts }: Counted): readonly TableColumn[] {
  const names = tableNames(label);
  const here = (heading: string): Formula => thisRow(names.limits, heading);
  const isToss = call("ISNUMBER", call("MATCH", danced, column(names.tricks, TRICK_HEADING), 0));
  const tosses = call("SUMPRODUCT", product(isToss, 1));
  const seconds = operation(operation(call("SUM", counts), "*", 60), "/", setting(label, "countsPerMinute"));
  const named = call("SUMPRODUCT", product(call("ISNUMBER", call("SEARCH", here(LIMITS.named), danced)), 1));
  const is = (on: LimitEntry["on"]): Formula => operation(here(LIMITS.on), "=", on);
  const now = call(
    "IF",
    is(ON.tosses),
    tosses,
    call(
      "IF",
      is(ON.seconds),
      seconds,
      call(
        "IF",
        call("OR", operation(here(LIMITS.on), "<>", ON.named), operation(here(LIMITS.named), "=", "")),
        "",
        named,
      ),
    ),
  );
  const over = operation(here(LIMITS.now), "-", here(LIMITS.most));
  const isCounted = operation(call("ISNUMBER", here(LIMITS.most)), "*", call("ISNUMBER", here(LIMITS.now)));
  const says = call(
    "IF",
    operation(isCounted, "=", 0),
    "",
    call("IF", operation(over, ">", 0), operation(call("ROUND", over, 1), "&", " over"), "Within"),
  );
  return [
    {
      heading: LIMITS.on,
      format: "text",
      validation: {
        allowed: { kind: "list", source: { kind: "words", words: Object.values(ON) }, strict: true },
        errorMessage: `Choose one of: ${Object.values(ON).join(", ")}.`,
      },
    },
    {
      heading: LIMITS.named,
      format: "text",
      validation: {
        allowed: { kind: "none" },
        inputTitle: "Named",
        inputMessage: `Only with ${ON.named}: a part of the names, such as quad.`,
      },
    },
    {
      heading: LIMITS.most,
      format: "number",
      validation: {
        allowed: { kind: "number", least: 0, most: MOST, whole: false },
        errorMessage: `Type how many at most, from 0 to ${String(MOST)}.`,
      },
    },
    { heading: LIMITS.now, format: "oneDecimal", formula: now },
    { heading: LIMITS.says, format: "general", formula: says },
  ];
}
