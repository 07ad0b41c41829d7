/**
 * Which of the columns that were found could as well be others. What is told by its heading and its values is taken; what
 * is told by values alone, or has a rival, is shown and has to be called right by the coach.
 */
import { numberIn, valueAt, type CellBlock } from "./cell-block";
import { shareOf } from "./column-profile";
import type { Finding, FoundRole } from "./findings";
import { attemptNumber, headingScore } from "./heading-words";
import { repeatsHeadings } from "./heading-rows";
import { columnOf, recordColumns, type LogMapping, type NameSource, type RecordColumns } from "./mapping";
import { isNameOver, type NamesOver } from "./names-over";
import type { LookedAtColumn } from "./record-columns";
import { comparable } from "../text";
import type { UnusedColumn } from "./unused-columns";

interface Looked {
  readonly block: CellBlock;
  readonly columns: readonly LookedAtColumn[];
  readonly findings: Partial<Readonly<Record<FoundRole, Finding>>>;
  readonly mapping: LogMapping;
  readonly headingRows: readonly number[];
  readonly namesOver: NamesOver | null;
  readonly unused: readonly UnusedColumn[];
}

export function unsureRoles(looked: Looked): readonly FoundRole[] {
  const { findings } = looked;
  const said = (role: FoundRole): boolean => findings[role]?.why === "corrected";
  const roles: FoundRole[] = [];
  if (!said("date") && isDateUnsure(looked)) roles.push("date");
  const names = areNamesUnsure(looked);
  if (names && !said("athlete") && columnOf(looked.mapping.athlete) !== null) roles.push("athlete");
  else if (isOneForBlocks(looked, looked.mapping.athlete)) roles.push("athlete");
  if (names && !said("trick") && columnOf(looked.mapping.trick) !== null) roles.push("trick");
  else if (isOneForBlocks(looked, looked.mapping.trick)) roles.push("trick");
  if (!said("record") && isRecordUnsure(looked)) roles.push("record");
  return roles;
}

const lookedAt = ({ columns }: Looked, column: number | null): LookedAtColumn | undefined =>
  columns.find(({ profile }) => profile.column === column);

/** The columns that are found beside the attempts. */
const columnsBeside = ({ date, athlete, trick, stage }: LogMapping): ReadonlySet<number | null> =>
  new Set([date, columnOf(athlete), columnOf(trick), stage]);

/** Another column of days that its heading does not tell from this one: born, joined. */
function isDateUnsure(looked: Looked): boolean {
  const { date } = looked.mapping;
  if (date === null) return false;
  if (isOnTheOtherSide(looked, date) || endsEarly(looked, date)) return true;
  if (!isNamed(looked, "date", date) && isOneDayEach(looked, date)) return true;
  // Days in a column that is read as marks, whatever stands below them, are no marks.
  const marks = looked.mapping.turned === null ? recordColumns(looked.mapping.record) : [];
  const days = looked.columns.filter(
    ({ profile }) =>
      (shareOf(profile.days + profile.dayTexts, profile.filled) >= 0.5 && profile.filled >= 3) ||
      (marks.includes(profile.column) && profile.days >= 3),
  );
  // A tally that became a day stands among the attempts: where no heading tells the days from it, it may be either.
  const used = new Set([date, ...(isNamed(looked, "date", date) ? recordColumns(looked.mapping.record) : [])]);
  return days.some(({ profile }) => !used.has(profile.column));
}

/** Whether the heading over a column says the role. */
function isNamed(looked: Looked, role: FoundRole & ("date" | "athlete" | "trick"), column: number): boolean {
  return headingScore(lookedAt(looked, column)?.heading ?? "", role) >= 0.35;
}

/** The attempts between the days and both names: then the days may be those of a list beside the log. */
function isOnTheOtherSide({ mapping }: Looked, date: number): boolean {
  const record = recordColumns(mapping.record);
  const names = [columnOf(mapping.athlete), columnOf(mapping.trick)].filter((column) => column !== null);
  const [first, last] = [Math.min(...record), Math.max(...record)];
  if (record.length === 0 || names.length === 0) return false;
  return (date > last && names.every((name) => name < first)) || (date < first && names.every((name) => name > last));
}

