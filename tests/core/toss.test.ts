import fc from "fast-check";
import { tossVerdict } from "../../src/core/advice";
import { countSeconds, secondsToCounts } from "../../src/core/counts";
import { airtime, fromMetres, flightPath, planToss, tossHeight, tossSpeed, type Flight } from "../../src/core/toss";
import { AIRTIME_CHECKS, DRAG, HEIGHT_CHECKS, SPEED_CHECKS } from "../checks/toss";

const flight = (given: { dropBelow?: number; terminalSpeed?: number } = {}, unit: "m" | "ft" = "m"): Flight => ({
  dropBelow: given.dropBelow ?? 0,
  unit,
  terminalSpeed: given.terminalSpeed,
});

test.each(AIRTIME_CHECKS)("airtime $given: $source", ({ given, expected, within }) => {
  expect(Math.abs(airtime(given.rise, flight(given)) - expected)).toBeLessThanOrEqual(within);
});

test.each(SPEED_CHECKS)("release speed $given: $source", ({ given, expected, within }) => {
  expect(Math.abs(tossSpeed(given.airtime, flight(given)) - expected)).toBeLessThanOrEqual(within);
});

test.each(HEIGHT_CHECKS)("rise $given: $source", ({ given, expected, within }) => {
  expect(Math.abs(tossHeight(given.airtime, flight()) - expected)).toBeLessThanOrEqual(within);
});

