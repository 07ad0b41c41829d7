/**
 * Operating characteristics of READINESS by simulation: whom the status passes, how often it cries wolf, and how soon it
 * notices a slide. The bare rule of 8 in 10 stands beside it, by simulation on the same sets and exactly.
 */
import { AttemptLog, CAUGHT, DROPPED } from "../../src/core/attempt-log";
import { readiness } from "../../src/core/readiness";
import { binomialAtMost } from "../../src/core/tails";
import { seededRandom } from "./random";

const STANDARD = 0.8;
const SET = 10;

function addSet(log: AttemptLog, rate: number, random: () => number): number {
  let caught = 0;
  for (let attempt = 0; attempt < SET; attempt++) {
    const hit = random() < rate;
    if (hit) caught++;
    log.add(hit ? CAUGHT : DROPPED);
  }
  return caught;
}

const isPassed = (status: string) => status === "Ready" || status === "Solid";
const percent = (share: number) => `${(100 * share).toFixed(1)} %`;

export function readinessBenchmark(print: (line: string) => void, rounds = 20_000): void {
  print(`READINESS, standard ${STANDARD}, sets of ${SET}, ${rounds} simulated athletes a row, seeded`);
  print(
    "Share passed (Ready or Solid) after a number of sets at a constant true rate, and the bare rule on the last set:",
  );
  print(
    "| true rate | after 1 set | 3 sets | 5 sets | 10 sets | ever in 10 sets | bare rule, last set | bare rule, exact |",
  );
  print("| --- | --- | --- | --- | --- | --- | --- | --- |");
  for (const rate of [0.6, 0.7, 0.8, 0.9]) {
    const random = seededRandom(1000 + Math.round(rate * 100));
    const passed = new Map<number, number>();
    let ever = 0;
    let bare = 0;
    for (let round = 0; round < rounds; round++) {
      const log = new AttemptLog();
      let once = false;
      for (let set = 1; set <= 10; set++) {
        const caught = addSet(log, rate, random);
        const pass = isPassed(readiness(log, STANDARD, SET));
        if (pass) passed.set(set, (passed.get(set) ?? 0) + 1);
        once ||= pass;
        if (set === 10 && caught >= STANDARD * SET) bare++;
      }
      if (once) ever++;
    }
    const after = (sets: number) => percent((passed.get(sets) ?? 0) / rounds);
    const exact = 1 - binomialAtMost(STANDARD * SET - 1, SET, rate);
    print(
      `| ${percent(rate)} | ${after(1)} | ${after(3)} | ${after(5)} | ${after(10)} | ${percent(ever / rounds)} | ${percent(bare / rounds)} | ${percent(exact)} |`,
    );
  }

  const random = seededRandom(77);
  let alarms = 0;
  let sets = 0;
  let athletesAlarmed = 0;
  for (let round = 0; round < rounds; round++) {
    const log = new AttemptLog();
    for (let set = 0; set < 5; set++) addSet(log, 0.9, random);
    let once = false;
    for (let set = 0; set < 10; set++) {
      addSet(log, 0.9, random);
      sets++;
      if (readiness(log, STANDARD, SET) === "At risk") {
        alarms++;
        once = true;
      }
    }
    if (once) athletesAlarmed++;
  }
  print(
    `False At risk at a true 90 %, sets 6 to 15: ${percent(alarms / sets)} of sets, ${percent(athletesAlarmed / rounds)} of athletes at least once in ten sets`,
  );

  const slide = seededRandom(78);
  const noticed: number[] = [];
  for (let round = 0; round < rounds; round++) {
    const log = new AttemptLog();
    for (let set = 0; set < 10; set++) addSet(log, 0.95, slide);
    if (!isPassed(readiness(log, STANDARD, SET))) continue;
    let after = 0;
    do {
      addSet(log, 0.6, slide);
      after++;
    } while (readiness(log, STANDARD, SET) !== "At risk" && after < 50);
    noticed.push(after);
  }
  noticed.sort((one, other) => one - other);
  const at = (share: number) => noticed[Math.floor(share * (noticed.length - 1))];
  print(
    `A slide from 95 % to 60 % is noticed after sets: median ${at(0.5)}, nine in ten within ${at(0.9)}, longest ${at(1)} (${noticed.length} athletes who were Ready or Solid)`,
  );
}
