/**
 * Finds the layout of a club's own log: where its headings and rows are, and which column is the date, the athlete, the
 * trick, the stage and the attempts. Told from the headings and from what the cells hold; whatever is found can be
 * corrected, and the rest is then found anew around the correction.
 */
import { isError, isNumeral, lastColumnOf, valueAt, type CellBlock } from "./cell-block";
import { profileColumn, shareOf, type ColumnProfile } from "./column-profile";
import { dateTextsOf, saysDay, type DateTexts, type DateTextForm } from "./date-text";
import type { Finding, FoundRole } from "./findings";
import { headingMatches, headingScore, saysBirth } from "./heading-words";
import { findLogRows, headingOver, logRowsBelow, repeatsHeadings, type LogRows } from "./heading-rows";
import {
  columnOf,
  recordColumns,
  type FilledDownRole,
  type LogMapping,
  type NameSource,
  type RecordColumns,
  type TallyReading,
  type TurnedOrder,
} from "./mapping";
import { findMarkWriting } from "./mark-writing";
import { findNamesOver, type NamesOver } from "./names-over";
import { bailsColumn, marksShare, recordCandidates, type LookedAtColumn } from "./record-columns";
import { findSums, type FoundSums } from "./sum-rows";
import { comparable } from "../text";
import { findTallyReading, type TallyFinding } from "./tally-reading";
import { unsureRoles } from "./unsure-roles";
import { unusedColumns, type UnusedColumn } from "./unused-columns";

interface FoundColumn {
  readonly column: number;
  /** As it stands over the column, both rows of a heading of two; empty where there is none. */
  readonly heading: string;
}

export interface LogLayout extends LogRows {
  readonly mapping: LogMapping;
  /** Nothing for a role that was not found. */
  readonly findings: Partial<Readonly<Record<FoundRole, Finding>>>;
  /** The block's columns that hold anything. */
  readonly columns: readonly FoundColumn[];
  /** Days that stand as text in the date column. */
  readonly dateTexts: DateTexts;
  /** The columns with gaps that the cells above could fill: those of the mapping, and others that the coach may add. */
  readonly filledDownOffered: readonly FilledDownRole[];
  /** What the tallies can say; null where there are none. */
  readonly tallies: TallyFinding | null;
  /** Names that stand alone over blocks of rows; null where there are none. */
  readonly namesOver: NamesOver | null;
  /** Rows that say that they add others up, whether they are left out or not. */
  readonly sums: FoundSums | null;
  /** Columns of numbers or attempts that no board of this mapping reads. */
  readonly unused: readonly UnusedColumn[];
  /** The roles whose columns another reader could choose otherwise: the coach has to say that they are right. */
  readonly unsure: readonly FoundRole[];
}

/** What the coach says of the layout. What is not named is found; null says that there is no such column. */
export interface Corrections {
  /** The row of the headings; 0 for none. */
  readonly headingRow?: number;
  readonly date?: number | null;
  readonly dateText?: DateTextForm | null;
  readonly athlete?: NameSource | null;
  readonly trick?: NameSource | null;
  readonly stage?: number | null;
  readonly record?: RecordColumns | null;
  readonly key?: string | null;
  readonly filledDown?: readonly FilledDownRole[];
  readonly blank?: "caught" | "dropped" | null;
  readonly tally?: TallyReading;
  readonly turned?: TurnedOrder | null;
  /** The texts of rows of sums that are left out. */
  readonly sums?: readonly string[];
  /** The columns that the coach has called right: see `chosenColumns`. */
  readonly confirmed?: string;
}

