/** Offers a `key` where a club's marks are two or three signs of its own. */
import { comparable } from "../text";
import { isError, valueAt, type CellBlock } from "./cell-block";
import { attemptsIn } from "./column-profile";
import { repeatsHeadings } from "./heading-rows";
import { BAILED, CAUGHT, DROPPED } from "./mark-signs";
import { rewritten } from "./mark-writing";
import { recordColumns, type LogMapping } from "./mapping";

interface KeySign {
  readonly sign: string;
  /** How many attempts it stands for in the log. */
  readonly count: number;
}

export interface KeySuggestion {
  /** The club's signs, the most frequent first. */
  readonly signs: readonly KeySign[];
  /** Every way to read them, `caught/dropped` or `caught/dropped/bailed`, the likeliest first. */
  readonly keys: readonly string[];
  /** Whether the first key is what these signs nearly always mean; else the coach has to say which is which. */
  readonly sure: boolean;
}

const MOST_SIGNS = 3;
/** A few cells may hold something else: they stay unreadable. */
const LEAST_COVERED = 0.9;
const MOST_SIGN_LENGTH = 12;

/**
 * Null where the usual marks read the log as well, or the signs are fewer than two or more than three.
 * @param headingRows so that headings written once more further down are not taken for marks
 */
export function suggestKey(
  block: CellBlock,
  mapping: LogMapping,
  headingRows: readonly number[] = [],
): KeySuggestion | null {
  if (mapping.record?.kind !== "marks") return null;
  const cells = markCells(block, mapping, headingRows);
  if (cells.length === 0) return null;
  // A log of ticks with few dashes between them needs its key too.
  if (shareRead(sampleOf(cells)) >= LEAST_COVERED && !hasKnownRest(cells)) return null;
  const texts = cells.map((cell) => comparable(String(cell).replace(/[\uFE0E\uFE0F]/g, "")));
  const signs = signsOf(texts, (text) => [text]) ?? signsOf(texts, (text) => Array.from(text.replace(/[\s,]/g, "")));
  if (signs === null || signs.some(({ sign }) => onlyParts(texts, sign))) return null;
  // Signs of the usual table with many slips between them; but the numbers 1 and 0 are marks only with a key.
  const texted = cells.filter((cell) => typeof cell === "string").length;
  if (texted * 2 > cells.length && signs.every(({ sign }) => attemptsIn(sign) > 0)) return null;
  return suggestionFor(signs);
}

const DASH = /^\p{Pd}$/u;

/** Whether a dash stands between two other signs wherever it is met (`c-c-c`): it parts marks there and is none itself. */
function onlyParts(texts: readonly string[], sign: string): boolean {
  if (!DASH.test(sign)) return false;
  const dashed = texts.map((text) => Array.from(text.replace(/\s/g, ""))).filter((signs) => signs.includes(sign));
  return dashed.every((signs) => signs.length > 1 && signs.every((one, at) => (one === sign) === (at % 2 === 1)) && signs.length % 2 === 1); // prettier-ignore
}

/** How much of the cells the usual marks read. */
function shareRead(cells: readonly (string | number)[]): number {
  return cells.filter((cell) => typeof cell === "string" && attemptsIn(cell) > 0).length / cells.length;
}

/** Whether the few cells that are not read are one sign, which means one thing wherever it is met: a dash. */
function hasKnownRest(cells: readonly (string | number)[]): boolean {
  const rest = new Set(
    cells.flatMap((cell) => (typeof cell === "string" && attemptsIn(cell) === 0 ? [comparable(cell)] : [])),
  );
  const [sign] = rest;
  return rest.size === 1 && sign !== undefined && (CAUGHT.has(sign) || DROPPED.has(sign));
}

const MOST_SAMPLED = 2000;

/** A long log is told by cells spread evenly over it. */
function sampleOf<Item>(items: readonly Item[]): readonly Item[] {
  const step = Math.ceil(items.length / MOST_SAMPLED);
  return items.filter((_, index) => index % step === 0);
}

function markCells(
  block: CellBlock,
  mapping: LogMapping,
  headingRows: readonly number[],
): readonly (string | number)[] {
  const cells: (string | number)[] = [];
  for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
    if (repeatsHeadings(block, row, headingRows)) continue;
    for (const column of recordColumns(mapping.record)) {
      const value = valueAt(block, row, column);
      if (value === null || isError(value) || typeof value === "boolean") continue;
      // A number other than 1 and 0 is a tally turned into a day, or a slip.
      if (typeof value === "number" && value !== 0 && value !== 1) continue;
      cells.push(typeof value === "string" ? rewritten(value, mapping.writing) : value);
    }
  }
  return cells;
}

/** The two or three signs that nearly all texts are made of, cut as given; null where there are not so few. */
function signsOf(texts: readonly string[], cut: (text: string) => readonly string[]): readonly KeySign[] | null {
  const counts = new Map<string, number>();
  for (const text of texts) for (const sign of cut(text)) counts.set(sign, (counts.get(sign) ?? 0) + 1);
  const frequent = [...counts]
    .map(([sign, count]) => ({ sign, count }))
    .sort((one, other) => other.count - one.count)
    .slice(0, MOST_SIGNS);
  // A sign met once in a long log is a slip of the finger, not a mark.
  const total = [...counts.values()].reduce((sum, count) => sum + count, 0);
  const met = frequent.filter(({ count }, index) => count >= 2 || (total < 20 && index < 2));
  const isKnown = (sign: string): boolean => CAUGHT.has(sign) || DROPPED.has(sign);
  // But one dash among ticks is the other mark.
  const signs = met.length >= 2 ? met : frequent.filter((sign) => met.includes(sign) || isKnown(sign.sign));
  const known = new Set(signs.map(({ sign }) => sign));
  const covered = texts.filter((text) => cut(text).every((sign) => known.has(sign))).length;
  // A run or a tally is no sign of its own.
  const usable = signs.every(
    ({ sign }) => attemptsIn(sign) <= 1 && !/[\s,/]/.test(sign) && sign !== "" && sign.length <= MOST_SIGN_LENGTH,
  );
  return signs.length >= 2 && usable && covered / texts.length >= LEAST_COVERED ? signs : null;
}

function suggestionFor(signs: readonly KeySign[]): KeySuggestion {
  const keys = permutations(signs.map(({ sign }) => sign)).map((order) => ({ order, points: pointsOf(order) }));
  keys.sort((one, other) => other.points - one.points);
  const [best, next] = keys;
  return {
    signs,
    keys: keys.map(({ order }) => order.join("/")),
    // Each sign known by itself: then the order is one that another club would read alike.
    sure: best !== undefined && best.points >= signs.length && best.points > (next?.points ?? 0),
  };
}

function pointsOf(order: readonly string[]): number {
  const meanings = [CAUGHT, DROPPED, BAILED];
  return order.reduce((sum, sign, index) => {
    if (meanings[index]?.has(sign)) return sum + 1;
    return meanings.some((meaning) => meaning.has(sign)) ? sum - 1 : sum;
  }, 0);
}

function permutations(items: readonly string[]): readonly (readonly string[])[] {
  if (items.length <= 1) return [items];
  return items.flatMap((item, index) =>
    permutations([...items.slice(0, index), ...items.slice(index + 1)]).map((rest) => [item, ...rest]),
  );
}
