/** Columns of a log that a board does not read although they hold numbers or attempts: they are named, never passed over. */
import { shareOf } from "./column-profile";
import { columnOf, recordColumns, type LogMapping } from "./mapping";
import { marksShare, type LookedAtColumn } from "./record-columns";

export interface UnusedColumn {
  readonly column: number;
  readonly heading: string;
  readonly holds: "numbers" | "attempts";
}

const LEAST_SHARE = 0.5;

export function unusedColumns(columns: readonly LookedAtColumn[], mapping: LogMapping): readonly UnusedColumn[] {
  const over = [mapping.athlete, mapping.trick].map((source) => (source && "over" in source ? source.over : null));
  const used = new Set([
    mapping.date,
    columnOf(mapping.athlete),
    columnOf(mapping.trick),
    mapping.stage,
    ...over,
    ...recordColumns(mapping.record),
  ]);
  return columns.flatMap((looked): readonly UnusedColumn[] => {
    const { profile, heading } = looked;
    if (used.has(profile.column) || profile.filled === 0) return [];
    const { column } = profile;
    if (marksShare(looked) >= LEAST_SHARE) return [{ column, heading, holds: "attempts" }];
    const numbers = shareOf(profile.counts + profile.otherNumbers, profile.filled);
    return numbers >= LEAST_SHARE ? [{ column, heading, holds: "numbers" }] : [];
  });
}
