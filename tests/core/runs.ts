/**
 * How many examples a property is tried with. `PROPERTY_SEED=7 npm test -- tests/core` tries the same ones again, as
 * `.ci/run` does, so that a change is judged and not the day; `PROPERTY_RUNS=100` a hundred times as many, with other seeds.
 * Mutation testing runs each property thousands of times over, and with fewer examples it takes one hour instead of three.
 */
export function runs(usual: number): { readonly numRuns: number; readonly seed?: number } {
  if (process.env["TESTING_MUTANTS"]) return { numRuns: Math.min(usual, 300), seed: 1 };
  const [seed, times] = [process.env["PROPERTY_SEED"], process.env["PROPERTY_RUNS"]];
  return {
    numRuns: times === undefined ? usual : usual * Number(times),
    ...(seed === undefined ? {} : { seed: Number(seed) }),
  };
}
