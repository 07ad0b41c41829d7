/** The coming practice of everybody: each athlete's own attempts in the minutes there are, and what to do in them. */
import { BoardLog, type BoardRow } from "./board";
import { DayLog } from "./day-log";
import type { Assessment } from "./readiness";
import type { Stage } from "../trade/stages";
import { USUAL_ATTEMPTS_A_MINUTE } from "../trade/usual";
import { NO_ATTEMPTS } from "./catch-rate";
import { Missing } from "./problem";
import { comparable } from "./text";
import { PLANNED_SETS, practicePlan, WEIGHT_OUTSIDE, type PlannedTrick, type TrickRecord } from "./week";

/** Attempts a minute over the rows with minutes; the usual pace until there are any. */
export function paceOf(attempts: number, minutes: number): number {
  return minutes > 0 ? attempts / minutes : USUAL_ATTEMPTS_A_MINUTE;
}

/** What the plan is made from: the recent rate in three sets, or in what is logged while that is less. */
export function plannedRecord(
  trick: string,
  { recentRate, attempts: logged }: Assessment,
  setSize: number,
  isInRoutine: boolean,
): TrickRecord | undefined {
  if (recentRate === undefined) return undefined;
  const attempts = Math.min(logged, PLANNED_SETS * setSize);
  const weight = isInRoutine ? 1 : WEIGHT_OUTSIDE;
  return { trick, caught: Math.round(recentRate * attempts), attempts, weight };
}

export interface Practising {
  readonly athlete: string;
  readonly minutes: number;
}

export interface ClubPlanRow extends Practising {
  /** Attempts a minute of this athlete, so far. */
  readonly pace: number;
  /** Attempts in the minutes there are, whole. */
  readonly attempts: number;
  /** In the order in which to do them; none without attempts. Undefined where nothing of the athlete is logged. */
  readonly planned: readonly PlannedTrick[] | undefined;
}

interface Spent {
  attempts: number;
  minutes: number;
}

export class ClubLog {
  private readonly board = new BoardLog();
  private readonly spent = new Map<string, Spent>();
  /** By the text as typed: a name recurs in thousands of rows. */
  private readonly byText = new Map<string, Spent>();
  /** Rows that the board does not count take their minutes too. */
  private readonly apart = new DayLog();
  private latest = this.apart.asRead;
  private before = 0;

  /** The record to which a row's attempts go. */
  recordOf(day: number, athlete: string, trick: string, stage: Stage | undefined): DayLog {
    const record = this.board.recordOf(day, athlete, trick, stage, Infinity) ?? this.apart;
    this.latest = record.asRead;
    this.before = this.latest.attempts;
    return record;
  }

  /** Says how long the row took that was read last; 0 where nobody noted it. */
  spend(athlete: string, minutes: number): void {
    if (!(minutes > 0)) return;
    let spent = this.byText.get(athlete);
    if (!spent) {
      const key = comparable(athlete);
      spent = this.spent.get(key) ?? { attempts: 0, minutes: 0 };
      this.spent.set(key, spent);
      this.byText.set(athlete, spent);
    }
    spent.attempts += this.latest.attempts - this.before;
    spent.minutes += minutes;
  }

  /**
   * @param practising in the order of the answer; everybody in the log, A to Z, where undefined
   * @param usualMinutes those of everybody where `practising` is undefined
   * @param isInRoutine all tricks alike where undefined
   * @throws Missing where nothing is logged
   */
  rows(
    practising: readonly Practising[] | undefined,
    usualMinutes: number,
    standard: number,
    setSize: number,
    isInRoutine: (athlete: string, trick: string) => boolean = () => true,
  ): ClubPlanRow[] {
    const board = this.board.rows(standard, setSize);
    if (board.length === 0) throw new Missing(NO_ATTEMPTS);
    const lines = new Map<string, BoardRow[]>();
    for (const row of board) {
      const key = comparable(row.athlete);
      const theirs = lines.get(key);
      if (theirs) theirs.push(row);
      else lines.set(key, [row]);
    }
    const everybody = (): Practising[] =>
      [...lines.values()].flatMap(([first]) => (first ? [{ athlete: first.athlete, minutes: usualMinutes }] : []));
    return (practising ?? everybody()).map(({ athlete, minutes }) => {
      const key = comparable(athlete);
      const { attempts: tried, minutes: took } = this.spent.get(key) ?? { attempts: 0, minutes: 0 };
      const pace = paceOf(tried, took);
      const attempts = Math.floor(minutes * pace);
      const records = (lines.get(key) ?? []).flatMap(({ trick, assessment }) => {
        const record = plannedRecord(trick, assessment, setSize, isInRoutine(athlete, trick));
        return record ? [record] : [];
      });
      const planned = practicePlan(records, attempts, standard, setSize).filter((one) => one.attempts > 0);
      return { athlete, minutes, pace, attempts, planned: records.length > 0 ? planned : undefined };
    });
  }
}
