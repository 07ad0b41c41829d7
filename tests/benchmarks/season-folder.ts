/**
 * A folder of invented clubs' seasons, written by the project's own season and file writer: no two alike in size, the
 * same each time. Answers are not worked out, since the analysis reads what was typed and nothing else.
 */
import { existsSync, mkdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import { Chance } from "../../src/workbook/sample/chance";
import { dayOf, WEEKS } from "../../src/workbook/sample/calendar";
import { sampleTricks } from "../../src/workbook/sample/tricks";
import {
  defaultSettings,
  noRecords,
  seasonPlan,
  type ContestEntry,
  type PracticeEntry,
} from "../../src/workbook/season/season";
import { STAGES } from "../../src/trade/stages";
import { writeWorkbookFile } from "../../src/xlsx/write-plan";

const LETTERS = "ABCDEFGHIJKLMNOPRSTVW";
const [MONDAY, WEDNESDAY, FRIDAY, SUNDAY] = [0, 2, 4, 6] as const;

/** Writes what is not there yet. */
export function writeSeasonFolder(folder: string, clubs: number): void {
  mkdirSync(folder, { recursive: true });
  for (let club = 1; club <= clubs; club++) {
    const file = path.join(folder, `club-${String(club).padStart(4, "0")}.xlsx`);
    if (!existsSync(file)) writeFileSync(file, clubSeason(club));
  }
}

/** One club's season: 3 to 12 athletes, each with 3 to 6 tricks, three practices a week, two contests. */
export function clubSeason(club: number): Uint8Array {
  const chance = new Chance(`club ${club}`);
  const athletes = Array.from({ length: 3 + Math.floor(chance.next() * 10) }, (_, index) => {
    const [one, other] = [LETTERS[index], LETTERS[Math.floor(chance.next() * LETTERS.length)]];
    return `${one ?? "A"}.${other ?? "B"}.`;
  });
  const learning = athletes.flatMap((athlete) =>
    Array.from({ length: 3 + Math.floor(chance.next() * 4) }, () => ({
      athlete,
      trick: chance.pick(sampleTricks).name,
      rate: 0.55 + 0.42 * chance.next(),
    })),
  );
  const practice: PracticeEntry[] = [];
  for (let week = 0; week < WEEKS; week++) {
    for (const weekday of [MONDAY, WEDNESDAY, FRIDAY]) {
      for (const { athlete, trick, rate } of learning) {
        if (!chance.happens(0.4)) continue;
        const stage = week < 2 ? "Toss only" : week < 12 ? "Joined" : chance.pick(STAGES.slice(3, 6));
        const marks = Array.from({ length: 10 }, () => (chance.happens(rate) ? "c" : chance.happens(0.03) ? "b" : "d"));
        const written = `${marks.slice(0, 5).join("")} ${marks.slice(5).join("")}`;
        practice.push({ date: dayOf(week, weekday), athlete, trick, stage, marks: written, minutes: 8, note: "" });
      }
    }
  }
  const contests: ContestEntry[] = [17, WEEKS - 1].flatMap((week) =>
    athletes.map((athlete) => ({
      date: dayOf(week, SUNDAY),
      contest: `Contest of week ${week + 1}`,
      athlete,
      tosses: 10,
      drops: Math.floor(chance.next() * 4),
      score: null,
      penalties: null,
      note: "",
    })),
  );
  const settings = {
    ...defaultSettings,
    label: "2027",
    athletes,
    tricks: sampleTricks.map(({ name, bodyCounts }) => ({ name, bodyCounts })),
  };
  return writeWorkbookFile(seasonPlan(settings, { ...noRecords, practice, contests }));
}