/** No day in the lower half of the log: a short list beside its first rows looks so. */
function endsEarly({ block, mapping }: Looked, date: number): boolean {
  let last = mapping.firstRow;
  for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
    if (valueAt(block, row, date) !== null) last = row;
  }
  return 2 * (last - mapping.firstRow) < mapping.lastRow - mapping.firstRow;
}

const LEAST_ROWS_EACH = 2;

/** The same day in all rows of each athlete, as a day of birth is. */
function isOneDayEach({ block, mapping, namesOver }: Looked, date: number): boolean {
  const athlete = columnOf(mapping.athlete);
  let over = "";
  const days = new Map<string, { readonly day: unknown; rows: number }>();
  const isOnce = athlete !== null && (mapping.filledDown.includes("athlete") || isMostlyEmpty(block, mapping, athlete));
  for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
    const day = valueAt(block, row, date);
    if (athlete === null && namesOver !== null && isNameOver(block, mapping, row, namesOver.column)) {
      over = String(valueAt(block, row, namesOver.column));
    }
    const own = athlete === null ? null : valueAt(block, row, athlete);
    if (own !== null) over = comparable(String(own));
    // A name that is forgotten does not say whose the row is.
    if (typeof day !== "number" || (athlete !== null && own === null && !isOnce)) continue;
    const name = over;
    const known = days.get(name) ?? { day, rows: 0 };
    if (known.day !== day) return false;
    known.rows += 1;
    days.set(name, known);
  }
  return [...days.values()].some(({ rows }) => rows >= LEAST_ROWS_EACH);
}

/** A name that stands once over its rows, whether or not the pane fills it down by then. */
function isMostlyEmpty(block: CellBlock, { firstRow, lastRow }: LogMapping, column: number): boolean {
  let empty = 0;
  for (let row = firstRow; row <= lastRow; row += 1) if (valueAt(block, row, column) === null) empty += 1;
  return 2 * empty > lastRow - firstRow + 1;
}

/** Names found by what stands in them, where that does not tell a trick from an athlete plainly. */
function areNamesUnsure(looked: Looked): boolean {
  const { mapping, findings } = looked;
  const athlete = lookedAt(looked, columnOf(mapping.athlete));
  const trick = lookedAt(looked, columnOf(mapping.trick));
  if (hasRival(looked, "athlete", athlete) || hasRival(looked, "trick", trick)) return true;
  // Headings that say nothing over the attempts are those of another list.
  const record = recordColumns(mapping.record).flatMap((column) => lookedAt(looked, column) ?? []);
  const headed = record.length === 0 || record.some(({ heading }) => heading !== "");
  const byHeading = (role: "athlete" | "trick"): boolean => headed && findings[role]?.why !== "values";
  const isTold = (role: "athlete" | "trick", column: LookedAtColumn | undefined): boolean =>
    column === undefined || (byHeading(role) && headingScore(column.heading, role) >= 0.35);
  if (isTold("athlete", athlete) && isTold("trick", trick)) return false;
  // Without a heading that says so, a column of coaches or halls looks like one of athletes.
  if (!isTold("athlete", athlete)) return true;
  const share = (column: LookedAtColumn | undefined, part: "tricks"): number =>
    column === undefined ? 1 : shareOf(column.profile[part], column.profile.texts);
  return !isTold("trick", trick) && share(trick, "tricks") < 0.5;
}

/** Another column whose heading says the same as well: a first name and a family name. */
function hasRival(looked: Looked, role: "athlete" | "trick", chosen: LookedAtColumn | undefined): boolean {
  if (chosen === undefined) return false;
  const { mapping } = looked;
  const used = columnsBeside(mapping);
  return looked.columns.some(
    ({ heading, profile }) =>
      !used.has(profile.column) &&
      !recordColumns(mapping.record).includes(profile.column) &&
      profile.texts - profile.dayTexts >= profile.filled / 2 &&
      profile.filled > 0 &&
      headingScore(heading, role) >= 0.6,
  );
}

/** One name for all rows, over a log that stands there in blocks. */
function isOneForBlocks({ block, mapping, headingRows, namesOver }: Looked, source: NameSource | null): boolean {
  if (source === null || !("name" in source)) return false;
  const others = [mapping.athlete, mapping.trick].some((one) => one !== null && "over" in one);
  if (others) return false;
  if (namesOver !== null) return true;
  for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
    if (repeatsHeadings(block, row, headingRows)) return true;
  }
  return false;
}

