/** The stages that a club writes in its log, with those that are practised apart from the joined trick. */
import { comparable } from "../text";
import { valueAt, type CellBlock } from "./cell-block";
import { soundsApart } from "./heading-words";
import type { LogMapping } from "./mapping";
import { plainText } from "./plain-words";

export interface StageInLog {
  /** As it was met first. */
  readonly stage: string;
  readonly count: number;
  /** Whether its words say that body and toss are practised apart; the coach decides. */
  readonly soundsApart: boolean;
}

/** The most frequent first; none where the log has no column of stages. */
export function stagesInLog(block: CellBlock, { stage, firstRow, lastRow }: LogMapping): readonly StageInLog[] {
  if (stage === null) return [];
  const found = new Map<string, { readonly stage: string; count: number }>();
  const spellings = new Map<string, { readonly stage: string; count: number }>();
  for (let row = firstRow; row <= lastRow; row += 1) {
    const value = valueAt(block, row, stage);
    if (typeof value !== "string") continue;
    // A stage recurs in thousands of rows: spelled alike, it is compared once.
    let entry = spellings.get(value);
    if (entry === undefined) {
      const key = comparable(value);
      entry = found.get(key) ?? { stage: value.trim(), count: 0 };
      found.set(key, entry);
      spellings.set(value, entry);
    }
    entry.count += 1;
  }
  return [...found.values()]
    .sort((one, other) => other.count - one.count)
    .map((one) => ({ ...one, soundsApart: soundsApart(plainText(one.stage)) }));
}
