/**
 * Two thousand calls with their answers to twelve digits, kept in kept-answers.json, so that no change moves a coach's
 * numbers unseen. They were drawn once from a seed and are no proof that an answer is right: the published values are.
 *
 *   npm run answers              works the answers out anew and says which have changed
 *   npm run answers -- --draw    draws the arguments anew as well, after a new function or argument
 */
import { readCommand } from "../../src/tools/command-line";
import { readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { isDeepStrictEqual } from "node:util";
import fc from "fast-check";
import { build } from "../../src/tools/build";
import { callCell, HostError } from "./built";
import { argumentsFor, metadata } from "./hostile-arguments";

export const KEPT_ANSWERS = path.resolve(__dirname, "kept-answers.json");

const SEED = 2027;
const EACH = 50;
/** Of the calls of one function so many at the most are refused, with different messages where that is possible. */
const REFUSED = 14;
const DRAWN = 4000;
const LONGEST = 700;
/** Beyond this many digits the numeric library's own versions may differ. */
const DIGITS = 12;

export interface KeptAnswer {
  readonly id: string;
  readonly args: readonly unknown[];
  readonly answer: unknown;
}

export function readKept(): KeptAnswer[] {
  return JSON.parse(readFileSync(KEPT_ANSWERS, "utf8")) as KeptAnswer[];
}

/** An answer as it is kept: numbers to twelve digits, an error as its code and message. */
export function answerTo(id: string, args: readonly unknown[]): unknown {
  return rounded(callCell(id, ...args));
}

function rounded(answer: unknown): unknown {
  if (answer instanceof HostError) return { error: answer.code, message: answer.message };
  if (Array.isArray(answer)) return answer.map(rounded);
  return typeof answer === "number" ? Number(answer.toPrecision(DIGITS)) : answer;
}

/** Numbers as somebody would type them: the answer to 4.2e-187 metres says little. */
function readable(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(readable);
  return typeof value === "number" && Math.abs(value) < 1e6 ? Number(value.toFixed(3)) : value;
}

/** Only what a file can hold as it is. */
function canBeKept(args: readonly unknown[]): boolean {
  try {
    const text = JSON.stringify(args);
    return text.length <= LONGEST && isDeepStrictEqual(JSON.parse(text), args);
  } catch {
    return false;
  }
}

/** By the function's id and nothing else: a new function changes no other's calls. */
function seedOf(id: string): number {
  return [...id].reduce((seed, letter) => (Math.imul(seed, 31) + letter.charCodeAt(0)) | 0, SEED);
}

/** Of all functions, or of those with these ids. */
export function draw(ids?: readonly string[]): KeptAnswer[] {
  const drawn = metadata.functions.filter(({ id }) => ids?.includes(id) ?? true);
  return drawn.flatMap(({ id, parameters }) => {
    const calls = fc
      .sample(argumentsFor(parameters), { seed: seedOf(id), numRuns: DRAWN })
      .map((args) => args.map(readable))
      .filter(canBeKept);
    const seen = new Set<string>();
    const [answered, refused]: [KeptAnswer[], KeptAnswer[]] = [[], []];
    for (const args of calls) {
      const answer = answerTo(id, args);
      const key = JSON.stringify(answer);
      if (seen.has(key)) continue;
      seen.add(key);
      const isRefused = callCell(id, ...args) instanceof HostError;
      (isRefused ? refused : answered).push({ id, args, answer });
    }
    // A function of few words, such as a status, has few different answers: different arguments then.
    for (const args of calls) {
      if (answered.length + Math.min(refused.length, REFUSED) >= EACH) break;
      const answer = answerTo(id, args);
      if (!(callCell(id, ...args) instanceof HostError)) answered.push({ id, args, answer });
    }
    const kept = refused.slice(0, Math.max(REFUSED, EACH - answered.length));
    return [...answered.slice(0, EACH - kept.length), ...kept];
  });
}

function write(answers: readonly KeptAnswer[]): void {
  writeFileSync(KEPT_ANSWERS, `[\n${answers.map((one) => JSON.stringify(one)).join(",\n")}\n]\n`);
}

async function main(): Promise<void> {
  await build();
  const { values } = readCommand(process.argv.slice(2), {
    usage: "npm run answers -- [--draw]",
    options: { draw: { type: "boolean", default: false } },
  });
  if (values.draw) {
    const drawn = draw();
    write(drawn);
    const refused = drawn.filter(({ answer }) => (answer as { error?: string }).error !== undefined).length;
    console.log(`${drawn.length} calls are drawn and kept, ${refused} of them refused.`);
    return;
  }
  const renewed = readKept().map(({ id, args, answer }) => ({ id, args, was: answer, answer: answerTo(id, args) }));
  const changed = renewed.filter(({ was, answer }) => !isDeepStrictEqual(was, answer));
  for (const { id, args, was, answer } of changed) {
    console.log(`${id}(${args.map((one) => JSON.stringify(one)).join(", ")})\n  was ${JSON.stringify(was)}\n  is  ${JSON.stringify(answer)}`); // prettier-ignore
  }
  write(renewed.map(({ id, args, answer }) => ({ id, args, answer })));
  console.log(`${changed.length} of ${renewed.length} answers have changed${changed.length > 0 ? ": say so in CHANGELOG.md" : ""}.`); // prettier-ignore
}

if (require.main === module) {
  main().catch((error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  });
}