/* ---- the attempts ---- */

const PARTS = ["caught", "attempts", "dropped"] as const;
/** A heading that means something else than the attempts of the row. */
const leastOther = 0.35;

function isRecordUnsure(looked: Looked): boolean {
  const { mapping, unused } = looked;
  const { record } = mapping;
  if (record === null) return false;
  if (unused.some(({ column, holds }) => holds === "attempts" && isOfAttempts(looked, column))) return true;
  if (record.kind === "marks") {
    return (
      hasLikeBeside(looked, record) ||
      mayBeCaught(looked, record) ||
      (record.first < record.last && isOfSeveralKinds(looked, record))
    );
  }
  if (looked.findings.record?.why === "values") return true;
  if (recordColumns(record).some((column) => isRunningTotal(looked, column))) return true;
  return unused.some(({ column }) => isRivalNumber(looked, record, column));
}

/** A second column of sets or marks, and not one of yes and no under a heading of its own. */
function isOfAttempts(looked: Looked, column: number): boolean {
  const found = lookedAt(looked, column);
  if (found === undefined || headingScore(found.heading, "other") >= leastOther) return false;
  const { profile } = found;
  return shareOf(profile.runs + profile.likeMarks, profile.filled) >= 0.5 || found.heading === "" || shareOf(profile.singles + profile.signs, profile.filled) >= 0.5; // prettier-ignore
}

/**
 * Columns side by side without numbers over them that do not hold the same: runs beside single marks, or words that no
 * other one holds, such as a legend.
 */
function isOfSeveralKinds(looked: Looked, record: RecordColumns): boolean {
  const columns = recordColumns(record).flatMap((column) => lookedAt(looked, column) ?? []);
  // Numbers beside the ones and noughts: how many of a set were caught, perhaps.
  if (columns.reduce((sum, { profile }) => sum + profile.counts - profile.bits, 0) >= MANY_COUNTS) return true;
  if (columns.every(({ heading }) => attemptNumber(heading) !== null)) return false;
  const filled = columns.filter(({ profile }) => profile.filled > 0);
  if (goesOn(looked, record, columns)) return true;
  if (isAlwaysOne(looked, record)) return true;
  const runs = filled.filter(({ profile }) => shareOf(profile.runs + profile.likeMarks, profile.filled) >= 0.5);
  if (runs.length > 0 && runs.length < filled.length) return true;
  return filled.some((one) => {
    const own = [...one.profile.distinct.keys()];
    const others = filled.filter((other) => other !== one && other.profile.distinct.size > 0);
    return own.length > 0 && others.length > 0 && own.every((text) => others.every(({ profile }) => !profile.distinct.has(text))); // prettier-ignore
  });
}

const MANY_COUNTS = 2;

/** Whether the column before or behind, which nothing else uses, holds one of the signs too: the last attempt of few sets. */
function goesOn(looked: Looked, record: RecordColumns, columns: readonly LookedAtColumn[]): boolean {
  const { mapping } = looked;
  const own = recordColumns(record);
  const used = columnsBeside(mapping);
  const signs = new Set(columns.flatMap(({ profile }) => [...profile.distinct.keys()].filter(({ length }) => length <= LONGEST_SIGN))); // prettier-ignore
  return [Math.min(...own) - 1, Math.max(...own) + 1].some((column) => {
    const beside = used.has(column) ? undefined : lookedAt(looked, column);
    return beside !== undefined && [...beside.profile.distinct.keys()].some((text) => signs.has(text));
  });
}

const LONGEST_SIGN = 3;

/** A first column of nothing but ones beside others that vary: the number of a week, perhaps. */
function isAlwaysOne({ block, mapping }: Looked, record: RecordColumns): boolean {
  const [first, ...others] = recordColumns(record);
  const valuesIn = (column: number): ReadonlySet<unknown> => {
    const values = new Set<unknown>();
    for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) values.add(valueAt(block, row, column));
    values.delete(null);
    return values;
  };
  if (first === undefined) return false;
  const own = valuesIn(first);
  return own.size === 1 && own.has(1) && others.some((column) => valuesIn(column).size > 1);
}

