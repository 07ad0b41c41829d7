/** What a season may hold beyond its settings when it is built: an empty one holds none of it. */

export const STAGES = ["Body only", "Toss only", "Wall", "Joined", "In context", "Run-through", "Contest"] as const;

/** The stages of learning in their order. */
export type Stage = (typeof STAGES)[number];

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
  readonly note: string;
}

export interface SeasonRecords {
  /** By the trick's name as it stands in the settings. */
  readonly trickDetails: ReadonlyMap<string, TrickDetails>;
  readonly practice: readonly PracticeEntry[];
}

export const noRecords: SeasonRecords = { trickDetails: new Map(), practice: [] };
