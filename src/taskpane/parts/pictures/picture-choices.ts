/** What there is to look at: for each picture the athletes and tricks that it has something to show of. */
import { comparable } from "../../../core/text";
import type { Practised } from "../../season/practice-records";
import type { PictureData } from "./picture-data";

export const PICTURE_KINDS = ["record", "failing", "landings", "routine", "toss"] as const;
export type PictureKind = (typeof PICTURE_KINDS)[number];

export interface PictureChoice {
  readonly kind: PictureKind;
  readonly athlete: string;
  readonly trick: string;
}

interface Choices {
  /** Null where the picture is of no athlete. */
  readonly athletes: readonly string[] | null;
  /** Null where the picture is of no one trick. */
  readonly tricks: readonly string[] | null;
}

/** What can be chosen for a picture, the latest logged first, given the athlete that is chosen. */
export function choicesFor(data: PictureData, kind: PictureKind, athlete: string): Choices {
  switch (kind) {
    case "record":
    case "failing":
      return byAthlete(data.season.records.practised, athlete);
    case "landings":
      return byAthlete([...data.landings].reverse(), athlete);
    case "routine":
      return { athletes: data.routine.length === 0 ? [] : data.season.athletes, tricks: null };
    case "toss":
      return { athletes: null, tricks: distinct(data.tosses.map(({ trick }) => trick)) };
  }
}

/** The choice with what cannot be chosen replaced by the first that can; null where there is nothing to look at. */
export function settled(data: PictureData, wanted: PictureChoice): PictureChoice | null {
  const { athletes } = choicesFor(data, wanted.kind, wanted.athlete);
  const athlete = athletes === null ? wanted.athlete : among(athletes, wanted.athlete);
  if (athlete === undefined) return null;
  const { tricks } = choicesFor(data, wanted.kind, athlete);
  const trick = tricks === null ? wanted.trick : among(tricks, wanted.trick);
  return trick === undefined ? null : { kind: wanted.kind, athlete, trick };
}

function byAthlete(rows: readonly Practised[], athlete: string): Choices {
  const named = rows.filter((row) => row.athlete !== "" && row.trick !== "");
  const key = comparable(athlete);
  return {
    athletes: distinct(named.map((row) => row.athlete)).sort((one, other) => one.localeCompare(other)),
    tricks: distinct(named.filter((row) => comparable(row.athlete) === key).map(({ trick }) => trick)),
  };
}

function distinct(names: readonly string[]): string[] {
  const found = new Map<string, string>();
  for (const name of names) if (!found.has(comparable(name))) found.set(comparable(name), name);
  return [...found.values()];
}

function among(names: readonly string[], wanted: string): string | undefined {
  const key = comparable(wanted);
  return names.find((name) => comparable(name) === key) ?? names[0];
}
