import fc from "fast-check";
import { Missing } from "../../src/core/problem";
import { attemptsToTell, tellApart } from "../../src/core/tell-apart";
import fromR from "../checks/trick-from-r.json";
import { runs } from "./runs";

test("R's help of power.prop.test(p1 = .50, p2 = .75, power = .90): n = 76.7", () => {
  expect(attemptsToTell(0.5, 0.75, 0.9, 0.95)).toBeCloseTo(76.7, 1);
  expect(tellApart(0.5, 0.75, 0.9, 0.95)).toBe(77);
});

test.each(fromR.power)("power.prop.test of R 4.2.2: $a and $b, power $power, confidence $confidence", (given) => {
  const attempts = attemptsToTell(given.a, given.b, given.power, given.confidence);
  // R finds n by its root finder and adds the far tail, which is beneath 1e-4 here.
  expect(attempts / given.n).toBeCloseTo(1, 6);
  expect(tellApart(given.a, given.b, given.power, given.confidence)).toBe(Math.ceil(given.n));
});

test("90 from 70 % takes about 60 tries each, 80 from 90 % about 200 (worked out for the help)", () => {
  expect(tellApart(0.9, 0.7, 0.8, 0.95)).toBe(62);
  expect(tellApart(0.8, 0.9, 0.8, 0.95)).toBe(199);
});

test("at the ends: never from always, and a power that chance alone has", () => {
  // 1.96² / 2 = 1.92
  expect(tellApart(0, 1, 0.8, 0.95)).toBe(2);
  expect(tellApart(0, 1, 0, 0.95)).toBe(2);
  expect(tellApart(0.5, 0.6, 0, 0.95)).toBe(1);
  expect(tellApart(0.5, 0.6, 0.01, 0.95)).toBe(1);
  expect(tellApart(0.5, 0.6, 0.5, 0)).toBe(1);
});

test.each([
  [0.8, 0.8, 0.8, 0.95, "Two equal rates can never be told apart"],
  [0.8, 0.9, 1, 0.95, "No number of attempts makes it entirely sure: ask for a power below 1"],
  [0.8, 0.9, 0.8, 1, "No number of attempts makes it entirely sure: ask for a confidence below 1"],
  [0.5, 0.5 + 1e-9, 0.8, 0.95, "More than 1e15 attempts are needed: the two rates are too near each other"],
])("%p and %p, power %p, confidence %p: nothing to answer", (a, b, power, confidence, message) => {
  expect(() => tellApart(a, b, power, confidence)).toThrow(Missing);
  expect(() => tellApart(a, b, power, confidence)).toThrow(message);
});

test("swapped rates and misses for catches take as many; more power or confidence takes no fewer; nearer rates take more", () => {
  const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });
  fc.assert(
    fc.property(share, share, share, share, (a, b, power, confidence) => {
      fc.pre(Math.abs(a - b) > 1e-3);
      const attempts = attemptsToTell(a, b, power, confidence);
      expect(attemptsToTell(b, a, power, confidence)).toBeCloseTo(attempts, 6);
      expect(attemptsToTell(1 - a, 1 - b, power, confidence) - attempts).toBeLessThan(1e-6 * (1 + attempts));
      expect(attemptsToTell(a, b, power + (1 - power) / 2, confidence)).toBeGreaterThanOrEqual(attempts);
      expect(attemptsToTell(a, b, power, confidence + (1 - confidence) / 2)).toBeGreaterThanOrEqual(attempts);
      expect(tellApart(a, b, power, confidence)).toBeGreaterThanOrEqual(1);
    }),
    runs(300),
  );
});
