/**
 * What comes true of CONTESTCHANCE's forecasts: invented athletes practise one trick, their true rate goes along a curve
 * of a known shape, and the forecast is held against the true rate on the contest day.
 */
import { contestChance } from "../../src/core/contest-chance";
import { Missing } from "../../src/core/problem";
import type { PracticeDay } from "../../src/core/ready-date";
import { seededRandom } from "./random";

type Random = () => number;
/** The true rate by day of the log. */
type Curve = (day: number) => number;

export interface Shape {
  readonly name: string;
  readonly draw: (between: (least: number, most: number) => number, days: number) => Curve;
}

/** Learning curves, their sizes drawn evenly: common practice, no source. */
export const SHAPES: readonly Shape[] = [
  {
    name: "stays",
    draw: (between) => {
      const rate = between(0.4, 0.98);
      return () => rate;
    },
  },
  {
    name: "rises to a plateau",
    draw: (between) => {
      const [end, start, days] = [between(0.6, 0.98), between(0.2, 0.6), between(21, 84)];
      return (day) => end - (end - start) * Math.exp(-day / days);
    },
  },
  {
    name: "rises at once",
    draw: (between, length) => {
      const [before, after, when] = [between(0.3, 0.7), between(0.7, 0.97), between(0, length)];
      return (day) => (day < when ? before : after);
    },
  },
  {
    name: "goes on rising",
    draw: (between) => {
      const [start, aWeek] = [between(-1, 1.5), between(0, 0.25)];
      return (day) => shareOf(Math.min(4, start + (aWeek * day) / 7));
    },
  },
];

/** A slide that goes on is no learning curve, and what is seen of it in time is told by the status; for the table only. */
export const SLIDE: Shape = {
  name: "slides, and goes on sliding",
  draw: (between, length) => {
    const [rate, when, aDay] = [between(0.8, 0.97), between(0.5, 1) * length, between(0.01, 0.05)];
    return (day) => (day < when ? rate : shareOf(logOdds(rate) - aDay * (day - when)));
  },
};

const STANDARD = 0.8;
const SET_SIZE = 10;
const START = 46000;

export interface Forecast {
  readonly chance: number;
  /** Whether the true rate was at the standard on the day. */
  readonly cameTrue: boolean;
}

/** @param dayEffect how much a day's rate differs by itself, a standard deviation on the log-odds */
export function forecasts(shape: Shape, athletes: number, dayEffect: number): Forecast[] {
  const random = seededRandom(20261130);
  const found: Forecast[] = [];
  for (let athlete = 0; athlete < athletes; athlete++) {
    const { days, contest, rate } = season(shape, dayEffect, random);
    const chance = chanceOf(days, contest);
    if (chance !== undefined) found.push({ chance, cameTrue: rate >= STANDARD });
  }
  return found;
}

/** Of the forecasts with a chance from `least` to `most`. */
export function shareTrue(all: readonly Forecast[], least: number, most: number): { told: number; share: number } {
  const told = all.filter(({ chance }) => chance >= least && chance < most);
  return { told: told.length, share: told.filter(({ cameTrue }) => cameTrue).length / told.length };
}

/** Three to 24 weeks of a set of ten every two or three days, and a contest up to eight weeks ahead. */
function season(
  shape: Shape,
  dayEffect: number,
  random: Random,
): { days: PracticeDay[]; contest: number; rate: number } {
  const between = (least: number, most: number): number => least + (most - least) * random();
  const length = Math.round(between(21, 168));
  const curve = shape.draw(between, length);
  const ahead = Math.round(between(1, Math.min(56, length)));
  const days: PracticeDay[] = [];
  for (let day = 0; day <= length; day += random() < 0.5 ? 2 : 3) {
    const rate = shareOf(logOdds(Math.min(0.999, curve(day))) + dayEffect * normal(random));
    let caught = 0;
    for (let attempt = 0; attempt < SET_SIZE; attempt++) if (random() < rate) caught += 1;
    days.push({ date: START + day, caught, attempts: SET_SIZE });
  }
  const last = days[days.length - 1]?.date ?? START;
  return { days, contest: last + ahead, rate: curve(last - START + ahead) };
}

function chanceOf(days: readonly PracticeDay[], contest: number): number | undefined {
  try {
    return contestChance(days, contest, STANDARD, SET_SIZE, 0.8).chance;
  } catch (error) {
    if (error instanceof Missing) return undefined;
    throw error;
  }
}

function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

function logOdds(rate: number): number {
  return Math.log(rate / (1 - rate));
}

function shareOf(odds: number): number {
  return 1 / (1 + Math.exp(-odds));
}

const ATHLETES = 30_000;

export function contestBenchmark(print: (line: string) => void): void {
  const bands = [0.1, 0.3, 0.5, 0.6, 0.7, 0.8, 0.9];
  const heads = bands.slice(1).map((most, index) => `${percent(bands[index] as number)}–${percent(most)} %`);
  for (const dayEffect of [0, 0.4]) {
    print(`Of forecasts that say so much, so many per cent came true; days differ by ${dayEffect} on the log-odds.\n`);
    print(`| true rate | ${heads.join(" | ")} |`);
    print(`| --- |${heads.map(() => " --- |").join("")}`);
    for (const shape of [...SHAPES, SLIDE]) {
      const all = forecasts(shape, ATHLETES, dayEffect);
      const cells = bands.slice(1).map((most, index) => {
        const { told, share } = shareTrue(all, bands[index] as number, most);
        return `${percent(share)} ± ${(100 * Math.sqrt((share * (1 - share)) / told)).toFixed(1)}`;
      });
      print(`| ${shape.name} | ${cells.join(" | ")} |`);
    }
    print("");
  }
}

function percent(share: number): number {
  return Math.round(100 * share);
}
