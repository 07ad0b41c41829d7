/** The files that were opened last: their names, the days and the way to them, in this browser on this device alone. */
import { type DBSchema, type IDBPDatabase, openDB } from "idb";

export interface RecentFile {
  readonly key: number;
  readonly name: string;
  /** `2027-03-02` */
  readonly day: string;
  readonly handle: FileSystemFileHandle;
}

interface Schema extends DBSchema {
  files: { readonly key: number; readonly value: Omit<RecentFile, "key"> };
}

/** A list of its own, beside that of the kept workbooks: an earlier version of the page goes on reading those. */
const DATABASE = "twirl-ledger-recent-files";
const STORE = "files";
const MOST = 5;

export class RecentFiles {
  private database: Promise<IDBPDatabase<Schema>> | undefined;

  /** The latest first. None where the browser keeps nothing. */
  async all(): Promise<readonly RecentFile[]> {
    try {
      const store = (await this.open()).transaction(STORE).store;
      const [keys, files] = await Promise.all([store.getAllKeys(), store.getAll()]);
      return files.map((file, index) => ({ ...file, key: keys[index] ?? 0 })).reverse();
    } catch {
      return [];
    }
  }

  /** Puts a file first. Those beyond five are forgotten. */
  async add(handle: FileSystemFileHandle, day: string): Promise<void> {
    const before = await this.all();
    const same = await Promise.all(before.map((one) => one.handle.isSameEntry(handle)));
    const others = before.filter((_, index) => same[index] !== true);
    const gone = [...before.filter((_, index) => same[index] === true), ...others.slice(MOST - 1)];
    const { store, done } = (await this.open()).transaction(STORE, "readwrite");
    await Promise.all([
      ...gone.map(({ key }) => store.delete(key)),
      store.add({ handle, name: handle.name, day }),
      done,
    ]);
  }

  async forget(key: number): Promise<void> {
    await (await this.open()).delete(STORE, key);
  }

  private open(): Promise<IDBPDatabase<Schema>> {
    return (this.database ??= openDB<Schema>(DATABASE, 1, {
      upgrade: (database) => void database.createObjectStore(STORE, { autoIncrement: true }),
    }));
  }
}
