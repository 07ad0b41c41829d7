/**
 * The built functions.js as a host loads it: nothing but `CustomFunctions` beyond the language itself. Loaded into this
 * realm (for speed and for jest's equality) with the names of a page or of Node hidden from it.
 */
import { readFileSync } from "node:fs";
import path from "node:path";

export interface CellError {
  readonly code: string;
  readonly message: string;
}

export class HostError extends Error implements CellError {
  constructor(
    readonly code: string,
    message?: string,
  ) {
    super(message);
  }
}

export const BUILT = path.resolve(__dirname, "../../dist");

export type CellFunction = (...args: unknown[]) => unknown;

export function loadBuilt(): ReadonlyMap<string, CellFunction> {
  const script = readFileSync(path.join(BUILT, "functions.js"), "utf8");
  const associated = new Map<string, CellFunction>();
  const customFunctions = {
    associate: (id: string, body: CellFunction) => associated.set(id, body),
    Error: HostError,
    ErrorCode: { invalidValue: "#VALUE!", notAvailable: "#N/A" },
  };
  const hidden = [
    "process",
    "window",
    "document",
    "self",
    "global",
    "require",
    "module",
    "exports",
    "fetch",
    "Office",
    "Date",
    "setTimeout",
  ];
  new Function("CustomFunctions", ...hidden, script)(customFunctions);
  return associated;
}

let functions: ReadonlyMap<string, CellFunction> | undefined;

/** Calls a function as a cell does; a thrown cell error is answered as such, anything else is thrown on. */
export function callCell(id: string, ...args: unknown[]): unknown {
  functions ??= loadBuilt();
  const body = functions.get(id);
  if (!body) throw new Error(`${id} is not registered`);
  try {
    return body(...args);
  } catch (error) {
    if (error instanceof HostError) return error;
    throw error;
  }
}

/** The message of the error that a call answers with; fails where it answers anything else. */
export function errorOf(code: string, id: string, ...args: unknown[]): string {
  const answer = callCell(id, ...args);
  if (!(answer instanceof HostError)) throw new Error(`${id} answered ${JSON.stringify(answer)} and no error`);
  expect(answer.code).toBe(code);
  return answer.message;
}
