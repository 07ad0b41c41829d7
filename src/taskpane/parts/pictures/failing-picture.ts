/** A trick that fails: its record as a picture, and each of the coach's questions answered in a sentence with its figures. */
import type { ConditionRow } from "../../../core/conditions";
import { Problem } from "../../../core/problem";
import type { WayRow } from "../../../core/ways";
import { dayInWords } from "../../words/day";
import { percent } from "../../words/number-text";
import { texts } from "../../words/texts";
import { firstLeft, type FailingAnswers, type Noted } from "./failing-answers";
import type { Picture } from "./picture";

interface FailingQuestion {
  readonly athlete: string;
  readonly trick: string;
  /** Of the same trick, set by set. */
  readonly record: Picture;
  readonly answers: FailingAnswers;
  readonly standard: number;
  readonly caution: string;
}

export function failingPicture({ athlete, trick, record, answers, standard, caution }: FailingQuestion): Picture {
  const told = questionsAnswered(answers, standard);
  return {
    ...record,
    title: texts.pictureOf(texts.pictureNames.failing, `${athlete}, ${trick}`),
    sentences: told.map(([, answer]) => answer),
    table: { headings: texts.failingHeadings, rows: told },
    caution,
  };
}

/** Each question with its answer, the next step last. */
function questionsAnswered(answers: FailingAnswers, standard: number): readonly (readonly [string, string])[] {
  const { judged, change, firstTry, later, entrances, exits, conditions, stages, outSince, standIns, next } = answers;
  const asked = texts.failingQuestions;
  const left = firstLeft(stages);
  const told = change?.told;
  return [
    [asked.status, texts.recordStatus(judged.status, texts.reasonInWords(judged), percent(standard))],
    [
      asked.since,
      change === undefined
        ? texts.failingTooFewDays
        : told === undefined
          ? texts.failingNoChange(change.days, percent(change.chance))
          : texts.failingChange(
              change.change === "slid",
              dayInWords(told.since),
              percent(told.before.rate),
              percent(told.after.rate),
              percent(change.chance),
            ),
    ],
    [
      asked.stage,
      left === undefined
        ? texts.failingAllStages
        : texts.failingStage(left.stage, left.caught, left.attempts, left.bestRun),
    ],
    [
      asked.firstTry,
      firstTry === undefined || later === undefined || firstTry.attempts === 0
        ? texts.failingNoFirstTry
        : texts.failingFirstTry(
            firstTry.verdict ?? "not clear yet",
            firstTry.caught,
            firstTry.attempts,
            later.caught,
            later.attempts,
          ),
    ],
    [asked.entrance, texts.failingOfWay(texts.wayLabels.entrance, wayInWords(entrances))],
    [asked.exit, texts.failingOfWay(texts.wayLabels.exit, wayInWords(exits))],
    [asked.condition, texts.failingConditions(conditionsInWords(conditions))],
    [
      asked.standIn,
      standIns === undefined
        ? texts.failingNoCounts
        : standIns.length === 0
          ? texts.failingNoStandIn
          : texts.failingStandIns(standIns.join(", ")),
    ],
    ...(outSince === undefined ? [] : [[asked.out, texts.failingOut(dayInWords(outSince))] as const]),
    [asked.next, texts.failingNext[next]],
  ];
}

/** The ways that are clearly better or worse than the usual one; else that it is not clear. */
function wayInWords(ways: Noted<WayRow>): string {
  if (ways instanceof Problem) return texts.failingAllDifferent;
  const [usual] = ways;
  if (usual === undefined) return texts.failingNoWay;
  const clear = ways.filter(({ verdict }) => verdict === "better" || verdict === "worse");
  const named = ways.filter(({ verdict }) => verdict !== undefined);
  if (named.length < 2) return texts.failingOneWay(usual.way);
  if (clear.length === 0) return texts.failingWaysUnclear(named.length);
  return clear
    .map(({ way, verdict, caught, attempts }) =>
      texts.failingWay(way, verdict === "better", caught, attempts, usual.way, usual.caught, usual.attempts),
    )
    .join(" ");
}

function conditionsInWords(conditions: Noted<ConditionRow>): string {
  if (conditions instanceof Problem) return texts.failingAllDifferent;
  if (conditions.length === 0) return texts.failingNoWay;
  return conditions
    .map(({ condition, verdict, difference, caught, attempts }) =>
      texts.failingCondition(
        condition,
        verdict,
        caught,
        attempts,
        difference && percent(Math.abs(difference.difference)),
      ),
    )
    .join(" ");
}
