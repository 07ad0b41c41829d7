/**
 * What a coach asks of a trick that keeps failing, worked out from the log by the core: since when, at which stage, on
 * which try, in which way, what could stand in, and what to do next. The Trick sheet answers the same in the workbook.
 */
import { AttemptLog } from "../../../core/attempt-log";
import { changeDay, type ChangeDay } from "../../../core/change-day";
import { ConditionLog, type ConditionRow } from "../../../core/conditions";
import { DayTallies } from "../../../core/day-tallies";
import { FirstTriesLog, type FirstTryRow } from "../../../core/first-tries";
import { Missing, Problem } from "../../../core/problem";
import { ProgressionLog, RUNNING_CATCHES, type ProgressionRow } from "../../../core/progression";
import { assess, RISK_BAILS, type Assessment } from "../../../core/readiness";
import { isApart } from "../../../trade/stages";
import { isReady } from "../../../trade/statuses";
import { USUAL_BREAK_DAYS } from "../../../trade/usual";
import { comparable } from "../../../core/text";
import { WayLog, type WayRow } from "../../../core/ways";
import { eachRow } from "../../season/each-row";
import type { SeasonData } from "../../season/season-data";
import type { PictureData } from "./picture-data";

/** In the order in which the trade acts: common practice, no source. */
export type NextStep =
  | "stop"
  | "keep warm"
  | "log more"
  | "five running"
  | "neighbours"
  | "better way"
  | "safer trick"
  | "retrain"
  | "back in";

export type Noted<Row> = readonly Row[] | Problem;

export interface FailingAnswers {
  readonly judged: Assessment;
  /** Undefined with fewer than three practice days. */
  readonly change: ChangeDay | undefined;
  /** The first row: the first try of the day, with its difference from the others. */
  readonly firstTry: FirstTryRow | undefined;
  readonly later: FirstTryRow | undefined;
  /** Most tried first; empty where none is noted; why they cannot be told where they are all different. */
  readonly entrances: Noted<WayRow>;
  readonly exits: Noted<WayRow>;
  /** Over all tricks of this athlete, each compared with itself. */
  readonly conditions: Noted<ConditionRow>;
  /** Counted from the day on which it was taken out, where it is out. */
  readonly stages: readonly ProgressionRow[];
  readonly outSince: number | undefined;
  /** The athlete's own Ready and Solid tricks of no more counts; undefined where this trick has no counts. */
  readonly standIns: readonly string[] | undefined;
  readonly next: NextStep;
}

export function failingAnswers(data: PictureData, athlete: string, trick: string): FailingAnswers {
  const { season } = data;
  const same = (one: string, other: string): boolean => comparable(one) === comparable(other);
  const theirs = season.log.filter((row) => same(row.athlete, athlete));
  const own = new Set(theirs.filter((row) => same(row.trick, trick)));
  const record = season.records.recordOf(athlete, trick)?.inOrder() ?? new AttemptLog();
  const judged = assess(record, season.standard, season.setSize);
  const outSince = data.swaps
    .filter((swap) => same(swap.athlete, athlete) && same(swap.out, trick) && !swap.isBack)
    .reduce<number | undefined>((latest, { day }) => Math.max(latest ?? day, day), undefined);

  const days = new DayTallies();
  const firsts = new FirstTriesLog();
  const [entrances, exits] = [new Noting(new WayLog("ways")), new Noting(new WayLog("ways"))];
  const conditions = new Noting(new ConditionLog());
  const progression = new ProgressionLog();
  eachRow(theirs, (row, logged, day, stage) => {
    const isOwn = own.has(logged);
    if (isOwn && stage !== undefined) progression.add(day, stage, row);
    if (stage !== undefined && isApart(stage)) return;
    conditions.take((log) => log.add(logged.condition, logged.athlete, logged.trick, row));
    if (!isOwn) return;
    days.add(day, row);
    firsts.add(day, row);
    entrances.take((ways) => ways.add(logged.entrance, row, day));
    exits.take((ways) => ways.add(logged.exit, row, day));
  });
  const [firstTry, later] = orNothing(() => firsts.rows(USUAL_BREAK_DAYS).rows) ?? [];
  const stages = orNothing(() => progression.rows(season.standard, season.setSize, outSince)) ?? [];
  const found = {
    judged,
    change: orNothing(() => changeDay(days.days())),
    firstTry,
    later,
    entrances: entrances.rows((ways) => ways.rows(true)),
    exits: exits.rows((ways) => ways.rows(true)),
    conditions: conditions.rows((log) => log.rows()),
    stages,
    outSince,
    standIns: standIns(data, season, athlete, trick),
  };
  return { ...found, next: nextOf(found) };
}

function nextOf({ judged, outSince, stages, entrances, exits }: Omit<FailingAnswers, "next">): NextStep {
  if (judged.lastSet.bails >= RISK_BAILS) return "stop";
  if (outSince !== undefined) {
    return stages.length > 0 && firstLeft(stages) === undefined ? "back in" : "retrain";
  }
  if (isReady(judged.status)) return "keep warm";
  if (judged.status !== "At risk") return "log more";
  if ((judged.streaks?.current ?? 0) < RUNNING_CATCHES) return "five running";
  if (stages.find(({ stage }) => stage === "In context")?.holds !== true) return "neighbours";
  return isBetter(entrances) || isBetter(exits) ? "better way" : "safer trick";
}

function isBetter(ways: Noted<WayRow>): boolean {
  return !(ways instanceof Problem) && ways.some(({ verdict }) => verdict === "better");
}

/** What was noted beside the marks, until it is found to be too many different words to compare. */
class Noting<Log> {
  private problem: Problem | undefined;

  constructor(private readonly log: Log) {}

  take(add: (log: Log) => void): void {
    if (this.problem) return;
    try {
      add(this.log);
    } catch (cause) {
      if (!(cause instanceof Problem)) throw cause;
      this.problem = cause;
    }
  }

  rows<Row>(ask: (log: Log) => readonly Row[]): Noted<Row> {
    return this.problem ?? orNothing(() => ask(this.log)) ?? [];
  }
}

/** The first stage at which something is left, in the order of learning. */
export function firstLeft(stages: readonly ProgressionRow[]): ProgressionRow | undefined {
  return stages.find(({ goal, holds }) => goal !== "none" && !holds);
}

function standIns(
  data: PictureData,
  season: SeasonData,
  athlete: string,
  trick: string,
): readonly string[] | undefined {
  const counts = new Map(data.tosses.map((toss) => [comparable(toss.trick), toss.counts]));
  const most = counts.get(comparable(trick));
  if (most === undefined) return undefined;
  return season.records.practised
    .filter((one) => comparable(one.athlete) === comparable(athlete) && comparable(one.trick) !== comparable(trick))
    .filter((one) => (counts.get(comparable(one.trick)) ?? Infinity) <= most)
    .filter((one) => {
      const record = season.records.recordOf(one.athlete, one.trick)?.inOrder() ?? new AttemptLog();
      return isReady(assess(record, season.standard, season.setSize).status);
    })
    .map((one) => one.trick);
}

/** Undefined where there is nothing to answer yet. */
function orNothing<Answer>(ask: () => Answer): Answer | undefined {
  try {
    return ask();
  } catch (cause) {
    if (cause instanceof Missing) return undefined;
    throw cause;
  }
}