/** Beside columns of ones and zeros another of them: they may be the attempts of a set. */
function hasLikeBeside(looked: Looked, { first, last }: { readonly first: number; readonly last: number }): boolean {
  const isOfBits = (one: number): boolean => {
    const found = lookedAt(looked, one);
    return found !== undefined && found.profile.filled > 0 && shareOf(found.profile.bits, found.profile.filled) >= 0.5;
  };
  return looked.unused.some(({ column }) => (column === first - 1 && isOfBits(first) && isOfBits(column)) || (column === last + 1 && isOfBits(last) && isOfBits(column))); // prettier-ignore
}

/** One column of ones and noughts with numbers beside it that are never less: how many were caught, and of how many. */
function mayBeCaught(
  { block, mapping, columns }: Looked,
  record: { readonly first: number; readonly last: number },
): boolean {
  if (record.first !== record.last) return false;
  const used = columnsBeside(mapping);
  const count = (row: number, column: number): number | null => {
    const found = numberIn(valueAt(block, row, column));
    return found !== null && Number.isInteger(found) && found >= 0 && found <= LARGEST_SET ? found : null;
  };
  return [record.first - 1, record.first + 1].some((column) => {
    const beside = used.has(column) ? undefined : columns.find(({ profile }) => profile.column === column);
    if (beside === undefined || headingScore(beside.heading, "other") >= leastOther) return false;
    let rows = 0;
    for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
      if (valueAt(block, row, record.first) === null) continue;
      const [caught, tried] = [count(row, record.first), count(row, column)];
      if (caught === null || tried === null || caught > 1 || tried < caught) return false;
      rows += 1;
    }
    return rows > 0;
  });
}

const LARGEST_SET = 50;

/** A number under a heading of attempts that the record does not read and that does not follow from it. */
function isRivalNumber(looked: Looked, record: RecordColumns & { readonly kind: "tally" }, column: number): boolean {
  const heading = lookedAt(looked, column)?.heading ?? "";
  if (PARTS.every((part) => headingScore(heading, part) < 0.35)) return false;
  const { block, mapping } = looked;
  let [rows, follows] = [0, 0];
  for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
    const value = numberIn(valueAt(block, row, column));
    const parts = partsOf(block, row, record);
    if (value === null || parts === null) continue;
    rows += 1;
    if (parts.includes(value)) follows += 1;
  }
  return rows > 0 && follows < 0.9 * rows;
}

/** Caught, dropped and attempts of a row; null where they are no numbers. */
function partsOf(
  block: CellBlock,
  row: number,
  record: RecordColumns & { readonly kind: "tally" },
): readonly number[] | null {
  const number = (column: number): number | null => numberIn(valueAt(block, row, column));
  if ("caught" in record && "attempts" in record) {
    const [caught, attempts] = [number(record.caught), number(record.attempts)];
    return caught === null || attempts === null ? null : [attempts - caught];
  }
  const bailed = record.bailed === undefined ? 0 : (number(record.bailed) ?? 0);
  const dropped = number(record.dropped);
  if ("caught" in record) {
    const caught = number(record.caught);
    return caught === null || dropped === null ? null : [caught + dropped + bailed];
  }
  const attempts = number(record.attempts);
  return attempts === null || dropped === null ? null : [attempts - dropped - bailed];
}

/** Fewer steps say nothing. */
const LEAST_STEPS = 4;

/** Whether a column only ever rises, from row to row of one athlete and trick, or from the top to the foot. */
function isRunningTotal({ block, mapping }: Looked, column: number): boolean {
  const last = new Map<string, number>();
  let [steps, rises] = [0, 0];
  let [allSteps, allRises] = [0, 0];
  let before: number | null = null;
  for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
    const value = numberIn(valueAt(block, row, column));
    if (value === null) continue;
    const names = [columnOf(mapping.athlete), columnOf(mapping.trick)].map((one) =>
      one === null ? "" : comparable(String(valueAt(block, row, one))),
    );
    const key = JSON.stringify(names);
    const known = last.get(key);
    if (known !== undefined) {
      steps += 1;
      if (value > known) rises += 1;
    }
    last.set(key, value);
    if (before !== null) {
      allSteps += 1;
      if (value > before) allRises += 1;
    }
    before = value;
  }
  const rising = (of: number, ups: number): boolean => of >= LEAST_STEPS && ups >= 0.9 * of;
  return rising(steps, rises) || rising(allSteps, allRises);
}
