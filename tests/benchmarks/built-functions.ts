/**
 * The built functions.js in this realm, as a page has it: Node's separate realms slow every global name down, which no
 * host does.
 */
import { readFileSync } from "node:fs";
import path from "node:path";

export type CellFunction = (...args: unknown[]) => unknown;

export const FUNCTIONS_FILE = path.resolve(__dirname, "../../dist/functions.js");

export function loadBuiltFunctions(script = readFileSync(FUNCTIONS_FILE, "utf8")): ReadonlyMap<string, CellFunction> {
  const associated = new Map<string, CellFunction>();
  const customFunctions = {
    associate: (id: string, body: CellFunction) => associated.set(id, body),
    Error,
    ErrorCode: {},
  };
  new Function("CustomFunctions", script)(customFunctions);
  return associated;
}

export function milliseconds(work: () => unknown): number {
  const start = process.hrtime.bigint();
  work();
  return Number(process.hrtime.bigint() - start) / 1e6;
}

export function median(values: readonly number[]): number {
  return [...values].sort((one, other) => one - other)[Math.floor(values.length / 2)] ?? NaN;
}
