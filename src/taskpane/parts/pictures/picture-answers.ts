/** From a season and a choice to the picture: every number comes from the core, and the drawings only place them. */
import { AttemptLog } from "../../../core/attempt-log";
import { countSeconds } from "../../../core/counts";
import { historyBySet } from "../../../core/history";
import { placement } from "../../../core/placement";
import { Problem } from "../../../core/problem";
import { assess, RISK_BAILS } from "../../../core/readiness";
import { cleanChance, expectedDrops } from "../../../core/routine";
import { comparable } from "../../../core/text";
import { timeline } from "../../../core/timeline";
import { flightAt, flightPath, planToss, type FlightPoint, type TossQuestion } from "../../../core/toss";
import { defaultSettings } from "../../../workbook/season/season";
import { texts } from "../../words/texts";
import { failingAnswers } from "./failing-answers";
import { failingPicture } from "./failing-picture";
import { landingsPicture } from "./landings-picture";
import type { Picture } from "./picture";
import type { PictureChoice, PictureKind } from "./picture-choices";
import type { PictureData } from "./picture-data";
import { recordPicture } from "./record-picture";
import { routinePicture, type RoutineStep } from "./routine-picture";
import { tossPicture } from "./toss-picture";

/** A picture, or words on why there is none. */
type Answer = { readonly picture: Picture } | { readonly words: string };

/** What to do where a picture has nothing to show yet. */
export function nothingYet(kind: PictureKind): string {
  return {
    record: texts.recordNothing,
    failing: texts.recordNothing,
    landings: texts.landingsNothing,
    routine: texts.routineNothing,
    toss: texts.tossNothing,
  }[kind];
}

/** @param width of the picture, in pixels */
export function answerFor(data: PictureData, choice: PictureChoice, width: number): Answer {
  try {
    return { picture: pictureFor(data, choice, width) };
  } catch (cause) {
    if (!(cause instanceof Problem)) throw cause;
    return { words: texts.tossImpossible(cause.message) };
  }
}

function pictureFor(data: PictureData, choice: PictureChoice, width: number): Picture {
  switch (choice.kind) {
    case "record":
      return recordOf(data, choice, width);
    case "failing":
      return failingOf(data, choice, width);
    case "landings":
      return landingsOf(data, choice, width);
    case "routine":
      return routineOf(data, choice.athlete, width);
    case "toss":
      return tossOf(data, choice.trick, width);
  }
}

const same = (one: string, other: string): boolean => comparable(one) === comparable(other);

function recordOf(data: PictureData, { athlete, trick }: PictureChoice, width: number): Picture {
  const { standard, setSize, records } = data.season;
  const record = records.recordOf(athlete, trick);
  const sets = record ? historyBySet(record, standard, setSize) : [];
  const bails = sets.at(-1)?.bails ?? 0;
  return recordPicture(
    {
      ...{ athlete, trick, sets, standard, setSize },
      contests: data.contests.filter((contest) => same(contest.athlete, athlete)),
      caution: bails >= RISK_BAILS ? texts.bailCaution : null,
    },
    width,
  );
}

function failingOf(data: PictureData, choice: PictureChoice, width: number): Picture {
  const { athlete, trick } = choice;
  return failingPicture({
    ...{ athlete, trick, standard: data.season.standard },
    record: recordOf(data, choice, width),
    answers: failingAnswers(data, athlete, trick),
    caution: texts.failingCaution,
  });
}

function landingsOf(data: PictureData, { athlete, trick }: PictureChoice, width: number): Picture {
  const marks = data.landings.filter((mark) => same(mark.athlete, athlete) && same(mark.trick, trick));
  const placed = placement(
    marks.map(({ sideways }) => sideways),
    marks.map(({ forward }) => forward),
  );
  return landingsPicture({ athlete, trick, marks, placement: placed, unit: data.unit }, width);
}

function routineOf(data: PictureData, athlete: string, width: number): Picture {
  const { season, routine, limitSeconds } = data;
  const countsPerMinute = countsIn(data);
  const inTime = timeline(
    routine.map(({ trick, counts = 0 }) => ({ trick, counts })),
    countsPerMinute,
  );
  const rates = new Map<string, number | undefined>();
  const rateOf = (trick: string): number | undefined => {
    const key = comparable(trick);
    if (!rates.has(key)) {
      const record = season.records.recordOf(athlete, trick)?.inOrder();
      rates.set(key, assess(record ?? new AttemptLog(), season.standard, season.setSize).recentRate);
    }
    return rates.get(key);
  };
  const steps = inTime.map((entry, index): RoutineStep => ({
    ...entry,
    rate: rateOf(entry.trick),
    hasCounts: routine[index]?.counts !== undefined,
  }));
  const rated = steps.flatMap(({ rate }) => (rate === undefined ? [] : [rate]));
  return routinePicture(
    {
      ...{ athlete, steps, limitSeconds },
      cleanChance: rated.length === 0 ? undefined : cleanChance(rated),
      expectedDrops: expectedDrops(rated),
    },
    width,
  );
}

const PATH_STEPS = 60;

function tossOf(data: PictureData, trick: string, width: number): Picture {
  const { counts = 0, travel = 0 } = data.tosses.find((toss) => same(toss.trick, trick)) ?? {};
  const { releaseHeight, ceiling, unit, clearance } = data;
  const countsPerMinute = countsIn(data);
  const question: TossQuestion = {
    ...{ counts, travel, releaseHeight, catchHeight: releaseHeight, ceiling, unit },
    airtimeSeconds: countSeconds(counts, countsPerMinute),
  };
  return tossPicture(
    {
      ...{ trick, question, countsPerMinute, clearance },
      plan: planToss(question),
      path: flightPath(question, PATH_STEPS),
      atCounts: atCounts(question, countsPerMinute),
    },
    width,
  );
}

/** The release, each whole count, and the catch where it falls between two. */
function atCounts(question: TossQuestion, countsPerMinute: number): readonly FlightPoint[] {
  const whole = Array.from({ length: Math.floor(question.counts) + 1 }, (_, count) =>
    countSeconds(count, countsPerMinute),
  );
  const between = Number.isInteger(question.counts) ? [] : [question.airtimeSeconds];
  return flightAt(question, [...whole, ...between]);
}

/** As a season starts with, where the sheet holds none. */

function countsIn({ countsPerMinute }: PictureData): number {
  return countsPerMinute ?? defaultSettings.countsPerMinute;
}
