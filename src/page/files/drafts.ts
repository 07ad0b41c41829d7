/**
 * The open workbook, kept by the browser on this machine alone, so that the next page opens with it and a reload or a crash
 * loses nothing. Each open page keeps its own; those of pages that are gone are left for others.
 */
import type { IWorkbookData } from "@univerjs/core";
import { type DBSchema, type IDBPDatabase, openDB } from "idb";

import type { Answers } from "../../grid/file/answers";
import type { Place } from "./place";

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
  /** The file that it is saved into; left out where it belongs to none. */
  readonly place?: Place;
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

interface Schema extends DBSchema {
  headings: { readonly key: string; readonly value: DraftHeading };
  snapshots: { readonly key: string; readonly value: { readonly id: string; readonly draft: Draft } };
  files: { readonly key: string; readonly value: { readonly id: string; readonly file: Uint8Array } };
}

/** Rejects where the browser keeps nothing, as in some private windows. */
export async function openDrafts(): Promise<Drafts> {
  const database = await openDatabase();
  return {
    left: async () => {
      const living = await livingPages();
      const headings = await database.getAll(HEADINGS);
      return headings.filter(({ id }) => !living.has(id)).sort((one, other) => other.time - one.time);
    },
    load: async (id) => {
      const [draft, file] = await Promise.all([database.get(SNAPSHOTS, id), database.get(FILES, id)]);
      return draft && file ? { draft: draft.draft, file: file.file } : undefined;
    },
    keep: (draft, file) =>
      change(database, (transaction) => {
        const { id, name, time, isChanged } = draft;
        return [
          transaction.objectStore(SNAPSHOTS).put({ id, draft }),
          ...(file ? [transaction.objectStore(FILES).put({ id, file })] : []),
          transaction.objectStore(HEADINGS).put({ id, name, time, ...(isChanged === undefined ? {} : { isChanged }) }),
        ];
      }),
    remove: (id) => change(database, (transaction) => STORES.map((store) => transaction.objectStore(store).delete(id))),
  };
}

type Change = ReturnType<typeof beginChange>;

/** Strict: on the disk before it counts as kept, so that an empty battery takes nothing of it. */
const beginChange = (database: IDBPDatabase<Schema>) =>
  database.transaction(STORES, "readwrite", { durability: "strict" });

/** All of it or nothing. */
async function change(
  database: IDBPDatabase<Schema>,
  work: (transaction: Change) => readonly Promise<unknown>[],
): Promise<void> {
  const transaction = beginChange(database);
  // Waited for below, unless a step is refused before that.
  transaction.done.catch(() => undefined);
  try {
    const steps = work(transaction);
    // Said now, not by the browser once the steps are answered: a page that is being left hears no answer.
    transaction.commit();
    await Promise.all([...steps, transaction.done]);
  } catch (cause) {
    // One step may be refused at once, with another already under way.
    await Promise.resolve()
      .then(() => transaction.abort())
      .catch(() => undefined);
    throw cause;
  }
}

function openDatabase(): Promise<IDBPDatabase<Schema>> {
  return openDB<Schema>(DATABASE, 1, {
    upgrade: (database) => {
      for (const store of STORES) database.createObjectStore(store, { keyPath: "id" });
    },
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
