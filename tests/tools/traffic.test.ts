/** The figures of DEVELOPERS.md against the built files. */
import { readFileSync } from "node:fs";
import path from "node:path";
import { OPENINGS_A_MONTH, traffic } from "../../src/tools/traffic";

const root = path.resolve(__dirname, "../..");
const page = readFileSync(path.join(root, "DEVELOPERS.md"), "utf8");
const { ours, library, requests, month } = traffic(path.join(root, "dist"));

/** The number in the row of the table that begins with these words. */
function told(words: string): number {
  const row = page.split("\n").find((line) => line.startsWith(`| ${words} `));
  return Number(/\| ([\d,.]+)/.exec(row?.slice(words.length + 3) ?? "")?.[1]?.replaceAll(",", ""));
}

const CLUBS = 10_000;
const COACHES_A_CLUB = 3;
const DAYS = 30;
const SECONDS_A_DAY = 86_400;

test.each([
  ["our files at the first opening, gzipped", ours / 1000],
  ["the host's library at the first opening, gzipped", library / 1000],
  ["questions at each later opening", requests],
  ["a coach a month", month / 1e6],
  ["the federation a month", (month * CLUBS * COACHES_A_CLUB) / 1e9],
  [
    "requests a second, in the mean",
    (CLUBS * COACHES_A_CLUB * requests * (OPENINGS_A_MONTH + 1)) / (DAYS * SECONDS_A_DAY),
  ],
])("%s is told within a quarter", (words, measured) => {
  expect(Math.abs(told(words) / measured - 1)).toBeLessThan(0.25);
});
