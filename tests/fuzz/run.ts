/**
 * `npm run fuzz`: calls every built cell function with hostile and random arguments for a set time and fails on a bad
 * answer, which it makes as small as it can. `-- --seconds 30`, `-- --calls 5000000` in place of a time, `-- --seed 7`
 * for the same again, `-- --function BOARD` for one, `-- --longest 5` for a machine that is slower than a coach's: a call
 * may take so many seconds, 1 when left out. `-- layouts` draws clubs' own logs instead: see `layouts-run.ts`.
 *
 * Bad is: anything thrown but one of the two cell errors with a message in our words; NaN, Infinity, undefined or null in
 * an answer; another shape than the contract's; another answer to the same arguments, in the same or in a fresh realm; a
 * changed argument; a changed prototype of the language; a call that takes too long.
 */
import { numberOf, readCommand } from "../../src/tools/command-line";
import { isDeepStrictEqual } from "node:util";
import fc from "fast-check";
import { build } from "../../src/tools/build";
import { whatIsWrong } from "../functions/answer-rules";
import { type CellFunction, HostError, loadBuilt } from "../functions/built";
import { runLayouts } from "./layouts-run";
import { argumentsFor, metadata, wholeColumnsFor } from "../functions/hostile-arguments";

let longestMilliseconds = 1000;
/** Argument sets for one function before the next has its turn. */
const BATCH = 400;
/** Of how many batches one is of whole columns, and how many calls that one has. */
const WHOLE_EVERY = 12;
const WHOLE_BATCH = 3;
/** Calls of each function that are made again at the end, in a fresh realm. */
const KEPT = 100;

interface Options {
  readonly seconds: number;
  readonly calls: number;
  readonly seed: number;
  readonly only: string | undefined;
}

function optionsOf(words: readonly string[]): Options {
  const { values } = readCommand(words, {
    usage: "npm run fuzz -- [--seconds 60] [--calls 5000000] [--seed 7] [--function BOARD] [--longest 1]",
    options: {
      calls: { type: "string" },
      function: { type: "string" },
      longest: { type: "string" },
      seconds: { type: "string" },
      seed: { type: "string" },
    },
  });
  const number = (name: "calls" | "longest" | "seconds" | "seed", otherwise: number): number =>
    numberOf(`--${name}`, values[name], { otherwise, least: 0, whole: false });
  const calls = number("calls", Infinity);
  const only = values.function;
  if (only !== undefined && !metadata.functions.some(({ id }) => id === only)) {
    throw new Error(`--function takes one of ${metadata.functions.map(({ id }) => id).join(", ")}.`);
  }
  longestMilliseconds = 1000 * number("longest", 1);
  const seconds = number("seconds", calls === Infinity ? 30 : Infinity);
  return { seconds, calls, seed: number("seed", Math.floor(Math.random() * 2 ** 31)), only };
}

/** What everything else rests on: its keys must be the same after every call. */
const PROTOTYPES: readonly object[] = [Object, Array, String, Number, Boolean, Function, RegExp, Map, Set, Error, Float64Array].map(({ prototype }) => prototype as object); // prettier-ignore
const keysOf = (): string => PROTOTYPES.map((one) => Reflect.ownKeys(one).map(String).join()).join(";");
const KEYS_BEFORE = keysOf();
const plainKeys = Reflect.ownKeys(Object.prototype).length;

type Answer = unknown;

class Fuzz {
  argumentSets = 0;
  answered = 0;
  refused = 0;
  slowest = { milliseconds: 0, id: "" };
  private readonly functions = loadBuilt();
  private readonly kept: { readonly id: string; readonly given: readonly unknown[]; readonly answer: Answer }[] = [];
  private readonly keptOf = new Map<string, number>();

  call(functions: ReadonlyMap<string, CellFunction>, id: string, given: readonly unknown[]): Answer {
    const body = functions.get(id);
    if (!body) throw new Error(`${id} is not registered.`);
    try {
      return body(...given);
    } catch (thrown) {
      if (thrown instanceof HostError) return thrown;
      return { thrown: String(thrown) };
    }
  }

  /** Throws where something is bad. */
  check(id: string, given: readonly unknown[], isWhole: boolean): void {
    if (!isWhole) freeze(given);
    this.argumentSets += 1;
    const start = processorMilliseconds();
    const answer = this.call(this.functions, id, given);
    let milliseconds = processorMilliseconds() - start;
    const wrong = whatIsWrong(id, answer);
    if (wrong !== undefined) throw new Error(wrong);
    // The first call of all is slower, and the memory's tidying falls on any: the best of some is the function's own time.
    for (let again = 0; again === 0 || (again < 4 && milliseconds > longestMilliseconds); again += 1) {
      const begun = processorMilliseconds();
      if (!sameAnswer(this.call(this.functions, id, given), answer)) throw new Error("another answer the second time");
      milliseconds = Math.min(milliseconds, processorMilliseconds() - begun);
    }
    if (milliseconds > longestMilliseconds) throw new Error(`${milliseconds.toFixed(0)} ms`);
    if (milliseconds > this.slowest.milliseconds) this.slowest = { milliseconds, id };
    if (Reflect.ownKeys(Object.prototype).length !== plainKeys) throw new Error("a changed prototype");
    if (answer instanceof HostError) this.refused += 1;
    else this.answered += 1;
    if (!isWhole) this.keep(id, given, answer);
  }