export function findLayout(block: CellBlock, corrections: Corrections = {}): LogLayout {
  const found = corrections.headingRow === undefined ? findLogRows(block) : logRowsBelow(block, corrections.headingRow);
  const rows = sampleRows(found.firstRow, found.lastRow, (row) => !repeatsHeadings(block, row, found.headingRows));
  const all = lookAtColumns(block, found, rows);
  const filled = all.filter(({ profile, heading }) => profile.filled > 0 || heading !== "");

  const corrected = correctedColumns(corrections);
  const free = filled.filter(({ profile }) => !corrected.has(profile.column));
  const record = chooseRecord(block, free, rows, corrections);
  const inRecord = new Set(recordColumns(record?.columns ?? null));
  const others = free.filter(({ profile }) => !inRecord.has(profile.column));
  const chosen = chooseRoles(others, corrections);

  const findings: Partial<Record<FoundRole, Finding>> = { ...chosen.findings };
  if (record) findings.record = record.finding;
  const date = saidOr(corrections.date, chosen.date);
  const dateTexts = textDays(block, found, date);
  const rowsAndRecord = { ...found, date, record: record?.columns ?? null };
  const namesOver = findNamesOver(block, rowsAndRecord, found.headingRows);
  const headingOf = (column: number): string => all.find((one) => one.profile.column === column)?.heading ?? "";
  const writing = findMarkWriting(block, rowsAndRecord);
  const tallies = findTallyReading(block, { ...rowsAndRecord, writing }, headingOf);
  const areOver = [corrections.athlete, corrections.trick].some((source) => source && "over" in source);
  const plain: LogMapping = {
    // Names over blocks may begin above the headings.
    firstRow: Math.min(
      firstWithAttempts(block, found, record?.columns ?? null),
      areOver && namesOver ? namesOver.firstRow : Infinity,
    ),
    lastRow: found.lastRow,
    date,
    dateText: saidOr(corrections.dateText, usualForm(dateTexts, found)),
    athlete: saidOr(corrections.athlete, chosen.athlete),
    trick: saidOr(corrections.trick, chosen.trick),
    stage: saidOr(corrections.stage, chosen.stage),
    record: record?.columns ?? null,
    key: corrections.key ?? null,
    filledDown: [],
    blank: corrections.blank ?? null,
    tally: corrections.tally ?? usualReading(tallies),
    turned: corrections.turned ?? null,
    sums: null,
    numberTexts: hasNumberTexts(block, rowsAndRecord),
    writing,
    endsAt: found.endsAt,
  };
  const { offered, filledDown } = filledDownRoles(block, plain, corrections);
  const sums = findSums(block, plain);
  const mapping: LogMapping = { ...plain, filledDown, sums: sumsLeftOut(sums, corrections) };
  const unused = unusedColumns(filled, mapping);
  return {
    ...found,
    mapping,
    filledDownOffered: offered,
    findings,
    columns: filled.map(({ profile, heading }) => ({ column: profile.column, heading })),
    dateTexts,
    tallies,
    namesOver,
    sums,
    unused,
    unsure:
      corrections.confirmed === chosenColumns(mapping)
        ? []
        : unsureRoles({ block, columns: filled, findings, mapping, headingRows: found.headingRows, namesOver, unused }),
  };
}

/** Rows above the first one that was found that hold attempts too, up to the headings: nothing is left out unseen. */
function firstWithAttempts(block: CellBlock, { headingRows, firstRow }: LogRows, record: RecordColumns | null): number {
  let first = firstRow;
  for (let row = firstRow - 1; row >= block.row && !headingRows.includes(row); row -= 1) {
    if (recordColumns(record).some((column) => valueAt(block, row, column) !== null)) first = row;
  }
  return first;
}

/** Whether a tally's columns hold a number as a text. */
function hasNumberTexts(
  block: CellBlock,
  { firstRow, lastRow, record }: Pick<LogMapping, "firstRow" | "lastRow" | "record">,
): boolean {
  if (record?.kind !== "tally") return false;
  const columns = recordColumns(record);
  for (let row = firstRow; row <= lastRow; row += 1) {
    if (columns.some((column) => isNumeral(valueAt(block, row, column)))) return true;
  }
  return false;
}

/** What the coach has said, null included, else what was found. */
function saidOr<Value>(said: Value | undefined, found: Value): Value {
  return said === undefined ? found : said;
}

function usualReading(tallies: TallyFinding | null): TallyReading {
  return (tallies?.sure === true ? tallies.readings[0] : undefined) ?? "caught/attempts";
}

function sumsLeftOut(sums: ReturnType<typeof findSums>, said: Corrections): LogMapping["sums"] {
  const texts = said.sums ?? sums?.rows.texts ?? [];
  return sums !== null && texts.length > 0 ? { ...sums.rows, texts } : null;
}

/** The columns whose gaps may be filled from above, and those in which they are. */
function filledDownRoles(
  block: CellBlock,
  mapping: LogMapping,
  { filledDown }: Corrections,
): { readonly offered: readonly FilledDownRole[]; readonly filledDown: readonly FilledDownRole[] } {
  const gaps = rolesWithGaps(block, mapping);
  const offered = gaps.map(({ role }) => role);
  const columns = gaps.map(({ column }) => column);
  const usual = gaps
    .filter(
      ({ share, starts, runs }) =>
        starts && share >= LEAST_GAPS_SHARE && (runs >= LEAST_GAP_RUNS || mapping.blank === null),
    )
    .filter(({ column }) => !isWrittenAnew(block, mapping, column, columns))
    .map(({ role }) => role);
  return { offered, filledDown: filledDown?.filter((role) => offered.includes(role)) ?? usual };
}

