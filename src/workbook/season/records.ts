/** What a season may hold beyond its settings when it is built: an empty one holds none of it. */
import type { Stage } from "../../trade/stages";

/** What is known of a trick beyond its name and body counts. Empty texts and `null` where nobody has said. */
export interface TrickDetails {
  readonly release: string;
  readonly body: string;
  readonly catch: string;
  readonly hand: string;
  /** Counts on top of the body's; `null` for the usual two, one to spot and one to catch. */
  readonly extraCounts: number | null;
  /** How far the athlete travels under the toss, in the season's unit. */
  readonly travel: number | null;
  /** What the trick is worth caught, on the club's own scale. */
  readonly value: number | null;
  readonly inRoutine: boolean | null;
}

export interface PracticeEntry {
  /** Whole sheet serial number of the day. */
  readonly date: number;
  readonly athlete: string;
  readonly trick: string;
  readonly stage: Stage;
  /** As typed: `ccdcc ccccd`. */
  readonly marks: string;
  readonly minutes: number | null;
  /** What came right before and right after it, and what was different, parted by `;`; left out where nobody noted it. */
  readonly entrance?: string;
  readonly exit?: string;
  readonly condition?: string;
  readonly note: string;
}

/** One line of the routine: a toss trick of the season, or anything else that takes counts. */
export interface RoutineEntry {
  readonly trick: string;
  /** Counts in the routine, where they differ from those of the Tricks sheet. */
  readonly ownCounts: number | null;
}

/** A trick that one athlete leaves out of the routine for another, until it is back. */
export interface SwapEntry {
  readonly athlete: string;
  readonly out: string;
  readonly in: string;
  /** The day on which it was taken out, and the one on which it came back; `null` while it is out. */
  readonly day: number;
  readonly back: number | null;
}

/** Where one toss came down: from the target, to the right and forward, in the season's unit. */
export interface Landing {
  readonly date: number;
  readonly athlete: string;
  readonly trick: string;
  readonly sideways: number;
  readonly forward: number;
}

export interface ContestEntry {
  readonly date: number;
  readonly contest: string;
  readonly athlete: string;
  readonly tosses: number;
  readonly drops: number;
  readonly score: number | null;
  readonly penalties: number | null;
  readonly note: string;
}

/** A contest that is to come, beside the one that the settings name. */
export interface CalendarEntry {
  readonly date: number;
  readonly contest: string;
}

/** What the rules of a federation, a level or a hall allow in a routine. */
export interface LimitEntry {
  readonly on: "Tosses" | "Seconds" | "Tricks named";
  /** A part of the tricks' names, such as `quad`; empty for the others. */
  readonly named: string;
  /** 0 where it may not be shown at all. */
  readonly most: number;
}

/** What the choosing cells of the sheets show from the start. */
export interface Focus {
  readonly athlete: string;
  readonly trick: string;
  /** The trick whose landings are shown. */
  readonly landingTrick: string;
  /** The two tricks of the keep-or-swap form. */
  readonly keepTrick: string;
  readonly swapTrick: string;
  readonly ageYears: number;
  /** The minutes of practice that the week's plan shares out. */
  readonly weekMinutes: number;
}

export interface SeasonRecords {
  /** By the trick's name as it stands in the settings. */
  readonly trickDetails: ReadonlyMap<string, TrickDetails>;
  readonly practice: readonly PracticeEntry[];
  readonly routine: readonly RoutineEntry[];
  readonly swaps?: readonly SwapEntry[];
  readonly limits?: readonly LimitEntry[];
  readonly landings: readonly Landing[];
  readonly contests: readonly ContestEntry[];
  readonly calendar?: readonly CalendarEntry[];
  /** `null`: the season's first athlete and first tricks. */
  readonly focus: Focus | null;
}

export const noRecords: SeasonRecords = {
  trickDetails: new Map(),
  practice: [],
  routine: [],
  landings: [],
  contests: [],
  focus: null,
};
