/** Cell functions: the routine. Each is only its face in the sheet; the work is done in `src/core`. */
import { swapVerdict } from "../core/advice";
import { Missing, Problem } from "../core/problem";
import {
  cleanChance,
  compareTricks,
  dropChance,
  dropSpread,
  expectedDrops,
  links,
  routineScore,
  type Link,
  type Toss,
} from "../core/routine";
import { clock, timeline as timelineOf } from "../core/timeline";
import { read, readCell } from "./arguments";
import { AlignedColumns, isLeftOut, plainCell, readName, rowsOf } from "./cells";
import { respond, type Cells } from "./errors";
import { placesOf } from "./places";

/** No routine has more; the chances are worked out toss by toss. */
const MOST_TOSSES = 5000;

/** Every rate in a range, row by row. In a range of rates 0 is a rate; only what is truly empty is skipped. */
function readRates(raw: unknown): number[] {
  const rates: number[] = [];
  const rows = rowsOf(raw);
  for (let row = 0; row < rows.length; row++) {
    const cells = rows[row] ?? [];
    for (let column = 0; column < cells.length; column++) {
      const cell = plainCell(cells[column], "rates", row + 1, column + 1);
      if (cell === null || (typeof cell === "string" && cell.trim() === "")) continue;
      rates.push(readCell("rates", cell, row, column));
      refuseTooMany(rates.length, "rates");
    }
  }
  return requireTosses(rates);
}

function requireTosses<One>(tosses: One[]): One[] {
  if (tosses.length === 0) throw new Missing("No tosses are entered yet");
  return tosses;
}

/** Asked as they are read, so that a full column of a million rows is refused at once. */
function refuseTooMany(many: number, argument: string): void {
  if (many <= MOST_TOSSES) return;
  throw new Problem({ argument, found: `more than ${MOST_TOSSES} tosses`, accepted: `at most ${MOST_TOSSES} tosses` });
}

/**
 * The chance of a routine without a drop; also the chance that everyone of a team catches.
 * @customfunction CLEANCHANCE
 * @requiresParameterAddresses
 * @param rates The catch rates of the tosses, shares from 0 to 1; empty cells are skipped, a 0 is a rate.
 * @param invocation Told by the host: where the ranges stand.
 * @returns A probability from 0 to 1. The tosses are taken as independent.
 * @throws #VALUE! for a rate outside 0..1, with its row and column; #N/A when no tosses are entered.
 * @example =TWIRL.CLEANCHANCE({0.9,0.8,0.95}) shows 0.684
 * @source Product of the rates.
 */
export function cleanchance(rates: any[][], invocation: CustomFunctions.Invocation): number {
  return respond(() => cleanChance(readRates(rates)), placesOf(invocation, ["rates"]));
}

/**
 * The chance of at most so many drops in a routine.
 * @customfunction DROPCHANCE
 * @requiresParameterAddresses
 * @param rates The catch rates of the tosses, shares from 0 to 1; empty cells are skipped, a 0 is a rate.
 * @param drops The most drops, a whole number from 0.
 * @param invocation Told by the host: where the ranges stand.
 * @returns A probability from 0 to 1, exact. The tosses are taken as independent.
 * @throws #VALUE! for a rate outside 0..1 or drops that are not whole; #N/A when no tosses are entered.
 * @example =TWIRL.DROPCHANCE({0.9,0.8,0.95},1) shows 0.967
 * @source Poisson binomial distribution: Hong 2013, Computational Statistics and Data Analysis 59:41-51.
 */
export function dropchance(rates: any[][], drops: any, invocation: CustomFunctions.Invocation): number {
  return respond(
    () => {
      const given = read({ drops });
      return dropChance(readRates(rates), given.drops);
    },
    placesOf(invocation, ["rates"]),
  );
}

/**
 * How likely 0, 1, 2 and more drops are in a routine.
 * @customfunction DROPSPREAD
 * @requiresParameterAddresses
 * @param rates The catch rates of the tosses, shares from 0 to 1; empty cells are skipped, a 0 is a rate.
 * @param invocation Told by the host: where the ranges stand.
 * @returns A row for each number of drops from 0 on: drops and probability, up to where the rest is below 0.000001. The tosses are taken as independent.
 * @throws #VALUE! for a rate outside 0..1, with its row and column; #N/A when no tosses are entered.
 * @example =TWIRL.DROPSPREAD({0.9,0.8,0.95}) shows 0.684 for no drop and 0.283 for one
 * @source Poisson binomial distribution: Hong 2013, Computational Statistics and Data Analysis 59:41-51.
 */
export function dropspread(rates: any[][], invocation: CustomFunctions.Invocation): any[][] {
  return respond(
    (): Cells => dropSpread(readRates(rates)).map((chance, drops) => [drops, chance]),
    placesOf(invocation, ["rates"]),
  );
}