/** A mapping's columns in one word: what the coach has called right holds for these and no others. */
export function chosenColumns({ date, athlete, trick, record }: LogMapping): string {
  return JSON.stringify([date, athlete, trick, record]);
}

/* ---- looking ---- */

const MOST_SAMPLED = 1500;

/** All rows of a short log; of a long one as many, spread evenly, since each cell is looked at in several ways. */
function sampleRows(first: number, last: number, counts: (row: number) => boolean): readonly number[] {
  const length = last - first + 1;
  const step = Math.max(1, length / MOST_SAMPLED);
  const rows: number[] = [];
  for (let at = 0; at < length; at += step) {
    const row = first + Math.floor(at);
    if (counts(row)) rows.push(row);
  }
  return rows;
}

function lookAtColumns(block: CellBlock, found: LogRows, rows: readonly number[]): readonly LookedAtColumn[] {
  const columns: LookedAtColumn[] = [];
  for (let column = block.column; column <= lastColumnOf(block); column += 1) {
    columns.push({
      profile: profileColumn(block, column, rows),
      heading: headingOver(block, found.headingRows, column),
    });
  }
  return columns;
}

function correctedColumns({ date, athlete, trick, stage, record }: Corrections): ReadonlySet<number> {
  const columns = [date, columnOf(athlete ?? null), columnOf(trick ?? null), stage, ...recordColumns(record ?? null)];
  return new Set(columns.filter((column) => typeof column === "number"));
}

/* ---- the attempts ---- */

function chooseRecord(
  block: CellBlock,
  columns: readonly LookedAtColumn[],
  rows: readonly number[],
  { record }: Corrections,
): { readonly columns: RecordColumns; readonly finding: Finding } | null {
  if (record === null) return null;
  if (record) return { columns: record, finding: { confidence: 1, why: "corrected" } };
  const [best] = recordCandidates(block, columns, rows);
  if (!best) return null;
  return {
    columns: withBails(best.record, columns),
    finding: { confidence: best.score, why: reasonOf(best.byHeading, best.byValues) },
  };
}

function withBails(record: RecordColumns, columns: readonly LookedAtColumn[]): RecordColumns {
  if (record.kind === "marks" || !("dropped" in record)) return record;
  const bailed = bailsColumn(columns);
  return bailed === null || recordColumns(record).includes(bailed) ? record : { ...record, bailed };
}

function reasonOf(byHeading: boolean, byValues: boolean): Finding["why"] {
  if (byHeading && byValues) return "both";
  return byHeading ? "heading" : "values";
}

/* ---- when, who, what ---- */

type SingleRole = "date" | "athlete" | "trick" | "stage";
const SINGLE_ROLES: readonly SingleRole[] = ["date", "athlete", "trick", "stage"];

interface Scored {
  readonly column: number;
  readonly score: number;
  readonly byHeading: boolean;
  readonly byValues: boolean;
}

/** Below this a column is rather left to the coach. A stage has to be told by its heading or its own words. */
const LEAST_SCORE: Readonly<Record<SingleRole, number>> = { date: 0.3, athlete: 0.15, trick: 0.15, stage: 0.25 };
const MOST_CANDIDATES = 5;

function chooseRoles(
  columns: readonly LookedAtColumn[],
  corrections: Corrections,
): {
  readonly date: number | null;
  readonly athlete: NameSource | null;
  readonly trick: NameSource | null;
  readonly stage: number | null;
  readonly findings: Partial<Record<FoundRole, Finding>>;
} {
  const candidates = SINGLE_ROLES.map((role): readonly Scored[] => {
    if (corrections[role] !== undefined) return [];
    return columns
      .map((column, index) => scoreColumn(role, column, index / Math.max(1, columns.length)))
      .filter(({ score }) => score >= LEAST_SCORE[role])
      .sort((one, other) => other.score - one.score)
      .slice(0, MOST_CANDIDATES);
  });
  const best = bestAssignment(candidates, 0, new Set());
  const findings: Partial<Record<FoundRole, Finding>> = {};
  const columnFor = (role: SingleRole): number | null => {
    if (corrections[role] !== undefined) {
      if (corrections[role] !== null) findings[role] = { confidence: 1, why: "corrected" };
      return null;
    }
    const chosen = best.chosen[SINGLE_ROLES.indexOf(role)];
    if (!chosen) return null;
    findings[role] = { confidence: Math.min(1, chosen.score), why: reasonOf(chosen.byHeading, chosen.byValues) };
    return chosen.column;
  };
  const named = (column: number | null): NameSource | null => (column === null ? null : { column });
  return {
    date: columnFor("date"),
    athlete: named(columnFor("athlete")),
    trick: named(columnFor("trick")),
    stage: columnFor("stage"),
    findings,
  };
}

