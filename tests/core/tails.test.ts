import * as tails from "../../src/core/tails";
import fromR from "../checks/tails-from-r.json";

const functions: Readonly<Record<string, (...args: number[]) => number>> = tails;

describe("tails against R 4.2.2 (tests/checks/tails-from-r.R)", () => {
  // Reached: 4.4e-11 at a million attempts, 3e-14 for the quantiles; see DEVELOPERS.md.
  test.each(Object.keys(functions))("%s to 1e-10 relative", (name) => {
    const rows = fromR.filter(({ kind }) => kind === name);
    expect(rows.length).toBeGreaterThan(7);
    for (const { args, value } of rows) {
      const ours = functions[name]?.(...args) ?? NaN;
      expect({ args, error: Math.abs(ours - value) / value <= 1e-10 }).toEqual({ args, error: true });
    }
  });
});

test("a deep tail keeps its digits: Laplace 1785, as quoted by Gelman et al., Bayesian Data Analysis 2.4", () => {
  // 251,527 boys and 241,945 girls: P(rate of boys at most one half) is about 1.15e-42.
  expect(tails.betaBelow(0.5, 251528, 241946) / 1.15e-42).toBeCloseTo(1, 2);
});

test("normal deviates as in any table", () => {
  expect(tails.twoSidedDeviate(0.95)).toBeCloseTo(1.959964, 6);
  expect(tails.twoSidedDeviate(0.9)).toBeCloseTo(1.644854, 6);
});

test("binomial table, n = 10 and 20, p = 0.8 (from memory, reproduced)", () => {
  expect(tails.binomialAtMost(8, 10, 0.8)).toBeCloseTo(0.6242, 4);
  expect(tails.binomialAtMost(15, 20, 0.8)).toBeCloseTo(0.3704, 4);
});

test("the ends are exact", () => {
  expect([
    tails.betaBelow(0, 1, 2),
    tails.betaBelow(1, 1, 2),
    tails.betaAbove(0, 1, 2),
    tails.betaAbove(1, 1, 2),
  ]).toEqual([0, 1, 1, 0]);
  expect([tails.betaQuantile(0, 1, 2), tails.betaQuantile(1, 1, 2)]).toEqual([0, 1]);
  expect([tails.betaQuantileAbove(0, 1, 2), tails.betaQuantileAbove(1, 1, 2)]).toEqual([1, 0]);
  expect([tails.binomialAtMost(3, 3, 0.2), tails.binomialAtMost(-1, 3, 0.2)]).toEqual([1, 0]);
});
