/** Landing marks of three evenings, in metres from the tape: to the right of it and forward. */
import type { Landing } from "../season/season";
import { dayOf } from "./calendar";

type Marks = readonly (readonly [sideways: number, forward: number])[];

function evening(date: number, athlete: string, trick: string, marks: Marks): readonly Landing[] {
  return marks.map(([sideways, forward]) => ({ date, athlete, trick, sideways, forward }));
}

/** Drifts forward: the wall showed it. */
const TRIPLE_SPIN: Marks = [
  [0.4, 0.7],
  [0.1, 0.9],
  [0.6, 0.5],
  [0.3, 1.1],
  [-0.1, 0.6],
  [0.5, 0.8],
  [0.2, 0.4],
  [0.4, 1.0],
  [0.0, 0.7],
  [0.3, 0.8],
];

/** Wide of the tape on both sides: no drift, only scatter. */
const SINGLE_ILLUSION: Marks = [
  [-0.6, 0.2],
  [0.5, -0.3],
  [0.1, 0.6],
  [-0.3, -0.4],
  [0.7, 0.1],
  [-0.2, 0.3],
  [0.2, -0.5],
  [-0.5, 0.1],
];

/** To the left of the end mark. */
const FRONT_WALKOVER: Marks = [
  [-0.5, 0.2],
  [-0.8, -0.1],
  [-0.3, 0.3],
  [-0.6, 0.0],
  [-0.9, 0.4],
  [-0.4, -0.2],
  [-0.7, 0.1],
  [-0.5, 0.3],
];

const DOUBLE_SPIN: Marks = [
  [0.2, 0.1],
  [-0.3, 0.4],
  [0.4, -0.2],
  [0.0, 0.3],
  [-0.1, -0.4],
  [0.3, 0.2],
];

export const landings: readonly Landing[] = [
  ...evening(dayOf(9, 2), "A.R.", "Single illusion", SINGLE_ILLUSION),
  ...evening(dayOf(15, 2), "M.K.", "Triple spin", TRIPLE_SPIN),
  ...evening(dayOf(15, 2), "J.T.", "Double spin", DOUBLE_SPIN),
  ...evening(dayOf(19, 0), "M.K.", "Front walkover", FRONT_WALKOVER),
];
