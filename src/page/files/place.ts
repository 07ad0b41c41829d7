/** The file that a workbook belongs to, in its own place on this computer: read, looked at again, written. */
import { isNamed } from "./file-access";

export interface Place {
  readonly handle: FileSystemFileHandle;
  /** The check sum of the file as it was last read or written here. */
  readonly sum: string;
}

interface ReadPlace {
  readonly bytes: Uint8Array;
  readonly place: Place;
}

export async function readPlace(handle: FileSystemFileHandle): Promise<ReadPlace> {
  const bytes = await contents(handle);
  return { bytes, place: { handle, sum: await checkSum(bytes) } };
}

/**
 * When the file was changed by somebody else since it was last read or written here; undefined where it was not. By its
 * contents: programs that carry files between computers change the times of files that they leave as they are.
 * @param written what is about to be written: where the file holds just that, nobody loses anything
 */
export async function changedByOthers({ handle, sum }: Place, written?: Uint8Array): Promise<Date | undefined> {
  const now = await checkSum(await contents(handle));
  if (now === sum || (written !== undefined && now === (await checkSum(written)))) return undefined;
  return new Date((await handle.getFile()).lastModified);
}

/** Resolves when the file holds the bytes: the browser has closed it, and it was read again. */
export async function writePlace(handle: FileSystemFileHandle, bytes: Uint8Array): Promise<Place> {
  const sum = await checkSum(bytes);
  // Written beside the file and put in its place when all is there: a writing that fails leaves the file as it was.
  const writing = await handle.createWritable({ mode: "exclusive" });
  try {
    await writing.write(bytes.slice());
    await writing.close();
  } catch (cause) {
    await writing.abort().catch(() => undefined);
    throw cause;
  }
  if ((await checkSum(await contents(handle))) !== sum) throw new NotAsWritten();
  return { handle, sum };
}

/** The file is not what was written into it. */
export class NotAsWritten extends Error {}

async function contents(handle: FileSystemFileHandle): Promise<Uint8Array> {
  const read = async (): Promise<Uint8Array> => new Uint8Array(await (await handle.getFile()).arrayBuffer());
  try {
    return await read();
  } catch (cause) {
    // It was written by another program between two steps of the reading.
    if (!isNamed(cause, "NotReadableError")) throw cause;
    return read();
  }
}

async function checkSum(bytes: Uint8Array): Promise<string> {
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes.slice()));
  return [...sum].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
