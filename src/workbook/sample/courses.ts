/** Who learns what in the sample season, and how it goes: the story behind the log. */
import type { Stage } from "../../trade/stages";

/** How many sets each stage takes before the next begins; the last one goes on to the end. */
type Path = readonly (readonly [Stage, number])[];

/** A part of the way in which the learning goes on alike. */
export interface Phase {
  readonly fromWeek: number;
  readonly path: Path;
  /** True catch rate at the first joined set, the one it tends to, and the sets it takes to come two thirds of the way. */
  readonly rate: { readonly first: number; readonly last: number; readonly pace: number };
  /** Share of attempts that are given up. */
  readonly bails?: number;
  /** What the coach notes beside the first set. */
  readonly note?: string;
}

/** How one athlete learns one trick. */
export interface Course {
  readonly trick: string;
  /** How often it is worked on compared with the athlete's other tricks. */
  readonly turns: number;
  readonly phases: readonly [Phase, ...Phase[]];
  /** The weeks in which it is part of the run-throughs. */
  readonly inRoutine?: { readonly fromWeek: number; readonly untilWeek?: number };
  /** No more than this many sets. */
  readonly mostSets?: number;
  /** The marks of the very last set, for an end that chance would not tell by itself. */
  readonly lastMarks?: string;
  /** Another stream of chance for the same course. */
  readonly draw?: number;
}

export interface AthleteStory {
  readonly athlete: string;
  /** Sets on a usual practice day, at least and at most; fewer when the routine is run. */
  readonly sets: readonly [least: number, most: number];
  readonly courses: readonly Course[];
}

/** Learned in a season before: body and toss once more, and then joined. */
const KNOWN: Path = [
  ["Body only", 1],
  ["Toss only", 1],
  ["Joined", 4],
  ["In context", Infinity],
];
const FROM_THE_START: Path = [
  ["Body only", 3],
  ["Toss only", 4],
  ["Wall", 2],
  ["Joined", 12],
  ["In context", Infinity],
];
const NOT_YET_IN_CONTEXT: Path = [
  ["Body only", 3],
  ["Toss only", 3],
  ["Wall", 1],
  ["Joined", Infinity],
];
const JUST_TAKEN_UP: Path = [
  ["Body only", 2],
  ["Toss only", 2],
  ["Joined", Infinity],
];
/** A safe trick that takes the place of another. */
const TAKES_ITS_PLACE: Path = [
  ["Body only", 1],
  ["Joined", 1],
  ["In context", Infinity],
];
const BACK_TO_THE_START: Path = [
  ["Body only", 2],
  ["Toss only", 2],
  ["Wall", 1],
  ["Joined", Infinity],
];
const GOES_ON: Path = [["In context", Infinity]];

/** The routine as it is run from the first Saturday of January on. */
const FROM_JANUARY = { fromWeek: 12 } as const;
const UNTIL_THE_WINTER_CONTEST = { fromWeek: 12, untilWeek: 17 } as const;
const AFTER_THE_WINTER_CONTEST = { fromWeek: 18 } as const;

function learns(fromWeek: number, path: Path, first: number, last: number, pace: number): Phase {
  return { fromWeek, path, rate: { first, last, pace } };
}

/** A trick that goes as it goes, without turns in its story. */
function steady(
  trick: string,
  turns: number,
  phase: Phase,
  more: Omit<Partial<Course>, "trick" | "turns" | "phases"> = {},
): Course {
  return { trick, turns, phases: [phase], ...more };
}

