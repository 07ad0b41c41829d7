import { fieller, fitLogistic, readyDate } from "../../src/core/ready-date";
import { twoSidedDeviate } from "../../src/core/tails";
import fromR from "../checks/curves-from-r.json";

const points = (x: readonly number[], caught: readonly number[], attempts: readonly number[]) =>
  x.map((at, index) => ({ x: at, caught: caught[index] ?? NaN, attempts: attempts[index] ?? NaN }));

describe("the fit against published ones", () => {
  test("Dobson 2002, An Introduction to Generalized Linear Models, table 7.2: beetles, -60.72 (5.18) and 34.27 (2.91)", () => {
    const { x, caught, attempts } = fromR.curves[0] as (typeof fromR.curves)[number];
    const fit = fitLogistic(points(x, caught, attempts));
    expect(fit?.intercept).toBeCloseTo(-60.72, 2);
    expect(fit?.slope).toBeCloseTo(34.27, 2);
    expect(Math.sqrt(fit?.varianceIntercept ?? NaN)).toBeCloseTo(5.18, 2);
    expect(Math.sqrt(fit?.varianceSlope ?? NaN)).toBeCloseTo(2.91, 2);
  });

  test("Wikipedia, Logistic regression: hours of study, -4.0777 (1.7610) and 1.5046 (0.6287)", () => {
    const hours = [0.5, 0.75, 1, 1.25, 1.5, 1.75, 1.75, 2, 2.25, 2.5, 2.75, 3, 3.25, 3.5, 4, 4.25, 4.5, 4.75, 5, 5.5];
    const passed = [0, 0, 0, 0, 0, 0, 1, 0, 1, 0, 1, 0, 1, 0, 1, 1, 1, 1, 1, 1];
    const fit = fitLogistic(
      points(
        hours,
        passed,
        hours.map(() => 1),
      ),
    );
    expect(fit?.intercept).toBeCloseTo(-4.0777, 4);
    expect(fit?.slope).toBeCloseTo(1.5046, 4);
    expect(Math.sqrt(fit?.varianceIntercept ?? NaN)).toBeCloseTo(1.761, 3);
    expect(Math.sqrt(fit?.varianceSlope ?? NaN)).toBeCloseTo(0.6287, 4);
  });

  test("Dalal, Fowlkes and Hoadley 1989: O-rings, 15.0429 (7.3786) and -0.2322 (0.1082)", () => {
    const degrees = [66, 70, 69, 68, 67, 72, 73, 70, 57, 63, 70, 78, 67, 53, 67, 75, 70, 81, 76, 79, 75, 76, 58];
    const distress = [0, 1, 0, 0, 0, 0, 0, 0, 1, 1, 1, 0, 0, 1, 0, 0, 0, 0, 0, 0, 1, 0, 1];
    // Far from 0 the first step of Newton's method is long; from the middle of the data it is not, so it is centred.
    const fit = fitLogistic(
      points(
        degrees.map((at) => at - 69),
        distress,
        degrees.map(() => 1),
      ),
    );
    expect(fit?.slope).toBeCloseTo(-0.2322, 4);
    expect((fit?.intercept ?? NaN) - 69 * (fit?.slope ?? NaN)).toBeCloseTo(15.0429, 4);
    expect(Math.sqrt(fit?.varianceSlope ?? NaN)).toBeCloseTo(0.1082, 4);
  });
});

test.each(fromR.curves.slice(0, 2))(
  "fit and interval against R's glm: $name",
  ({ x, caught, attempts, standard, confidence, coefficients, variances, interval }) => {
    const fit = fitLogistic(points(x, caught, attempts));
    if (!fit) throw new Error("no fit");
    expect(
      [fit.intercept / (coefficients[0] ?? NaN), fit.slope / (coefficients[1] ?? NaN)].map(
        (ratio) => Math.abs(ratio - 1) < 1e-9,
      ),
    ).toEqual([true, true]);
    expect(
      [
        fit.varianceIntercept / (variances[0] ?? NaN),
        fit.varianceSlope / (variances[1] ?? NaN),
        fit.covariance / (variances[2] ?? NaN),
      ].every((ratio) => Math.abs(ratio - 1) < 1e-7),
    ).toBe(true);
    const [low, high] = fieller(fit, Math.log(standard / (1 - standard)), twoSidedDeviate(confidence));
    expect(low).toBeCloseTo(interval[0] ?? NaN, 6);
    expect(high).toBeCloseTo(interval[1] ?? NaN, 6);
  },
);

test.each(fromR.curves.slice(2))(
  "the day against R's glm: $name",
  ({ x, caught, attempts, standard, confidence, at, interval }) => {
    const days = points(x, caught, attempts).map(({ x: date, ...counts }) => ({ date, ...counts }));
    const expected = {
      date: Math.ceil(at[0] ?? NaN),
      earliest: Math.ceil(interval[0] ?? NaN),
      latest: Math.ceil(interval[1] ?? NaN),
    };
    expect(readyDate(days, standard, confidence)).toEqual(expected);
    // The order of the log and how a day is split up change nothing.
    const split = days.flatMap((day) => [
      { ...day, caught: 1, attempts: 2 },
      { ...day, caught: day.caught - 1, attempts: day.attempts - 2 },
    ]);
    expect(readyDate(split.reverse(), standard, confidence)).toEqual(expected);
  },
);

describe("no date without a reason to give one", () => {
  const days = (...caught: number[]) =>
    caught.map((count, day) => ({ date: 46400 + day, caught: count, attempts: 10 }));

  test.each([
    [days(3, 5), 0.8, 0.8, /Fewer than 3 practice days/],
    [[...days(3, 5), ...days(4, 6)], 0.8, 0.8, /Fewer than 3 practice days/],
    [days(10, 10, 10), 0.8, 0.8, /No misses/],
    [days(0, 0, 0), 0.8, 0.8, /No catches/],
    [days(6, 4, 6, 5), 0.8, 0.8, /no clear upward trend/],
    [days(8, 6, 4, 2), 0.8, 0.8, /no clear upward trend/],
    [days(3, 4, 5, 5), 0.8, 0.9999, /no clear upward trend/],
    [days(2, 5, 9, 9), 0.8, 0.8, /at the standard already/],
    [days(0, 0, 10, 10), 0.8, 0.8, /all missed|at once/],
    [days(2, 3, 5, 6), 0, 0.8, /at the standard already/],
    [days(2, 3, 5, 6), 1, 0.8, /ever reaches/],
    [days(2, 3, 5, 6), 0.8, 1, /no clear upward trend/],
  ])("%#", (log, standard, confidence, message) => {
    expect(() => readyDate(log, standard, confidence)).toThrow(message);
  });
});