/**
 * How many drops to expect in a routine, in the mean.
 * @customfunction EXPECTEDDROPS
 * @requiresParameterAddresses
 * @param rates The catch rates of the tosses, shares from 0 to 1; empty cells are skipped, a 0 is a rate.
 * @param invocation Told by the host: where the ranges stand.
 * @returns A number of drops.
 * @throws #VALUE! for a rate outside 0..1, with its row and column; #N/A when no tosses are entered.
 * @example =TWIRL.EXPECTEDDROPS({0.9,0.8,0.95}) shows 0.35
 * @source Sum of the miss rates.
 */
export function expecteddrops(rates: any[][], invocation: CustomFunctions.Invocation): number {
  return respond(() => expectedDrops(readRates(rates)), placesOf(invocation, ["rates"]));
}

/** Rates with their values, row by row. */
function readTosses(rates: unknown, values: unknown): Toss[] {
  const columns = new AlignedColumns({
    rates: { kind: "number", raw: rates },
    values: { kind: "number", raw: values },
  });
  const tosses: Toss[] = [];
  for (let row = 0; row < columns.length; row++) {
    if (!columns.isFilled(row)) continue;
    tosses.push({
      rate: readCell("rates", columns.rows("rates")[row]?.[0], row, 0),
      value: readCell("values", columns.rows("values")[row]?.[0], row, 0),
    });
    refuseTooMany(tosses.length, "rates");
  }
  return requireTosses(tosses);
}

/**
 * The points a routine brings: in the mean, its spread, and what a bad and a good run bring.
 * @customfunction ROUTINESCORE
 * @requiresParameterAddresses
 * @param rates The catch rates of the tosses, one column of shares from 0 to 1.
 * @param values The points of each toss when caught, one column with as many rows.
 * @param dropCost The points lost for a drop, at least 0; each season's rules say how many.
 * @param invocation Told by the host: where the ranges stand.
 * @returns Four rows of label and value: Expected points, Standard deviation, Worst in ten, Best in ten (the 10 % and 90 % points, exact up to 100,000 different totals; beyond, from the normal distribution, and the label says so). The tosses are taken as independent.
 * @throws #VALUE! for a number outside its range, a row filled in part only, or ranges of different length, with the row; #N/A when no tosses are entered.
 * @example =TWIRL.ROUTINESCORE({0.9;0.8},{1;2},0.5) shows 2.35
 * @source Sums of independent points, all totals worked out.
 */
export function routinescore(
  rates: any[][],
  values: any[][],
  dropCost: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  return respond(
    (): Cells => {
      const given = read({ dropCost });
      const score = routineScore(readTosses(rates, values), given.dropCost);
      const label = (words: string): string => (score.exact ? words : `${words} (normal approximation)`);
      return [
        ["Expected points", score.expected],
        ["Standard deviation", score.standardDeviation],
        [label("Worst in ten"), score.worstInTen],
        [label("Best in ten"), score.bestInTen],
      ];
    },
    placesOf(invocation, ["rates", "values"]),
  );
}

/**
 * Which toss costs the routine most: what each would gain if it were caught for certain.
 * @customfunction WEAKLINK
 * @requiresParameterAddresses
 * @param tricks The tricks in the routine's order, one column.
 * @param rates Their catch rates, one column of shares from 0 to 1 with as many rows.
 * @param [values] The points of each toss when caught, one column with as many rows; give dropCost as well.
 * @param [dropCost] The points lost for a drop, at least 0; give values as well.
 * @param invocation Told by the host: where the ranges stand.
 * @returns A row for each toss, largest gain first: trick, rate, expected drops, what the chance of a clean routine would be with this toss caught for certain, and the gain: in that chance, or in expected points where values and dropCost are given. The tosses are taken as independent.
 * @throws #VALUE! for a name or number that cannot be read, a row filled in part only, ranges of different length, or only one of values and dropCost; #N/A when no tosses are entered.
 * @example =TWIRL.WEAKLINK({"Flat";"Two spin"},{0.95;0.8}) shows Two spin first
 * @source Products of the other rates.
 */
export function weaklink(
  tricks: any[][],
  rates: any[][],
  values: any[][],
  dropCost: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  return respond(
    (): Cells => {
      const cost = read({ optionalDropCost: dropCost }).optionalDropCost;
      const valued = !isLeftOut(values);
      if (valued !== (cost !== undefined)) {
        throw new Problem({
          argument: valued ? "dropCost" : "values",
          found: "nothing",
          accepted: "both values and dropCost, or neither",
        });
      }
      const columns = new AlignedColumns({
        tricks: { kind: "name", raw: tricks },
        rates: { kind: "number", raw: rates },
        values: valued ? { kind: "number", raw: values } : undefined,
      });
      const entries: { trick: string; rate: number; value: number }[] = [];
      for (let row = 0; row < columns.length; row++) {
        if (!columns.isFilled(row)) continue;
        entries.push({
          trick: readName(columns.rows("tricks"), row, "tricks").trim(),
          rate: readCell("rates", columns.rows("rates")[row]?.[0], row, 0),
          value: valued ? readCell("values", columns.rows("values")[row]?.[0], row, 0) : 0,
        });
        refuseTooMany(entries.length, "tricks");
      }
      const points = cost === undefined ? undefined : { values: entries.map(({ value }) => value), dropCost: cost };
      return weakestFirst(
        requireTosses(entries).map(({ trick }) => trick),
        links(
          entries.map(({ rate }) => rate),
          points,
        ),
      );
    },
    placesOf(invocation, ["tricks", "rates", "values"]),
  );
}