export const stories: readonly AthleteStory[] = [
  {
    athlete: "A.R.",
    sets: [4, 6],
    courses: [
      steady("Double spin", 1, learns(0, KNOWN, 0.84, 0.97, 5), { inRoutine: FROM_JANUARY }),
      {
        trick: "Single illusion",
        turns: 1.3,
        phases: [
          learns(0, KNOWN, 0.74, 0.93, 4),
          {
            ...learns(8, GOES_ON, 0.5, 0.46, 4),
            bails: 0.1,
            note: "Turns away from the baton; slower, and no pushing",
          },
          { ...learns(10, BACK_TO_THE_START, 0.66, 0.9, 5), note: "Back to body and toss apart until both feel safe" },
        ],
        inRoutine: { fromWeek: 14 },
      },
      steady("Leap", 1, learns(0, KNOWN, 0.8, 0.89, 6), { inRoutine: FROM_JANUARY, draw: 5 }),
      steady("Open hand back catch", 1, learns(1, KNOWN, 0.45, 0.68, 12)),
      steady("Triple spin", 1.1, learns(2, FROM_THE_START, 0.3, 0.68, 12)),
      steady("Cartwheel", 0.9, learns(4, FROM_THE_START, 0.55, 0.86, 6)),
      steady("Double spin left hand", 0.9, learns(6, KNOWN, 0.6, 0.88, 7)),
      steady("Double spin blind catch", 0.9, learns(13, NOT_YET_IN_CONTEXT, 0.25, 0.6, 9)),
      steady("Flat under-leg", 0.9, learns(11, FROM_THE_START, 0.4, 0.66, 10), { lastMarks: "ccccd ccccc" }),
    ],
  },
  {
    athlete: "D.L.",
    sets: [4, 6],
    courses: [
      steady("Double spin", 0.8, learns(0, KNOWN, 0.93, 0.99, 4), { inRoutine: FROM_JANUARY }),
      steady("Flat under-leg", 0.6, learns(0, KNOWN, 0.92, 0.98, 4), { inRoutine: FROM_JANUARY }),
      steady("Single illusion", 0.9, learns(0, KNOWN, 0.86, 0.96, 5), { inRoutine: FROM_JANUARY }),
      {
        trick: "Leap back catch",
        turns: 1.5,
        phases: [
          learns(0, KNOWN, 0.78, 0.91, 5),
          { ...learns(16, GOES_ON, 0.5, 0.42, 4), bails: 0.12, note: "Looks for the baton too late" },
          {
            ...learns(18, BACK_TO_THE_START, 0.88, 0.96, 3),
            note: "Out of the routine, the leap to the hand instead; retrained apart",
          },
        ],
        inRoutine: UNTIL_THE_WINTER_CONTEST,
        draw: 3,
      },
      steady("Leap", 1.6, learns(17, TAKES_ITS_PLACE, 0.9, 0.98, 3), { inRoutine: AFTER_THE_WINTER_CONTEST }),
      steady("Open hand back catch", 0.9, learns(0, KNOWN, 0.72, 0.88, 8), { inRoutine: FROM_JANUARY }),
      steady("Cartwheel blind catch", 1.1, learns(0, KNOWN, 0.72, 0.9, 8), { inRoutine: FROM_JANUARY }),
      steady("Triple spin", 1, learns(0, KNOWN, 0.82, 0.96, 6), { inRoutine: FROM_JANUARY }),
      steady("Double illusion", 1.2, learns(1, FROM_THE_START, 0.25, 0.68, 14), { draw: 8 }),
      steady("Quad spin", 1, learns(8, FROM_THE_START, 0.2, 0.6, 12)),
      steady("Illusion back catch", 1, learns(10, NOT_YET_IN_CONTEXT, 0.3, 0.64, 10)),
      steady("Back walkover", 0.9, learns(18, JUST_TAKEN_UP, 0.3, 0.5, 8), { mostSets: 5, lastMarks: "dcdd" }),
    ],
  },
  {
    athlete: "J.T.",
    sets: [3, 5],
    courses: [
      steady("Single spin", 1, learns(0, FROM_THE_START, 0.6, 0.97, 5)),
      steady("Double spin", 1.3, learns(0, FROM_THE_START, 0.4, 0.86, 10), { inRoutine: { fromWeek: 13 }, draw: 3 }),
      steady("Flat under-leg", 1, learns(1, FROM_THE_START, 0.3, 0.68, 14), { inRoutine: { fromWeek: 13 } }),
      steady("Open hand back catch", 0.9, learns(8, FROM_THE_START, 0.25, 0.6, 10)),
      steady("Flat single spin", 0.8, learns(14, FROM_THE_START, 0.45, 0.66, 8), { lastMarks: "ccdcc ccccd" }),
      steady("Single illusion", 0.8, learns(19, JUST_TAKEN_UP, 0.3, 0.4, 8), { mostSets: 5, lastMarks: "ddcdd" }),
    ],
  },
  {
    athlete: "M.K.",
    sets: [4, 6],
    courses: [
      steady("Double spin", 0.7, learns(0, KNOWN, 0.93, 0.98, 4), { inRoutine: FROM_JANUARY }),
      steady("Flat under-leg", 0.6, learns(0, KNOWN, 0.9, 0.97, 4), { inRoutine: FROM_JANUARY }),
      steady("Single illusion", 0.9, learns(0, KNOWN, 0.82, 0.96, 5), { inRoutine: FROM_JANUARY }),
      {
        trick: "Leap back catch",
        turns: 1,
        phases: [
          learns(0, KNOWN, 0.5, 0.68, 10),
          {
            ...learns(18, [["Joined", Infinity]], 0.6, 0.7, 8),
            note: "Out of the routine, the leap to the hand instead",
          },
        ],
        inRoutine: UNTIL_THE_WINTER_CONTEST,
        draw: 3,
      },
      steady("Leap", 1.6, learns(17, TAKES_ITS_PLACE, 0.84, 0.94, 4), { inRoutine: AFTER_THE_WINTER_CONTEST }),
      steady("Open hand back catch", 0.9, learns(0, KNOWN, 0.76, 0.93, 7), { inRoutine: FROM_JANUARY }),
      {
        trick: "Cartwheel blind catch",
        turns: 1.2,
        phases: [
          learns(0, FROM_THE_START, 0.4, 0.95, 8),
          { ...learns(20, GOES_ON, 0.6, 0.5, 3), bails: 0.1, note: "Looks over the wrong shoulder" },
        ],
        inRoutine: FROM_JANUARY,
      },
      steady("Triple spin", 1.1, learns(0, KNOWN, 0.66, 0.87, 9), { inRoutine: FROM_JANUARY, draw: 11 }),
      steady("Front walkover", 1, learns(5, FROM_THE_START, 0.3, 0.68, 12)),
      steady("Double illusion", 0.9, learns(17, JUST_TAKEN_UP, 0.35, 0.5, 6), {
        mostSets: 5,
        lastMarks: "dcddc d",
      }),
      steady("Cartwheel", 1.4, learns(20, KNOWN, 0.82, 0.9, 4), { draw: 11 }),
    ],
  },
  {
    athlete: "N.W.",
    sets: [3, 6],
    courses: [
      steady("Double spin", 1, learns(0, KNOWN, 0.74, 0.87, 8), { inRoutine: FROM_JANUARY, draw: 2 }),
      steady("Flat under-leg", 0.8, learns(0, KNOWN, 0.82, 0.97, 5), { inRoutine: FROM_JANUARY }),
      steady("Open hand back catch", 1, learns(0, KNOWN, 0.66, 0.88, 8), { inRoutine: FROM_JANUARY }),
      steady("Single illusion", 1.2, learns(2, FROM_THE_START, 0.4, 0.88, 9), { inRoutine: AFTER_THE_WINTER_CONTEST }),
      steady("Flat single spin", 0.8, learns(3, FROM_THE_START, 0.66, 0.96, 5)),
      steady("Cartwheel", 1, learns(9, FROM_THE_START, 0.35, 0.66, 10)),
      steady("Backhand head catch", 0.8, learns(14, NOT_YET_IN_CONTEXT, 0.3, 0.58, 8)),
    ],
  },
  {
    athlete: "S.B.",
    sets: [3, 5],
    courses: [
      steady("Single spin", 0.7, learns(0, KNOWN, 0.88, 0.98, 4)),
      steady("Double spin", 1.2, learns(0, FROM_THE_START, 0.5, 0.87, 9), { inRoutine: { fromWeek: 13 }, draw: 4 }),
      steady("Flat under-leg", 1, learns(0, KNOWN, 0.62, 0.86, 9), { inRoutine: { fromWeek: 13 }, draw: 4 }),
      steady("Leap", 1, learns(6, FROM_THE_START, 0.5, 0.87, 7), { inRoutine: AFTER_THE_WINTER_CONTEST }),
      steady("One and a half spin", 0.9, learns(4, FROM_THE_START, 0.55, 0.87, 7)),
      steady("Open hand back catch", 0.9, learns(7, FROM_THE_START, 0.25, 0.64, 12)),
      {
        trick: "Cartwheel",
        turns: 0.8,
        phases: [
          { ...learns(10, NOT_YET_IN_CONTEXT, 0.4, 0.5, 8), bails: 0.08 },
          { ...learns(17, BACK_TO_THE_START, 0.45, 0.62, 8), note: "Body and toss apart again, no hurry" },
        ],
      },
    ],
  },
];
