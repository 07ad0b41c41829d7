/** Which columns hold the attempts: marks in one column or in several side by side, or two columns of numbers. */
import { numberIn, valueAt, type CellBlock } from "./cell-block";
import { shareOf, type ColumnProfile } from "./column-profile";
import { attemptNumber, headingScore, type HeadingRole } from "./heading-words";
import type { RecordColumns } from "./mapping";
import { plainWords } from "./plain-words";

export interface LookedAtColumn {
  readonly profile: ColumnProfile;
  readonly heading: string;
}

interface RecordCandidate {
  readonly record: RecordColumns;
  /** 0 to 1. */
  readonly score: number;
  readonly byHeading: boolean;
  readonly byValues: boolean;
}

/** Every way to read the attempts that the columns allow, the best first. */
export function recordCandidates(
  block: CellBlock,
  columns: readonly LookedAtColumn[],
  rows: readonly number[],
): readonly RecordCandidate[] {
  const candidates = [...marksColumns(columns), ...attemptColumns(columns), ...tallyColumns(block, columns, rows)];
  return candidates.filter(({ score }) => score >= LEAST_SCORE).sort((one, other) => other.score - one.score);
}

const LEAST_SCORE = 0.35;

/* ---- marks ---- */

/** Share of a column's cells that are marks, or would be with a key. */
export function marksShare({ profile }: LookedAtColumn): number {
  // 8/10 typed into an unformatted cell is a day by now: it counts as the mark that it was, beside real ones.
  const turned = profile.runs + profile.singles > 0 ? profile.days : 0;
  return shareOf(profile.runs + profile.singles + profile.signs + profile.likeMarks + turned, profile.filled);
}

function marksColumns(columns: readonly LookedAtColumn[]): readonly RecordCandidate[] {
  return columns.flatMap((column) => {
    const { profile, heading } = column;
    const says = Math.max(headingScore(heading, "marks"), headingScore(heading, "attempts") * 0.8);
    const caught = headingScore(heading, "caught") * 0.7;
    const share = marksShare(column);
    const severalInACell = shareOf(profile.runs, profile.filled);
    const keyed = keyedShare(profile);
    const turned = says > 0.5 && profile.days > 0 ? shareOf(profile.days, profile.filled) : 0;
    const values = Math.max(share, says >= 0.5 ? Math.max(keyed, turned) : 0);
    if (values < 0.5 || (profile.counts > 0 && countsOfOne(columns, heading))) return [];
    // Numbers 1 and 0 are marks where the heading says so and no column says of how many.
    const score = 0.5 * values + 0.2 * severalInACell + 0.3 * Math.max(says, caught);
    const record: RecordColumns = { kind: "marks", first: profile.column, last: profile.column };
    return [{ record, score: Math.min(1, score), byHeading: says >= 0.5, byValues: share >= 0.5 }];
  });
}

/** Whether ones and noughts under a heading are counts: so many dropped or bailed; so many caught, beside others. */
function countsOfOne(columns: readonly LookedAtColumn[], heading: string): boolean {
  if (headingScore(heading, "bailed") >= 0.6 || headingScore(heading, "dropped") >= 0.6) return true;
  return headingScore(heading, "caught") >= 0.6 && columns.some((other) => other.heading !== heading && other.profile.counts > 0 && partScore(other.heading, "attempts") + partScore(other.heading, "dropped") > 0); // prettier-ignore
}

/** Share of cells whose text is one of two or three signs, whatever they are, or the numbers 1 and 0. */
function keyedShare(profile: ColumnProfile): number {
  const counts = [...profile.distinct.values()];
  const fewWords = counts.length >= 2 && counts.length <= 3 && [...profile.distinct.keys()].every(isShort);
  const signs = [...profile.signCounts];
  const fewSigns = signs.length >= 2 && signs.length <= 3;
  const words = fewWords || fewSigns ? profile.texts : 0;
  const bits = profile.counts === profile.bits ? profile.bits : 0;
  return shareOf(words + bits, profile.filled);
}

const isShort = (text: string): boolean => text.length <= 8;

/* ---- one attempt or set a column ---- */

function attemptColumns(columns: readonly LookedAtColumn[]): readonly RecordCandidate[] {
  const candidates: RecordCandidate[] = [];
  let start = 0;
  while (start < columns.length) {
    let end = start;
    while (end < columns.length && continuesRun(columns, start, end)) end += 1;
    const run = columns.slice(start, end);
    const first = run[0];
    const last = run.at(-1);
    if (first && last && run.length >= 2 && run.some(({ profile }) => profile.filled > 0)) {
      const numbered = run.every(({ heading }) => attemptNumber(heading) !== null);
      const marked = run.reduce((sum, column) => sum + marksShare(column), 0) / run.length;
      // One heading over all of them stands over the first.
      const unheaded = run.slice(1).every(({ heading }) => heading === "");
      // Without numbers over them two columns of yes and no may be anything.
      if (numbered || (run.length >= 3 && (unheaded || sameStem(run)))) {
        candidates.push({
          record: { kind: "marks", first: first.profile.column, last: last.profile.column },
          score: Math.min(1, 0.6 + (numbered ? 0.3 : 0.1) + 0.1 * marked),
          byHeading: numbered,
          byValues: true,
        });
      }
    }
    start = Math.max(end, start + 1);
  }
  return candidates;
}