function weakestFirst(tricks: readonly string[], chain: readonly Link[]): (string | number)[][] {
  return chain
    .map((link, toss) => ({ trick: tricks[toss] ?? "", ...link }))
    .sort((one, other) => other.gain - one.gain)
    .map(({ trick, rate, expectedDrops: drops, cleanIfSure, gain }) => [trick, rate, drops, cleanIfSure, gain]);
}

/**
 * Keep the present trick or put another in its place, in expected points.
 * @customfunction KEEPORSWAP
 * @param rateNow The present trick's catch rate, a share from 0 to 1.
 * @param valueNow The present trick's points when caught.
 * @param rateOther The other trick's catch rate, a share from 0 to 1.
 * @param valueOther The other trick's points when caught.
 * @param dropCost The points lost for a drop, at least 0; each season's rules say how many.
 * @returns Five rows of label and value: Points now, Points other, Difference (other less now), Break-even rate for the present trick (empty where there is none), Verdict.
 * @throws #VALUE! for a number outside its range.
 * @example =TWIRL.KEEPORSWAP(0.6,1,0.95,0.7,0.5) shows 0.4 now and 0.64 for the other
 * @source Rate times value less miss rate times the cost of a drop.
 */
export function keeporswap(rateNow: any, valueNow: any, rateOther: any, valueOther: any, dropCost: any): any[][] {
  return respond((): Cells => {
    const given = read({ rateNow, valueNow, rateOther, valueOther, dropCost });
    const swap = compareTricks(
      { rate: given.rateNow, value: given.valueNow },
      { rate: given.rateOther, value: given.valueOther },
      given.dropCost,
    );
    return [
      ["Points now", swap.pointsNow],
      ["Points other", swap.pointsOther],
      ["Difference", swap.difference],
      ["Break-even rate", swap.breakEvenRate ?? ""],
      ["Verdict", swapVerdict(swap)],
    ];
  });
}

/**
 * The routine in time: when each trick starts and ends, and whether the whole fits the limit.
 * @customfunction TIMELINE
 * @requiresParameterAddresses
 * @param tricks The tricks in the routine's order, one column.
 * @param counts Their counts, one column with as many rows, 0 to 10,000 each.
 * @param countsPerMinute The speed of the counts as the athlete says them, 1 to 1000; often faster than the music's beats.
 * @param [limitSeconds] The longest time allowed, in seconds.
 * @param invocation Told by the host: where the ranges stand.
 * @returns A row for each trick: trick, counts, starts at and ends at (m:ss.0); and a last row: Total, all counts, the whole time, and how far over or under the limit.
 * @throws #VALUE! for a name or number that cannot be read, a row filled in part only, or ranges of different length, with the row; #N/A when no tricks are entered.
 * @example =TWIRL.TIMELINE({"Flat";"Two spin"},{6;9},180,90) shows 0:02.0
 * @source Counts times 60, divided by the counts per minute.
 */
export function timeline(
  tricks: any[][],
  counts: any[][],
  countsPerMinute: any,
  limitSeconds: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  return respond(
    (): Cells => {
      const given = read({ countsPerMinute, limitSeconds });
      const columns = new AlignedColumns({
        tricks: { kind: "name", raw: tricks },
        counts: { kind: "number", raw: counts },
      });
      const entries: { trick: string; counts: number }[] = [];
      for (let row = 0; row < columns.length; row++) {
        if (!columns.isFilled(row)) continue;
        const trick = readName(columns.rows("tricks"), row, "tricks").trim();
        entries.push({ trick, counts: readCell("counts", columns.rows("counts")[row]?.[0], row, 0) });
        refuseTooMany(entries.length, "tricks");
      }
      if (entries.length === 0) throw new Missing("No tricks are entered yet");
      const times = timelineOf(entries, given.countsPerMinute);
      const total = times[times.length - 1]?.endSeconds ?? 0;
      const all = entries.reduce((sum, entry) => sum + entry.counts, 0);
      return [
        ...times.map(({ trick, counts: own, startSeconds, endSeconds }) => [
          trick,
          own,
          clock(startSeconds),
          clock(endSeconds),
        ]),
        ["Total", all, clock(total), againstLimit(total, given.limitSeconds)],
      ];
    },
    placesOf(invocation, ["tricks", "counts"]),
  );
}

function againstLimit(total: number, limit: number | undefined): string {
  if (limit === undefined) return "";
  const over = total - limit;
  const shown = clock(Math.abs(over));
  if (shown === clock(0)) return "at the limit";
  return `${shown} ${over > 0 ? "over" : "under"} the limit`;
}
