/** Which season the coach looks at: the one whose sheet is in sight. */
import type { WorkbookHost } from "../host/host";
import { seasonKey, type SeasonKey } from "./season-data";

/** The season by a sheet's name, which ends in its label; undefined for a sheet of none. */
export function seasonOfSheet(sheet: string, seasons: readonly SeasonKey[]): SeasonKey | undefined {
  const words = sheet.trim().split(/\s+/);
  // The longest label first: `A 2027` is another season than `2027`.
  for (let from = 1; from < words.length; from += 1) {
    const key = seasonKey(words.slice(from).join(" "));
    const found = seasons.find((season) => season.toLowerCase() === key.toLowerCase());
    if (found !== undefined) return found;
  }
  return undefined;
}

export interface SeasonInView {
  /** The season in sight, where it is another one than at the last look: what the coach chose meanwhile holds until then. */
  turnedTo(seasons: readonly SeasonKey[]): Promise<SeasonKey | undefined>;
}

export function seasonInView(host: Pick<WorkbookHost, "sheetInView">): SeasonInView {
  let last: SeasonKey | undefined;
  return {
    turnedTo: async (seasons) => {
      if (seasons.length === 0) return undefined;
      const season = seasonOfSheet(await host.sheetInView(), seasons);
      if (season === undefined || season === last) return undefined;
      last = season;
      return season;
    },
  };
}
