/** Drafts in memory, which survive the pane as those in a browser's storage do. */
import type { Drafts } from "../../src/taskpane/host/storage";

export interface MemoryDrafts extends Drafts {
  readonly kept: Map<string, unknown>;
}

export function memoryDrafts(): MemoryDrafts {
  const kept = new Map<string, unknown>();
  return {
    kept,
    read: (name) => kept.get(name) ?? null,
    keep: (name, draft) => (kept.set(name, JSON.parse(JSON.stringify(draft))), true),
    forget: (name) => void kept.delete(name),
    names: () => [...kept.keys()],
  };
}