function continuesRun(columns: readonly LookedAtColumn[], start: number, at: number): boolean {
  const column = columns[at];
  if (!column) return false;
  const previous = at > start ? columns[at - 1] : undefined;
  if (previous && column.profile.column !== previous.profile.column + 1) return false;
  const number = attemptNumber(column.heading);
  // The last attempts of a row are often not made: a numbered column may be empty.
  if (column.profile.filled === 0) {
    const before = previous === undefined ? 0 : attemptNumber(previous.heading);
    return number !== null && before !== null && number === before + 1;
  }
  const share = marksShare(column) + shareOf(column.profile.bits, column.profile.filled);
  if (Math.max(share, number !== null ? keyedShare(column.profile) : 0) < 0.7) return false;
  // Each with a number, or none with one.
  if (!previous) return true;
  const before = attemptNumber(previous.heading);
  return number === null ? before === null : before !== null && number === before + 1;
}

/** `Try one`, `Try two`: headings that begin alike. */
function sameStem(run: readonly LookedAtColumn[]): boolean {
  const stems = new Set(run.map(({ heading }) => plainWords(heading)[0] ?? ""));
  return stems.size === 1 && !stems.has("");
}

/* ---- two numbers ---- */

/** A column that counts the bails beside a record of drops: each of them is an attempt, and not caught. */
export function bailsColumn(columns: readonly LookedAtColumn[]): number | null {
  const bails = columns.filter(
    ({ profile, heading }) => headingScore(heading, "bailed") >= 0.6 && shareOf(profile.counts, profile.filled) >= 0.6,
  );
  return bails.length === 1 ? (bails[0]?.profile.column ?? null) : null;
}

type Part = "caught" | "attempts" | "dropped";
const PARTS: readonly Part[] = ["caught", "attempts", "dropped"];

function tallyColumns(
  block: CellBlock,
  columns: readonly LookedAtColumn[],
  rows: readonly number[],
): readonly RecordCandidate[] {
  const numbers = columns.filter(
    ({ profile, heading }) =>
      shareOf(profile.counts, profile.filled) >= 0.6 && profile.filled > 0 && headingScore(heading, "other") < 0.8,
  );
  const candidates: RecordCandidate[] = [];
  for (const one of numbers) {
    for (const other of numbers) {
      if (one === other) continue;
      const candidate =
        pairOf(block, rows, one, "caught", other, "attempts") ??
        pairOf(block, rows, one, "caught", other, "dropped") ??
        pairOf(block, rows, one, "dropped", other, "attempts");
      if (candidate) candidates.push(candidate);
    }
  }
  return candidates;
}

function pairOf(
  block: CellBlock,
  rows: readonly number[],
  one: LookedAtColumn,
  onePart: Part,
  other: LookedAtColumn,
  otherPart: Part,
): RecordCandidate | undefined {
  const oneSays = partScore(one.heading, onePart);
  const otherSays = partScore(other.heading, otherPart);
  const named = oneSays > 0 && otherSays > 0;
  // Without headings only caught and attempts can be told, by which is never the larger.
  if (!named && (otherPart !== "attempts" || onePart !== "caught")) return undefined;
  if (!named && (oneSays < 0 || otherSays < 0)) return undefined;
  const columns = [one.profile.column, other.profile.column] as const;
  const compared = compareColumns(block, rows, columns);
  const within = shareOf(compared.notMore, compared.both);
  if (otherPart === "attempts" && within < 0.5) return undefined;
  // Equal all the way down is a copy, and nothing that says caught of tried.
  if (!named && (compared.less === 0 || within < 0.97)) return undefined;
  const beside = Math.abs(columns[0] - columns[1]) === 1 ? 0.06 : 0;
  const inOrder = columns[0] < columns[1] ? 0.02 : 0;
  const words = 0.25 * Math.max(0, oneSays) + 0.25 * Math.max(0, otherSays);
  const preferred = otherPart === "attempts" && onePart === "caught" ? 0.02 : 0;
  const values = 0.4 * (otherPart === "attempts" ? within : 1);
  return {
    record: { kind: "tally", [onePart]: columns[0], [otherPart]: columns[1] } as unknown as RecordColumns,
    score: Math.min(1, values + words + beside + inOrder + preferred),
    byHeading: named,
    byValues: within >= 0.97,
  };
}

/** How well a heading says a part; negative where it says another part or something else better. */
function partScore(heading: string, part: Part): number {
  const own = headingScore(heading, part);
  const rivals: readonly HeadingRole[] = [...PARTS.filter((rival) => rival !== part), "bailed", "other"];
  const best = Math.max(...rivals.map((rival) => headingScore(heading, rival)));
  if (best > own) return -1;
  return own;
}

function compareColumns(
  block: CellBlock,
  rows: readonly number[],
  [one, other]: readonly [number, number],
): { readonly both: number; readonly notMore: number; readonly less: number } {
  let both = 0;
  let notMore = 0;
  let less = 0;
  for (const row of rows) {
    const first = numberIn(valueAt(block, row, one));
    const second = numberIn(valueAt(block, row, other));
    if (first === null || second === null) continue;
    both += 1;
    if (first <= second) notMore += 1;
    if (first < second) less += 1;
  }
  return { both, notMore, less };
}
