/**
 * How many examples a property is tried with. Mutation testing runs each property thousands of times over, and with
 * fewer examples it takes one hour instead of three.
 */
export function runs(usual: number): { readonly numRuns: number; readonly seed?: number } {
  return process.env["TESTING_MUTANTS"] ? { numRuns: Math.min(usual, 300), seed: 1 } : { numRuns: usual };
}
