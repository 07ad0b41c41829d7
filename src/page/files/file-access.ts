/**
 * What some browsers have for files in their own place, beyond what the compiler knows (WICG, File System Access; WICG,
 * Web App Launch). Nothing of it is everywhere, so all of it may be missing.
 */
interface PickerOptions {
  /** The browser remembers the last folder by it. */
  readonly id?: string;
  readonly types?: readonly { readonly description: string; readonly accept: Readonly<Record<string, string[]>> }[];
  readonly excludeAcceptAllOption?: boolean;
  readonly startIn?: FileSystemFileHandle;
  readonly suggestedName?: string;
}

type Access = "read" | "readwrite";

declare global {
  interface Window {
    showOpenFilePicker?: (options: PickerOptions) => Promise<FileSystemFileHandle[]>;
    showSaveFilePicker?: (options: PickerOptions) => Promise<FileSystemFileHandle>;
    /** What an installed page was chosen to open. */
    readonly launchQueue?: {
      setConsumer(consumer: (launched: { readonly files?: readonly FileSystemHandle[] }) => void): void;
    };
  }
  interface FileSystemHandle {
    queryPermission?: (wanted: { readonly mode: Access }) => Promise<PermissionState>;
    requestPermission?: (wanted: { readonly mode: Access }) => Promise<PermissionState>;
  }
  interface FileSystemCreateWritableOptions {
    mode?: "exclusive" | "siloed";
  }
  interface DataTransferItem {
    getAsFileSystemHandle?: () => Promise<FileSystemHandle | null>;
  }
}

const KINDS: Readonly<Record<string, string>> = {
  ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
  ".xlsm": "application/vnd.ms-excel.sheet.macroEnabled.12",
  ".xltx": "application/vnd.openxmlformats-officedocument.spreadsheetml.template",
  ".xltm": "application/vnd.ms-excel.template.macroEnabled.12",
};

/** What is opened as a new workbook, and never written. */
const OPENED_ONLY: Readonly<Record<string, string>> = {
  ".ods": "application/vnd.oasis.opendocument.spreadsheet",
  ".csv": "text/csv",
  ".tsv": "text/tab-separated-values",
  ".txt": "text/plain",
};

const PICKER = "workbooks";

/** Whether a workbook can be saved into a file that the coach chooses. */
export function canChoosePlace(): boolean {
  return window.showSaveFilePicker !== undefined && window.showOpenFilePicker !== undefined;
}

/** To be called at a press. Undefined where none was chosen. */
export async function chooseFile(words: string): Promise<FileSystemFileHandle | undefined> {
  const accept = Object.fromEntries(
    Object.entries({ ...KINDS, ...OPENED_ONLY }).map(([ending, type]) => [type, [ending]]),
  );
  const types = [{ description: words, accept }];
  return unlessLeft(async () => (await window.showOpenFilePicker?.({ id: PICKER, types }))?.[0]);
}

/**
 * To be called at a press. Undefined where none was chosen. A file that was there and is chosen is emptied by the browser:
 * what is to be written has to be at hand already.
 */
export async function choosePlace(
  name: string,
  words: string,
  beside?: FileSystemFileHandle,
): Promise<FileSystemFileHandle | undefined> {
  const ending = endingOf(name);
  const types = [{ description: words, accept: { [KINDS[ending] ?? "application/octet-stream"]: [ending] } }];
  const startIn = beside === undefined ? {} : { startIn: beside };
  return unlessLeft(async () =>
    window.showSaveFilePicker?.({ id: PICKER, types, excludeAcceptAllOption: true, suggestedName: name, ...startIn }),
  );
}

/** `.xlsx` for a name without one. */
export function endingOf(name: string): string {
  return /\.xl[a-z]+$/.exec(name.toLowerCase())?.[0] ?? ".xlsx";
}

async function unlessLeft<T>(choose: () => Promise<T>): Promise<T | undefined> {
  try {
    return await choose();
  } catch (cause) {
    if (isNamed(cause, "AbortError")) return undefined;
    throw cause;
  }
}

/** Whether the file may be read or written; asked for where it is not told yet, for which there has to be a press. */
export async function mayUse(handle: FileSystemFileHandle, mode: Access): Promise<boolean> {
  if (handle.queryPermission === undefined || handle.requestPermission === undefined) return true;
  if ((await handle.queryPermission({ mode })) === "granted") return true;
  return (await handle.requestPermission({ mode })) === "granted";
}

/** Whether the file may be read without a question to the coach. */
export async function mayReadUnasked(handle: FileSystemFileHandle): Promise<boolean> {
  const state = await handle.queryPermission?.({ mode: "read" }).catch(() => undefined);
  return state === "granted";
}

/** Whether something was not done since the press that it needs is too long ago. */
export function needsPress(cause: unknown): boolean {
  return isNamed(cause, "SecurityError");
}

export function isFileHandle(handle: FileSystemHandle | null | undefined): handle is FileSystemFileHandle {
  return handle?.kind === "file";
}

export function isNamed(cause: unknown, name: string): boolean {
  return cause instanceof Error && cause.name === name;
}
