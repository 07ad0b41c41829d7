/**
 * The open workbook, kept by the browser on this machine alone, so that the next page opens with it and a reload or a crash
 * loses nothing. Each open page keeps its own; those of pages that are gone are left for others.
 */
import type { IWorkbookData } from "@univerjs/core";

import type { Answers } from "../../grid/file/answers";

export interface Draft {
  readonly id: string;
  readonly name: string;
  /** When it was kept, in milliseconds since 1970. */
  readonly time: number;
  /** Whether it has changes that are not saved. Those of earlier versions of this page all have. */
  readonly isChanged?: boolean;
  /** The grid as it was; left out where the file says it all. */
  readonly snapshot?: IWorkbookData;
  readonly opening: Answers | undefined;
}

export interface DraftHeading {
  readonly id: string;
  readonly name: string;
  readonly time: number;
  readonly isChanged?: boolean;
}

export interface KeptWorkbook {
  readonly draft: Draft;
  /** The package behind the workbook. */
  readonly file: Uint8Array;
}

export interface Drafts {
  /** Those whose page is gone, the latest first. */
  left(): Promise<DraftHeading[]>;
  load(id: string): Promise<KeptWorkbook | undefined>;
  /** @param file the package behind the workbook; left out where the one kept before still holds */
  keep(draft: Draft, file?: Uint8Array): Promise<void>;
  remove(id: string): Promise<void>;
}

const DATABASE = "twirl-ledger-unsaved";
const HEADINGS = "headings";
const SNAPSHOTS = "snapshots";
const FILES = "files";
const STORES = [HEADINGS, SNAPSHOTS, FILES] as const;

/** Rejects where the browser keeps nothing, as in some private windows. */
export async function openDrafts(): Promise<Drafts> {
  const database = await openDatabase();
  const change = (stores: readonly string[], work: (transaction: IDBTransaction) => void): Promise<void> =>
    new Promise((resolve, reject) => {
      const transaction = database.transaction(stores, "readwrite");
      transaction.oncomplete = () => resolve();
      transaction.onerror = transaction.onabort = () => reject(transaction.error ?? new Error("Nothing was kept."));
      work(transaction);
    });
  const read = <T>(store: string, key?: string): Promise<T> =>
    new Promise((resolve, reject) => {
      const reading = database.transaction(store).objectStore(store);
      const request = key === undefined ? reading.getAll() : reading.get(key);
      request.onsuccess = () => resolve(request.result as T);
      request.onerror = () => reject(request.error ?? new Error("Nothing could be read."));
    });
  return {
    left: async () => {
      const living = await livingPages();
      const headings = await read<DraftHeading[]>(HEADINGS);
      return headings.filter(({ id }) => !living.has(id)).sort((one, other) => other.time - one.time);
    },
    load: async (id) => {
      const [draft, file] = await Promise.all([
        read<{ draft: Draft } | undefined>(SNAPSHOTS, id),
        read<{ file: Uint8Array } | undefined>(FILES, id),
      ]);
      return draft && file ? { draft: draft.draft, file: file.file } : undefined;
    },
    keep: (draft, file) =>
      change(STORES, (transaction) => {
        const { id, name, time, isChanged } = draft;
        transaction.objectStore(HEADINGS).put({ id, name, time, isChanged });
        transaction.objectStore(SNAPSHOTS).put({ id, draft });
        if (file) transaction.objectStore(FILES).put({ id, file });
      }),
    remove: (id) =>
      change(STORES, (transaction) => {
        for (const store of STORES) transaction.objectStore(store).delete(id);
      }),
  };
}

function openDatabase(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(DATABASE, 1);
    request.onupgradeneeded = () => {
      for (const store of STORES) request.result.createObjectStore(store, { keyPath: "id" });
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("The browser keeps nothing."));
    request.onblocked = () => reject(new Error("Another page holds what is kept."));
  });
}

const LOCK_START = "twirl-ledger-page ";

/**
 * Says for as long as this page lives that the draft is its own. False where it is another page's: two that open in the same
 * moment do not open with the same work.
 */
export function claimDraft(id: string): Promise<boolean> {
  // Where there are no such locks, a second page would open with the first one's work: nothing is lost by that.
  const locks = navigator.locks as LockManager | undefined;
  if (locks === undefined) return Promise.resolve(true);
  return new Promise((resolve) => {
    locks
      .request(LOCK_START + id, { ifAvailable: true }, (lock) => {
        resolve(lock !== null);
        return lock === null ? undefined : new Promise(() => undefined);
      })
      .catch(() => resolve(true));
  });
}

async function livingPages(): Promise<ReadonlySet<string>> {
  const held = (await navigator.locks?.query().catch(() => undefined))?.held ?? [];
  return new Set(
    held.flatMap(({ name }) => (name?.startsWith(LOCK_START) === true ? [name.slice(LOCK_START.length)] : [])),
  );
}
