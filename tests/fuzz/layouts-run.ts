/**
 * `npm run fuzz -- layouts`: draws logs in the ways that clubs might write them and counts how many are read right, asked
 * about, told, and wrong without a word; it fails on the first of these last. `--count 100000`, `--seed 7`.
 */
import { judgeMany, type Outcome } from "./layouts";

const OUTCOMES: readonly Outcome[] = ["right", "right after choices", "told", "refused", "wrong"];
const COUNT = 100_000;

export function runLayouts(words: readonly string[]): boolean {
  const number = (name: string, otherwise: number): number => {
    const place = words.indexOf(`--${name}`);
    if (place < 0) return otherwise;
    const value = Number(words[place + 1]);
    if (!Number.isInteger(value) || value < 0) throw new Error(`--${name} takes a whole number, not ${words[place + 1] ?? "nothing"}.`); // prettier-ignore
    return value;
  };
  const seed = number("seed", Math.floor(Math.random() * 2 ** 31));
  const count = number("count", COUNT);
  const shares = judgeMany(seed, count);
  const drawn = OUTCOMES.reduce((sum, outcome) => sum + shares.outcomes[outcome], 0);
  console.log(`Seed ${String(seed)}, ${drawn.toLocaleString("en")} layouts.`);
  for (const outcome of OUTCOMES) {
    const share = ((100 * shares.outcomes[outcome]) / drawn).toFixed(1);
    console.log(`${outcome.padEnd(20)} ${String(shares.outcomes[outcome]).padStart(8)}  ${share.padStart(5)} %`);
  }
  if (words.includes("--ways")) {
    for (const [way, counts] of [...shares.byWay].sort()) {
      console.log(`${way}: ${OUTCOMES.map((outcome) => `${outcome} ${String(counts[outcome])}`).join(", ")}`);
    }
  }
  for (const { seed: one, ways, why } of shares.wrong) console.error(`WRONG, seed ${String(one)}: ${ways}: ${why}`);
  return shares.outcomes.wrong === 0;
}
