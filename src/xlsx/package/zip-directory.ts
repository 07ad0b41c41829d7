/**
 * The list of a package's parts, as its central directory tells it (APPNOTE.TXT 4.3), read before anything is unpacked:
 * sizes, names and check sums decide whether the file is opened at all. The unpacking itself is the library's.
 */
import { refuse } from "./file-refused";
import { limits } from "./limits";

export interface ZipEntry {
  readonly name: string;
  readonly stored: boolean;
  readonly packedBytes: number;
  readonly unpackedBytes: number;
  readonly crc32: number;
  /** Where the packed bytes begin. */
  readonly dataStart: number;
}

const END_OF_DIRECTORY = 0x06054b50;
const LARGE_END_OF_DIRECTORY = 0x06064b50;
const LARGE_LOCATOR = 0x07064b50;
const DIRECTORY_ENTRY = 0x02014b50;
const LOCAL_ENTRY = 0x04034b50;
const END_BYTES = 22;
const MOST_COMMENT_BYTES = 65_535;
const LARGE = 0xffffffff;
const ENCRYPTED_FLAG = 1;
const STORED = 0;
const DEFLATED = 8;

/** @throws FileRefused for a directory that is damaged, or tells of more than a workbook may hold */
export function readZipDirectory(bytes: Uint8Array): ZipEntry[] {
  try {
    const entries = readEntries(new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength), bytes);
    refuseExcess(entries);
    return entries;
  } catch (cause) {
    // The view throws where the directory points outside the file.
    if (cause instanceof RangeError) refuse("damaged", cause);
    throw cause;
  }
}

function readEntries(view: DataView, bytes: Uint8Array): ZipEntry[] {
  const { count, start } = directoryPlace(view);
  if (count > limits.parts) refuse("tooManyParts");
  const entries: ZipEntry[] = [];
  const names = new Set<string>();
  let at = start;
  for (let index = 0; index < count; index += 1) {
    if (view.getUint32(at, true) !== DIRECTORY_ENTRY) refuse("damaged");
    const flags = view.getUint16(at + 8, true);
    const checkSum = view.getUint32(at + 16, true);
    const method = view.getUint16(at + 10, true);
    const nameBytes = view.getUint16(at + 28, true);
    const extraBytes = view.getUint16(at + 30, true);
    const commentBytes = view.getUint16(at + 32, true);
    if (at + 46 + nameBytes > bytes.length) refuse("damaged");
    const name = decodeName(bytes.subarray(at + 46, at + 46 + nameBytes));
    const { packedBytes, unpackedBytes, localStart } = sizes(view, at, at + 46 + nameBytes, extraBytes);
    at += 46 + nameBytes + extraBytes + commentBytes;
    if (name.endsWith("/")) continue;
    if ((flags & ENCRYPTED_FLAG) !== 0) refuse("encrypted");
    if (method !== STORED && method !== DEFLATED) refuse("damaged");
    if (isUnsafe(name)) refuse("unsafeNames");
    // The format knows no two parts whose names differ in their letters' case alone.
    if (names.has(name.toLowerCase())) refuse("damaged");
    names.add(name.toLowerCase());
    const dataStart = startOfData(view, localStart);
    if (dataStart + packedBytes > bytes.length) refuse("damaged");
    if (method === STORED && packedBytes !== unpackedBytes) refuse("damaged");
    entries.push({
      name,
      stored: method === STORED,
      packedBytes,
      unpackedBytes,
      crc32: checkSum,
      dataStart,
    });
  }
  return entries;
}

function directoryPlace(view: DataView): { readonly count: number; readonly start: number } {
  const least = Math.max(0, view.byteLength - END_BYTES - MOST_COMMENT_BYTES);
  for (let at = view.byteLength - END_BYTES; at >= least; at -= 1) {
    if (view.getUint32(at, true) !== END_OF_DIRECTORY) continue;
    const count = view.getUint16(at + 10, true);
    const start = view.getUint32(at + 16, true);
    if (count !== 0xffff && start !== LARGE) return { count, start };
    const locator = at - 20;
    if (view.getUint32(locator, true) !== LARGE_LOCATOR) refuse("damaged");
    const large = large64(view, locator + 8);
    if (view.getUint32(large, true) !== LARGE_END_OF_DIRECTORY) refuse("damaged");
    return { count: large64(view, large + 32), start: large64(view, large + 48) };
  }
  return refuse("damaged");
}

function large64(view: DataView, at: number): number {
  return view.getUint32(at, true) + view.getUint32(at + 4, true) * 0x1_0000_0000;
}

/** Sizes and place of one entry; those that do not fit into four bytes stand in its extra field (4.5.3). */
function sizes(
  view: DataView,
  at: number,
  extraStart: number,
  extraBytes: number,
): { packedBytes: number; unpackedBytes: number; localStart: number } {
  let packedBytes = view.getUint32(at + 20, true);
  let unpackedBytes = view.getUint32(at + 24, true);
  let localStart = view.getUint32(at + 42, true);
  let field = extraStart;
  while (field + 4 <= extraStart + extraBytes) {
    const kind = view.getUint16(field, true);
    const length = view.getUint16(field + 2, true);
    if (kind === 1) {
      let value = field + 4;
      const next = (): number => {
        const read = large64(view, value);
        value += 8;
        return read;
      };
      if (unpackedBytes === LARGE) unpackedBytes = next();
      if (packedBytes === LARGE) packedBytes = next();
      if (localStart === LARGE) localStart = next();
    }
    field += 4 + length;
  }
  return { packedBytes, unpackedBytes, localStart };
}

function startOfData(view: DataView, localStart: number): number {
  if (view.getUint32(localStart, true) !== LOCAL_ENTRY) refuse("damaged");
  return localStart + 30 + view.getUint16(localStart + 26, true) + view.getUint16(localStart + 28, true);
}

function decodeName(bytes: Uint8Array): string {
  // Some programs write the other kind of slash.
  return new TextDecoder().decode(bytes).replaceAll("\\", "/");
}

function isUnsafe(name: string): boolean {
  if (name === "" || name.includes("\0") || name.startsWith("/") || /^[a-z]:/i.test(name)) return true;
  return name.split("/").some((step) => step === ".." || step === ".");
}

function refuseExcess(entries: readonly ZipEntry[]): void {
  let total = 0;
  for (const { name, packedBytes, unpackedBytes } of entries) {
    total += unpackedBytes;
    if (total > limits.inflatedBytes || unpackedBytes > limits.partBytes) refuse("inflatesTooMuch");
    const isText = /\.(xml|rels|vml)$/i.test(name);
    if (isText && unpackedBytes > limits.ratioFromBytes && unpackedBytes > packedBytes * limits.ratio) {
      refuse("inflatesTooMuch");
    }
  }
}
