/** What happened at the two contests of the sample season, toss by toss in the order of the routine. */
import type { ContestEntry, PracticeEntry } from "../season/season";
import { SPRING_CUP, WINTER_CONTEST, type ContestDay } from "./calendar";

interface Result {
  readonly contest: ContestDay;
  readonly athlete: string;
  /** Each toss of the routine with `c` or `d`. */
  readonly tosses: readonly (readonly [trick: string, mark: "c" | "d"])[];
  readonly score: number;
  readonly penalties: number;
  readonly note: string;
}

const results: readonly Result[] = [
  {
    contest: WINTER_CONTEST,
    athlete: "A.R.",
    tosses: [
      ["Double spin", "c"],
      ["Single illusion", "d"],
      ["Leap", "c"],
    ],
    score: 61.5,
    penalties: 0.6,
    note: "Illusion short; picked up in time",
  },
  {
    contest: WINTER_CONTEST,
    athlete: "D.L.",
    tosses: [
      ["Double spin", "c"],
      ["Flat under-leg", "c"],
      ["Single illusion", "c"],
      ["Leap back catch", "d"],
      ["Open hand back catch", "d"],
      ["Cartwheel blind catch", "c"],
      ["Triple spin", "c"],
    ],
    score: 66.5,
    penalties: 1,
    note: "Leap back catch dropped, then the next one",
  },
  {
    contest: WINTER_CONTEST,
    athlete: "J.T.",
    tosses: [
      ["Double spin", "c"],
      ["Flat under-leg", "d"],
    ],
    score: 54,
    penalties: 0.7,
    note: "First contest",
  },
  {
    contest: WINTER_CONTEST,
    athlete: "M.K.",
    tosses: [
      ["Double spin", "c"],
      ["Flat under-leg", "c"],
      ["Single illusion", "c"],
      ["Leap back catch", "d"],
      ["Open hand back catch", "c"],
      ["Cartwheel blind catch", "c"],
      ["Triple spin", "c"],
    ],
    score: 68,
    penalties: 0.5,
    note: "Leap back catch dropped",
  },
  {
    contest: WINTER_CONTEST,
    athlete: "N.W.",
    tosses: [
      ["Double spin", "c"],
      ["Flat under-leg", "c"],
      ["Open hand back catch", "c"],
    ],
    score: 60,
    penalties: 0.1,
    note: "Clean; one break in the rolls",
  },
  {
    contest: WINTER_CONTEST,
    athlete: "S.B.",
    tosses: [
      ["Double spin", "d"],
      ["Flat under-leg", "c"],
    ],
    score: 55.5,
    penalties: 0.5,
    note: "Counts rushed at the start",
  },
  {
    contest: SPRING_CUP,
    athlete: "A.R.",
    tosses: [
      ["Double spin", "c"],
      ["Single illusion", "c"],
      ["Leap", "c"],
    ],
    score: 64,
    penalties: 0,
    note: "First clean routine",
  },
  {
    contest: SPRING_CUP,
    athlete: "D.L.",
    tosses: [
      ["Double spin", "c"],
      ["Flat under-leg", "c"],
      ["Single illusion", "c"],
      ["Leap", "c"],
      ["Open hand back catch", "c"],
      ["Cartwheel blind catch", "c"],
      ["Triple spin", "c"],
    ],
    score: 70,
    penalties: 0,
    note: "Clean, with the leap to the hand",
  },
  {
    contest: SPRING_CUP,
    athlete: "J.T.",
    tosses: [
      ["Double spin", "c"],
      ["Flat under-leg", "d"],
    ],
    score: 56.5,
    penalties: 0.5,
    note: "Low ceiling over the side lane",
  },
  {
    contest: SPRING_CUP,
    athlete: "M.K.",
    tosses: [
      ["Double spin", "c"],
      ["Flat under-leg", "c"],
      ["Single illusion", "c"],
      ["Leap", "c"],
      ["Open hand back catch", "c"],
      ["Cartwheel blind catch", "d"],
      ["Triple spin", "d"],
    ],
    score: 66.5,
    penalties: 1.1,
    note: "Blind catch dropped, then the triple",
  },
  {
    contest: SPRING_CUP,
    athlete: "N.W.",
    tosses: [
      ["Double spin", "c"],
      ["Flat under-leg", "c"],
      ["Single illusion", "d"],
      ["Open hand back catch", "c"],
    ],
    score: 61,
    penalties: 0.5,
    note: "Illusion for the first time at a contest",
  },
  {
    contest: SPRING_CUP,
    athlete: "S.B.",
    tosses: [
      ["Double spin", "c"],
      ["Flat under-leg", "c"],
      ["Leap", "c"],
    ],
    score: 58.5,
    penalties: 0.1,
    note: "",
  },
];

/** One row an athlete and contest. */
export const contests: readonly ContestEntry[] = results.map(({ contest, athlete, tosses, ...rest }) => ({
  date: contest.date,
  contest: contest.name,
  athlete,
  tosses: tosses.length,
  drops: tosses.filter(([, mark]) => mark === "d").length,
  ...rest,
}));

/** The same tosses as rows of the log. */
export const contestPractice: readonly PracticeEntry[] = results.flatMap(({ contest, athlete, tosses }) =>
  tosses.map(([trick, marks]): PracticeEntry => ({
    date: contest.date,
    athlete,
    trick,
    stage: "Contest",
    marks,
    minutes: null,
    note: contest.name,
  })),
);