  private keep(id: string, given: readonly unknown[], answer: Answer): void {
    const many = this.keptOf.get(id) ?? 0;
    // Some from the beginning, the others spread over the whole run.
    if (many >= KEPT || (many > KEPT / 4 && this.argumentSets % 1009 !== 0)) return;
    this.keptOf.set(id, many + 1);
    this.kept.push({ id, given, answer });
  }

  /** The calls that were kept, made again in a fresh realm after all others. Answers how many. */
  repeat(): number {
    const fresh = loadBuilt();
    for (const { id, given, answer } of this.kept) {
      if (!sameAnswer(this.call(fresh, id, given), answer)) {
        throw new Error(`${id}(${shown(given)}) answers something else in a fresh realm.`);
      }
    }
    return this.kept.length;
  }
}

/** The processor's time and not the clock's: other programs on the computer may hold a call up. */
function processorMilliseconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/** A function that changes what it was given is found out by the language itself. */
function freeze(value: unknown): void {
  if (!Array.isArray(value) || Object.isFrozen(value)) return;
  value.forEach(freeze);
  Object.freeze(value);
}

function sameAnswer(one: Answer, other: Answer): boolean {
  if (one instanceof HostError) return other instanceof HostError && one.code === other.code && one.message === other.message; // prettier-ignore
  return isDeepStrictEqual(one, other);
}

/** Arguments as they can be read and typed again, the long ones cut. */
function shown(value: unknown, depth = 0): string {
  if (Array.isArray(value)) {
    const items = value.slice(0, 12).map((item: unknown) => shown(item, depth + 1));
    if (value.length > 12) items.push(`… ${value.length} in all`);
    return depth === 0 ? items.join(", ") : `[${items.join(", ")}]`;
  }
  if (typeof value === "string") return value.length > 200 ? `${JSON.stringify(value.slice(0, 60))}… ${value.length} characters` : JSON.stringify(value); // prettier-ignore
  if (typeof value === "object" && value !== null) {
    try {
      return JSON.stringify(value).slice(0, 200);
    } catch {
      return "an object that cannot be written down";
    }
  }
  return Object.is(value, -0) ? "-0" : String(value);
}

/** One batch for one function; answers whether all was well. */
function batch(fuzz: Fuzz, id: string, seed: number, isWhole: boolean): boolean {
  const parameters = metadata.functions.find((described) => described.id === id)?.parameters ?? [];
  const given = isWhole ? wholeColumnsFor(parameters) : argumentsFor(parameters);
  const result = fc.check(
    fc.property(given, (args) => fuzz.check(id, args, isWhole)),
    { seed, numRuns: isWhole ? WHOLE_BATCH : BATCH },
  );
  if (!result.failed && keysOf() === KEYS_BEFORE) return true;
  const [smallest] = result.counterexample ?? [[]];
  const reason = result.errorInstance instanceof Error ? result.errorInstance.message : "a changed prototype";
  console.error(`\nBAD: ${id}(${shown(smallest)})\n  ${reason}\n  found with seed ${seed}, made smaller ${result.numShrinks} times\n  again: npm run fuzz -- --function ${id} --seed ${seed}${isWhole ? " --seconds 60" : " --calls 1"}`); // prettier-ignore
  return false;
}

async function main(): Promise<void> {
  if (process.argv[2] === "layouts") {
    if (!runLayouts(process.argv.slice(3))) process.exitCode = 1;
    return;
  }
  await build();
  const { seconds, calls, seed, only } = optionsOf(process.argv.slice(2));
  const ids = metadata.functions.map(({ id }) => id).filter((id) => only === undefined || id === only);
  const fuzz = new Fuzz();
  const start = performance.now();
  const over = (): boolean => performance.now() - start > seconds * 1000 || 2 * fuzz.argumentSets >= calls;
  let bad = 0;
  let rounds = 0;
  console.log(`Seed ${seed}, ${ids.length} functions.`);
  // Every function has its turn before the time is looked at again.
  do {
    for (const [place, id] of ids.entries()) {
      const ofBatch = (seed + rounds * ids.length + place) | 0;
      if (!batch(fuzz, id, ofBatch, false)) bad += 1;
      if ((rounds + place) % WHOLE_EVERY === 0 && !batch(fuzz, id, ofBatch, true)) bad += 1;
    }
    rounds += 1;
  } while (!over() && bad === 0);
  const repeated = fuzz.repeat();
  const took = (performance.now() - start) / 1000;
  console.log(
    `${(2 * fuzz.argumentSets).toLocaleString("en")} calls, of ${fuzz.argumentSets.toLocaleString("en")} argument sets twice each, in ${took.toFixed(0)} s: ` +
      `${fuzz.answered.toLocaleString("en")} answered, ${fuzz.refused.toLocaleString("en")} refused in words, ${bad} bad. ` +
      `${repeated} called again in a fresh realm. Slowest ${fuzz.slowest.milliseconds.toFixed(0)} ms (${fuzz.slowest.id}).`,
  );
  if (bad > 0) process.exitCode = 1;
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
});