interface Assignment {
  readonly total: number;
  readonly chosen: readonly (Scored | null)[];
}

/** The roles' columns, each taken once, with the largest sum of scores. */
function bestAssignment(
  candidates: readonly (readonly Scored[])[],
  role: number,
  taken: ReadonlySet<number>,
): Assignment {
  const own = candidates[role];
  if (!own) return { total: 0, chosen: [] };
  let best: Assignment | null = null;
  for (const candidate of [...own, null]) {
    if (candidate && taken.has(candidate.column)) continue;
    const rest = bestAssignment(candidates, role + 1, candidate ? new Set([...taken, candidate.column]) : taken);
    const total = rest.total + (candidate?.score ?? 0);
    if (best === null || total > best.total) best = { total, chosen: [candidate, ...rest.chosen] };
  }
  return best ?? { total: 0, chosen: [] };
}

/** @param position 0 for the first column to 1 for the last: logs begin with when and who */
function scoreColumn(role: SingleRole, { profile, heading }: LookedAtColumn, position: number): Scored {
  const says = headingScore(heading, role);
  const rival = Math.max(
    0,
    ...headingMatches(heading)
      .filter((match) => match.role !== role)
      .map(({ score }) => score),
  );
  // Attempts are never a name; single letters may be initials, where the heading says so.
  const marks = role !== "date" && (shareOf(profile.runs + profile.likeMarks, profile.filled) >= 0.5 || (says < 0.35 && marksShare({ profile, heading }) >= 0.5)); // prettier-ignore
  const values = marks || isOfOther(role, heading, says) ? 0 : valueScore(role, profile);
  // A heading that says something else better speaks against, unless the cells speak for themselves.
  const against = rival > says ? (rival - says) * (role === "date" ? 0.2 : 0.5) : 0;
  const early = (1 - position) * EARLY[role];
  const score = values <= 0 ? 0 : 0.5 * says + 0.5 * values + early - against;
  return { column: profile.column, score, byHeading: says >= 0.35, byValues: values >= 0.5 };
}

/** A heading that says plainly that its column is something else: the coach, the hall, the day of birth. */
function isOfOther(role: SingleRole, heading: string, says: number): boolean {
  if (role === "date") return saysBirth(heading);
  const other = headingScore(heading, "other");
  return other >= 0.8 && other >= says;
}

const EARLY: Readonly<Record<SingleRole, number>> = { date: 0.05, athlete: 0.06, trick: 0.03, stage: 0 };

function valueScore(role: SingleRole, profile: ColumnProfile): number {
  const { filled, texts, distinct } = profile;
  if (filled === 0) return 0;
  const share = (part: number): number => shareOf(part, filled);
  const repeats = texts === 0 ? 0 : 1 - distinct.size / texts;
  switch (role) {
    case "date": {
      const days = share(profile.days + profile.dayTexts);
      return days < LEAST_DAYS_SHARE ? 0 : days;
    }
    case "athlete": {
      const wordy = share(texts - profile.dayTexts - profile.long);
      if (wordy < 0.5) return 0;
      return (
        wordy * (0.25 + 0.35 * repeats + 0.3 * share(profile.names)) - 0.4 * share(profile.tricks + profile.stages)
      );
    }
    case "trick": {
      const wordy = share(texts + profile.counts * 0.5 - profile.dayTexts - profile.long);
      if (wordy < 0.4) return 0;
      return wordy * (0.25 + 0.3 * repeats + 0.35 * share(profile.tricks)) - 0.3 * share(profile.stages);
    }
    case "stage": {
      const wordy = share(texts - profile.dayTexts - profile.long);
      if (wordy < 0.5 || distinct.size > MOST_STAGES) return 0;
      // Without a heading only the stages' own words tell it from any other column of few words.
      return wordy * (0.1 + 0.1 * repeats + 0.8 * share(profile.stages));
    }
    default:
      return unknownRole(role);
  }
}

