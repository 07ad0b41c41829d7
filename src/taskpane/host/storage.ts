/**
 * What was typed and not yet used, kept on this computer so that it survives closing the pane. Storage can be missing,
 * full or forbidden (private windows, a host's settings): then the pane works all the same and only forgets.
 */
export interface Drafts {
  /** The draft as it was kept, or null. Anything may stand in it: the reader checks. */
  read(name: string): unknown;
  /** Kept when this returns; false where the storage refused. */
  keep(name: string, draft: unknown): boolean;
  forget(name: string): void;
  /** The names of all that is kept. */
  names(): readonly string[];
}

const prefix = "twirl-ledger.";

/** Drafts in the browser's storage for this address. */
export function browserDrafts(storage: () => Storage = () => window.localStorage): Drafts {
  const guarded = <Answer>(work: (storage: Storage) => Answer, otherwise: Answer): Answer => {
    try {
      // Merely naming the storage throws where it is forbidden, hence the function.
      return work(storage());
    } catch {
      return otherwise;
    }
  };
  return {
    read: (name) =>
      guarded<unknown>((kept) => {
        const text = kept.getItem(prefix + name);
        return text === null ? null : JSON.parse(text);
      }, null),
    keep: (name, draft) =>
      guarded((kept) => {
        kept.setItem(prefix + name, JSON.stringify(draft));
        return true;
      }, false),
    forget: (name) => guarded((kept) => kept.removeItem(prefix + name), undefined),
    names: () =>
      guarded(
        (kept) =>
          Array.from({ length: kept.length }, (_, index) => kept.key(index) ?? "")
            .filter((key) => key.startsWith(prefix))
            .map((key) => key.slice(prefix.length)),
        [],
      ),
  };
}
