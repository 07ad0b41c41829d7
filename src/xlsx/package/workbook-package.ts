/**
 * A workbook's package: the file as it came, of which parts are unpacked only when they are asked for, with the parts
 * that were changed or added since. What nobody changes is written as it came.
 */
import { Inflate, Zip, ZipDeflate, ZipPassThrough } from "fflate";

import { crc32 } from "./crc32";
import { refuse } from "./file-refused";
import { limits } from "./limits";
import { decodeXml, encodeXml } from "../xml/text";
import { readZipDirectory, type ZipEntry } from "./zip-directory";

/** What stands at the beginning of a zip file, and of the older formats' and encrypted workbooks' container. */
const ZIP_START = [0x50, 0x4b];
const COMPOUND_START = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];

/** The first moment that a package can hold, by the reader's own clock: the packing library writes local time. */
const FIXED_TIME = new Date(1980, 0, 1);

export class WorkbookPackage {
  private readonly original: ReadonlyMap<string, ZipEntry>;
  /** By name in small letters; null for a part that was taken out. */
  private readonly changes: Map<string, { readonly name: string; readonly bytes: Uint8Array } | null>;

  private constructor(
    readonly file: Uint8Array,
    original: ReadonlyMap<string, ZipEntry>,
    changes: Iterable<[string, { readonly name: string; readonly bytes: Uint8Array } | null]> = [],
  ) {
    this.original = original;
    this.changes = new Map(changes);
  }

  /** @throws FileRefused for anything that is no package of a size that this page opens */
  static open(file: Uint8Array): WorkbookPackage {
    if (file.length === 0) refuse("empty");
    if (file.length > limits.fileBytes) refuse("tooLarge");
    if (startsWith(file, COMPOUND_START)) refuse(holdsEncryptedPackage(file) ? "encrypted" : "olderFormat");
    if (!startsWith(file, ZIP_START)) refuse("noWorkbook");
    const entries = readZipDirectory(file);
    return new WorkbookPackage(file, new Map(entries.map((entry) => [entry.name.toLowerCase(), entry])));
  }

  /** The same package, to be changed apart from this one. */
  copy(): WorkbookPackage {
    return new WorkbookPackage(this.file, this.original, this.changes);
  }

  get isChanged(): boolean {
    return this.changes.size > 0;
  }

  /** In the file's order, those added last. */
  names(): string[] {
    const kept = [...this.original].flatMap(([key, { name }]) => (this.changes.get(key) === null ? [] : [name]));
    const added = [...this.changes].flatMap(([key, change]) =>
      change !== null && !this.original.has(key) ? [change.name] : [],
    );
    return [...kept, ...added];
  }

  has(name: string): boolean {
    const key = name.toLowerCase();
    const change = this.changes.get(key);
    return change === undefined ? this.original.has(key) : change !== null;
  }

  /** @throws FileRefused where the part is missing, or is not what the directory says */
  bytes(name: string): Uint8Array {
    const key = name.toLowerCase();
    const change = this.changes.get(key);
    if (change) return change.bytes;
    const entry = this.original.get(key);
    if (entry === undefined || change === null) refuse("damaged");
    return unpack(this.file, entry);
  }

  text(name: string): string {
    return decodeXml(this.bytes(name));
  }

  set(name: string, content: string | Uint8Array): void {
    const key = name.toLowerCase();
    const bytes = typeof content === "string" ? encodeXml(content) : content;
    this.changes.set(key, { name: this.original.get(key)?.name ?? name, bytes });
  }

  remove(name: string): void {
    const key = name.toLowerCase();
    if (this.original.has(key)) this.changes.set(key, null);
    else this.changes.delete(key);
  }

  /** The whole file. A package that nobody changed is the file as it came. */
  toFile(): Uint8Array {
    if (!this.isChanged) return this.file;
    const pieces: Uint8Array[] = [];
    const zip = new Zip((problem, piece) => {
      if (problem !== null) throw problem;
      pieces.push(piece);
    });
    for (const name of this.names()) {
      const part = this.isPacked(name) ? new ZipDeflate(name, { level: 6 }) : new ZipPassThrough(name);
      part.mtime = FIXED_TIME;
      zip.add(part);
      part.push(this.bytes(name), true);
    }
    zip.end();
    return joined(pieces);
  }

  /** Pictures and the like are stored as they are. */
  private isPacked(name: string): boolean {
    return this.original.get(name.toLowerCase())?.stored !== true;
  }
}

/** Packed bytes are handed over in pieces of this size, so that a part that unpacks to far more is stopped early. */
const PIECE_BYTES = 65_536;

function unpack(file: Uint8Array, entry: ZipEntry): Uint8Array {
  const packed = file.subarray(entry.dataStart, entry.dataStart + entry.packedBytes);
  const bytes = entry.stored ? packed : inflate(packed, entry.unpackedBytes);
  if (crc32(bytes) !== entry.crc32) refuse("damaged");
  return bytes;
}

/** @throws FileRefused where the bytes unpack to anything but so many */
function inflate(packed: Uint8Array, unpackedBytes: number): Uint8Array {
  const bytes = new Uint8Array(unpackedBytes);
  let filled = 0;
  try {
    const inflating = new Inflate((piece) => {
      if (filled + piece.length > unpackedBytes) refuse("damaged");
      bytes.set(piece, filled);
      filled += piece.length;
    });
    for (let at = 0; at < packed.length; at += PIECE_BYTES) {
      inflating.push(packed.subarray(at, at + PIECE_BYTES), at + PIECE_BYTES >= packed.length);
    }
  } catch (cause) {
    refuse("damaged", cause);
  }
  if (filled !== unpackedBytes) refuse("damaged");
  return bytes;
}

function startsWith(file: Uint8Array, start: readonly number[]): boolean {
  return start.every((byte, index) => file[index] === byte);
}

/** An encrypted workbook is a compound file with a stream of this name ([MS-OFFCRYPTO] 2.3.4.4), written in UTF-16. */
function holdsEncryptedPackage(file: Uint8Array): boolean {
  const wanted = [..."EncryptedPackage"].flatMap((letter) => [letter.charCodeAt(0), 0]);
  for (let at = file.indexOf(wanted[0] ?? 0); at >= 0; at = file.indexOf(wanted[0] ?? 0, at + 1)) {
    if (wanted.every((byte, index) => file[at + index] === byte)) return true;
  }
  return false;
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
