/** What a coach's spreadsheet fetches of a club's web space, from the built files: for DEVELOPERS.md and `npm run size`. */
import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { gzipSync } from "node:zlib";

interface Traffic {
  /** Gzipped bytes of our own files, every part of the pane opened once. */
  readonly ours: number;
  /** Gzipped bytes of the host's library, as the spreadsheet program on the web takes it. */
  readonly library: number;
  /** Requests that a later opening makes, each answered with "not modified". */
  readonly requests: number;
  /** Bytes a coach in a month. */
  readonly month: number;
}

/** Assumed, no source: a coach opens a workbook on so many days, and a new version comes once. */
export const OPENINGS_A_MONTH = 20;
/**
 * A question and its answer "not modified" (RFC 9110, 15.4.5): headers alone, 1,028 bytes as a browser counts them in
 * tests/browser/packaged.test.ts, and room for those that a web space adds. HTTP/2 sends fewer.
 */
export const BYTES_A_QUESTION = 1500;

/** As seen in tests/browser/packaged.test.ts. */
const LIBRARY = ["office/office.js", "office/excel-web-16.00.js", "office/en-us/office_strings.js"];

/** @param dist the folder of the build */
export function traffic(dist: string): Traffic {
  const scripts = readdirSync(dist).filter((name) => name.endsWith(".js"));
  const own = ["taskpane.html", "pane.css", "functions.json", "icons/icon-32.png", ...scripts];
  const bytes = (files: readonly string[]): number =>
    files.reduce((sum, file) => sum + gzipSync(readFileSync(path.join(dist, file)), { level: 6 }).length, 0);
  const [ours, library, requests] = [bytes(own), bytes(LIBRARY), own.length + LIBRARY.length];
  return { ours, library, requests, month: ours + library + OPENINGS_A_MONTH * requests * BYTES_A_QUESTION };
}