const MOST_STAGES = 12;
/** Fewer days among other things are another list's. */
const LEAST_DAYS_SHARE = 0.3;

function unknownRole(role: never): never {
  throw new TypeError(`Unknown role: ${String(role)}`);
}

/* ---- days as text, and cells filled once for several rows ---- */

function textDays(block: CellBlock, { firstRow, lastRow }: LogRows, date: number | null): DateTexts {
  const texts: string[] = [];
  if (date !== null) {
    for (let row = firstRow; row <= lastRow; row += 1) {
      const value = valueAt(block, row, date);
      if (typeof value === "string" && saysDay(value)) texts.push(value);
    }
  }
  return dateTextsOf(texts);
}

/** A few days as text among real ones are better typed again than read by a longer formula. */
const LEAST_TEXT_SHARE = 0.05;

function usualForm({ forms, count }: DateTexts, { firstRow, lastRow }: LogRows): DateTextForm | null {
  const [form] = forms;
  const many = count >= LEAST_TEXT_SHARE * (lastRow - firstRow + 1);
  return forms.length === 1 && form && many ? form : null;
}

/** A gap or two is a cell that was forgotten. */
const LEAST_GAPS = 3;
const LEAST_GAPS_SHARE = 0.4;
/** Where rows without a mark count, gaps at the foot alone are what stands below the log. */
const LEAST_GAP_RUNS = 2;

/**
 * Whether a cell says the same as the one that is filled above it, where nothing else begins anew: nobody who writes a
 * name once for several rows writes it again among them, so the gaps are names that were forgotten.
 */
function isWrittenAnew(block: CellBlock, mapping: LogMapping, column: number, gaps: readonly number[]): boolean {
  let above: string | null = null;
  for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
    const value = valueAt(block, row, column);
    if (value === null || isError(value)) continue;
    const here = comparable(String(value));
    const begins = gaps.some((other) => other !== column && valueAt(block, row, other) !== null);
    if (here === above && !begins && column !== mapping.date) return true;
    above = here;
  }
  return false;
}

/**
 * The columns in which a cell may stand for the rows below it too: gaps in rows that hold attempts. `starts`: the first
 * of these rows has none, since there would be nothing above it.
 */
function rolesWithGaps(
  block: CellBlock,
  mapping: LogMapping,
): readonly {
  readonly role: FilledDownRole;
  readonly column: number;
  readonly share: number;
  readonly starts: boolean;
  readonly runs: number;
}[] {
  const record = recordColumns(mapping.record);
  const rows: number[] = [];
  for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
    // Where an empty cell is an attempt, a row of names alone holds some too.
    const columns = mapping.blank === null ? record : [...record, columnOf(mapping.athlete), columnOf(mapping.trick)];
    if (columns.some((column) => column !== null && valueAt(block, row, column) !== null)) rows.push(row);
  }
  const sources: readonly (readonly [FilledDownRole, number | null])[] = [
    ["date", mapping.date],
    ["athlete", columnOf(mapping.athlete)],
    ["trick", columnOf(mapping.trick)],
  ];
  return sources.flatMap(([role, column]) => {
    if (column === null) return [];
    const gaps = rows.filter((row) => valueAt(block, row, column) === null).length;
    const runs = gapRuns(block, mapping, column, new Set(rows));
    const [first] = rows;
    let starts = false;
    // The day may stand in a row of its own over the first attempts.
    for (let row = mapping.firstRow; first !== undefined && row <= first; row += 1) {
      if (valueAt(block, row, column) !== null) starts = true;
    }
    return gaps >= LEAST_GAPS ? [{ role, column, share: shareOf(gaps, rows.length), starts, runs }] : [];
  });
}

/** How often gaps begin below a filled cell, which may stand in a row of its own. */
function gapRuns(
  block: CellBlock,
  { firstRow, lastRow }: LogMapping,
  column: number,
  rows: ReadonlySet<number>,
): number {
  let [runs, isFilled] = [0, true];
  for (let row = firstRow; row <= lastRow; row += 1) {
    const filled = valueAt(block, row, column) !== null;
    if (!filled && !rows.has(row)) continue;
    if (!filled && isFilled) runs += 1;
    isFilled = filled;
  }
  return runs;
}