describe("air drag", () => {
  test(DRAG.source, () => {
    const inAir = flight({ terminalSpeed: DRAG.terminalSpeed });
    expect(airtime(DRAG.rise, inAir)).toBeCloseTo(DRAG.airtime, 8);
    expect(tossHeight(DRAG.airtime, inAir)).toBeCloseTo(DRAG.rise, 7);
    expect(tossSpeed(DRAG.airtime, inAir)).toBeCloseTo(DRAG.speed, 7);
  });

  /** The motion itself, step by step (Runge–Kutta of order 4): v' = −g − g v|v|/u². */
  function integrate(speed: number, terminalSpeed: number, dropBelow: number): { airtime: number; peak: number } {
    const g = 9.80665;
    const pull = (v: number) => -g - (g * v * Math.abs(v)) / terminalSpeed ** 2;
    const step = 1e-4;
    let [time, height, v, peak] = [0, 0, speed, 0];
    for (;;) {
      const k1 = pull(v);
      const k2 = pull(v + (step / 2) * k1);
      const k3 = pull(v + (step / 2) * k2);
      const k4 = pull(v + step * k3);
      const next = v + (step / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
      const rise = (step * (v + next)) / 2 + (step * step * (k1 - k4)) / 12;
      if (v <= 0 && height + rise <= -dropBelow) {
        return { airtime: time + (step * (height + dropBelow)) / -rise, peak };
      }
      time += step;
      height += rise;
      v = next;
      peak = Math.max(peak, height);
    }
  }

  test.each([
    { speed: 9, terminalSpeed: 20, dropBelow: 0 },
    { speed: 14, terminalSpeed: 19, dropBelow: 0.5 },
    { speed: 11, terminalSpeed: 23, dropBelow: -0.4 },
  ])(
    "the same as the motion step by step: $speed m/s in air of $terminalSpeed m/s",
    ({ speed, terminalSpeed, dropBelow }) => {
      const moved = integrate(speed, terminalSpeed, dropBelow);
      const inAir = flight({ terminalSpeed, dropBelow });
      expect(airtime(moved.peak, inAir)).toBeCloseTo(moved.airtime, 5);
      expect(tossSpeed(moved.airtime, inAir)).toBeCloseTo(speed, 5);
    },
  );

  test("a timed toss is as high with air as without to about 0.1 % (design figure, terminal speeds 19 to 23 m/s)", () => {
    for (const seconds of [1.4, 1.8, 2.2]) {
      const ratio = tossHeight(seconds, flight({ terminalSpeed: 21 })) / tossHeight(seconds, flight());
      expect(Math.abs(ratio - 1)).toBeLessThan(0.0015);
    }
  });
});

describe("inverses and order", () => {
  const length = fc.double({ min: 0.01, max: 200, noNaN: true });
  const terminal = fc.option(fc.double({ min: 5, max: 100, noNaN: true }), { nil: undefined });

  test("rise to airtime to rise, with and without air, caught lower and higher", () => {
    fc.assert(
      fc.property(
        length,
        fc.double({ min: -1, max: 3, noNaN: true }),
        terminal,
        fc.constantFrom("m" as const, "ft" as const),
        (rise, share, terminalSpeed, unit) => {
          const inFlight: Flight = { dropBelow: share * rise, unit, terminalSpeed };
          const seconds = airtime(rise, inFlight);
          // Near the lowest rise the time hardly moves with the height, so the height is known to half the digits only.
          expect(Math.abs(tossHeight(seconds, inFlight) - rise) / rise).toBeLessThan(share > -0.99 ? 1e-7 : 1e-4);
        },
      ),
    );
  });

  test("higher takes longer, and the speed grows with the time", () => {
    fc.assert(
      fc.property(length, length, terminal, (one, other, terminalSpeed) => {
        const inFlight = flight(terminalSpeed === undefined ? {} : { terminalSpeed });
        const [low, high] = [Math.min(one, other), Math.max(one, other)];
        expect(airtime(low, inFlight)).toBeLessThanOrEqual(airtime(high, inFlight));
        expect(tossSpeed(airtime(low, inFlight), inFlight)).toBeLessThanOrEqual(
          tossSpeed(airtime(high, inFlight), inFlight) * (1 + 1e-9),
        );
      }),
    );
  });

  test("feet are metres over 0.3048", () => {
    expect(airtime(fromMetres(4, "ft"), flight({}, "ft"))).toBeCloseTo(airtime(4, flight()), 12);
    expect(fromMetres(0.3048, "ft")).toBe(1);
  });
});

describe("what cannot be", () => {
  test("a catch above the highest point", () => {
    expect(() => airtime(1, flight({ dropBelow: -1.2 }))).toThrow(/dropBelow: found a catch 1.2 above/);
  });

  test("a time too short for the catch", () => {
    expect(() => tossHeight(0.3, flight({ dropBelow: 1 }))).toThrow(/airtime: found 0.3 s.*at least 0.452 s/);
    expect(() => tossSpeed(0.3, flight({ dropBelow: -1 }))).toThrow(/at least 0.452 s/);
  });

  test("no time is no toss", () => {
    expect([tossHeight(0, flight()), tossSpeed(0, flight()), airtime(0, flight())]).toEqual([0, 0, 0]);
  });
});

describe("a toss planned from counts", () => {
  const question = {
    counts: 6,
    airtimeSeconds: 2,
    travel: 3,
    releaseHeight: 1.5,
    catchHeight: 1.5,
    ceiling: 7,
    unit: "m" as const,
  };

  test("by hand: 6 counts at 180 a minute last 2 s, rise g/2 m, drift 1.5 m/s", () => {
    const plan = planToss({ ...question, airtimeSeconds: countSeconds(6, 180) });
    expect(plan).toMatchObject({ counts: 6, airtimeSeconds: 2, driftSpeed: 1.5 });
    expect(plan.rise).toBeCloseTo(9.80665 / 2, 12);
    expect(plan.peakAboveFloor).toBeCloseTo(6.403325, 12);
    expect(plan.ceilingRoom).toBeCloseTo(0.596675, 12);
    expect(plan.releaseSpeed).toBeCloseTo(9.80665, 12);
    // tan(lean) = drift over speed up = 1.5 / 9.80665.
    expect(Math.tan((plan.leanDegrees * Math.PI) / 180)).toBeCloseTo(1.5 / 9.80665, 12);
  });

  test("OpenStax University Physics 1, Example 4.7: 70.0 m/s at 75.0° above the ground drifts 125 m in 6.90 s up", () => {
    // Up and down takes 13.8 s and 250 m; 75° above the ground leans 15° from vertical.
    const plan = planToss({
      ...question,
      airtimeSeconds: 13.8,
      travel: 250,
      releaseHeight: 0,
      catchHeight: 0,
      ceiling: undefined,
    });
    expect(plan.leanDegrees).toBeCloseTo(15, 1);
    expect(plan.ceilingRoom).toBeUndefined();
  });

  test("the verdict follows the room under the ceiling", () => {
    expect(tossVerdict(undefined, 0.5, 0)).toMatch(/Measure the ceiling/);
    expect(tossVerdict(-0.1, 0.5, 0)).toMatch(/Hits the ceiling/);
    expect(tossVerdict(0.4, 0.5, 0)).toMatch(/Too close/);
    expect(tossVerdict(0.5, 0.5, 25)).toMatch(/travels far/);
    expect(tossVerdict(0.5, 0.5, 0)).toMatch(/^Fits under/);
  });

  test("counts and seconds turn into each other", () => {
    expect(countSeconds(6, 180)).toBe(2);
    expect(secondsToCounts(2, 180)).toBe(6);
  });
});

describe("the path of a toss", () => {
  test("a shell at its highest point, OpenStax University Physics 1, example 4.7: 233 m up and 125 m along after 6.90 s (from memory)", () => {
    const question = {
      ...{ counts: 1, airtimeSeconds: 13.8, travel: 250, releaseHeight: 0, catchHeight: 0 },
      ...{ ceiling: undefined, unit: "m" as const },
    };
    const [start, top, end] = flightPath(question, 2);
    expect(start).toEqual({ seconds: 0, across: 0, height: 0 });
    expect(top?.seconds).toBeCloseTo(6.9, 2);
    expect(Math.abs((top?.height ?? 0) - 233)).toBeLessThan(0.5);
    expect(top?.across).toBeCloseTo(125, 1);
    expect(end?.height).toBeCloseTo(0, 9);
  });

  test("ends where it is caught, after all of its travel, and is nowhere higher than the plan's peak", () => {
    fc.assert(
      fc.property(
        fc.record({
          airtimeSeconds: fc.double({ min: 1.2, max: 4, noNaN: true }),
          travel: fc.double({ min: 0, max: 10, noNaN: true }),
          releaseHeight: fc.double({ min: 0.5, max: 2, noNaN: true }),
          catchHeight: fc.double({ min: 0.5, max: 2, noNaN: true }),
        }),
        (given) => {
          const question = { ...given, counts: 6, ceiling: undefined, unit: "m" as const };
          const path = flightPath(question, 40);
          const { peakAboveFloor } = planToss(question);
          expect(path.at(-1)?.height).toBeCloseTo(given.catchHeight, 9);
          expect(path.at(-1)?.across).toBeCloseTo(given.travel, 9);
          expect(Math.max(...path.map(({ height }) => height))).toBeLessThanOrEqual(peakAboveFloor + 1e-9);
        },
      ),
    );
  });
});
