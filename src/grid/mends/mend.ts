/** A mend: what the grid does otherwise than the page needs, put right through the grid's own classes. */
import type { Injector } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";

interface MendedGrid {
  readonly api: FUniver;
  readonly injector: Injector;
  /** Says something to the coach that no cell can say. */
  readonly tell: (words: string) => void;
  /** Works every formula out anew. */
  readonly calculate: () => void;
}

export interface Mend<Needs extends keyof MendedGrid = keyof MendedGrid> {
  /** The mend's file. */
  readonly name: string;
  /** What goes wrong without it. */
  readonly why: string;
  /** What the grid would have to do by itself for the mend to go. */
  readonly until: string;
  /** Whether what it reaches for is there: another version of the grid may have moved it. May throw where a class is gone. */
  readonly isNeeded: (injector: Injector) => boolean;
  readonly apply: (grid: Pick<MendedGrid, Needs>) => void;
}

/**
 * Applies those that find what they reach for. A grid that has changed starts without the others: it lacks what they mend,
 * and does not fail.
 * @returns the names of those that were passed over
 */
export function applyMends<Needs extends keyof MendedGrid>(
  mends: readonly Mend<Needs>[],
  grid: Pick<MendedGrid, Needs | "injector">,
): readonly string[] {
  return mends.flatMap((mend) => {
    try {
      if (!mend.isNeeded(grid.injector)) return [mend.name];
      mend.apply(grid);
      return [];
    } catch {
      return [mend.name];
    }
  });
}

/** Whether an object of the grid's has all these, as functions. */
export function hasMethods(object: unknown, ...names: readonly string[]): boolean {
  return names.every((name) => typeof (object as Record<string, unknown> | undefined)?.[name] === "function");
}
