/** Where the tosses land, from marks on the floor relative to the target: right and forward are positive. */
import { mean, sampleStandardDeviation, sampleVariance, sampleCovariance } from "simple-statistics";
import { betaBelow } from "./tails";

export interface Placement {
  readonly tosses: number;
  readonly meanSideways: number;
  readonly meanForward: number;
  /** Sample standard deviations; undefined for one toss. */
  readonly spreadSideways: number | undefined;
  readonly spreadForward: number | undefined;
  /** Radii about the target that hold half and nine tenths of the tosses. */
  readonly within50: number;
  readonly within90: number;
  /** Whether the mean is clearly off the target; undefined for fewer than 4 tosses. */
  readonly biasClear: boolean | undefined;
}

const FEWEST_FOR_BIAS = 4;
const BIAS_LEVEL = 0.05;
/** A spread this much smaller than the other is none: the marks lie on one line. */
const LINE = 1e-12;

/** @param sideways and `forward`: equally many, at least one */
export function placement(sideways: readonly number[], forward: readonly number[]): Placement {
  const [across, along] = [[...sideways], [...forward]];
  const radii = across.map((x, toss) => Math.hypot(x, along[toss] as number)).sort((one, other) => one - other);
  const several = across.length > 1;
  return {
    tosses: across.length,
    meanSideways: mean(across),
    meanForward: mean(along),
    spreadSideways: several ? sampleStandardDeviation(across) : undefined,
    spreadForward: several ? sampleStandardDeviation(along) : undefined,
    within50: radiusHolding(radii, 0.5),
    within90: radiusHolding(radii, 0.9),
    biasClear: across.length >= FEWEST_FOR_BIAS ? biasChance(across, along) < BIAS_LEVEL : undefined,
  };
}

/** The smallest radius that holds at least the share: the inverse of the empirical distribution. */
function radiusHolding(sorted: readonly number[], share: number): number {
  return sorted[Math.max(0, Math.ceil(share * sorted.length - 1e-9) - 1)] as number;
}

/**
 * Hotelling's one-sample T² of the mean against the target (Hotelling 1931; Johnson and Wichern, Applied Multivariate
 * Statistical Analysis, section 5.2): the chance of a mean this far off with no bias. With two numbers a toss
 * (n−2)/(2(n−1))·T² is F with 2 and n−2 degrees of freedom, whose upper tail is (1 + T²/(n−1))^(−(n−2)/2).
 */
export function biasChance(across: number[], along: number[]): number {
  const count = across.length;
  const [x, y] = [mean(across), mean(along)];
  const [xx, yy, xy] = [sampleVariance(across), sampleVariance(along), sampleCovariance(across, along)];
  const largest = (xx + yy + Math.hypot(xx - yy, 2 * xy)) / 2;
  const determinant = xx * yy - xy * xy;
  if (largest === 0) return x === 0 && y === 0 ? 1 : 0;
  if (determinant <= LINE * largest * largest) return biasOnLine(count, [x, y], [xx, yy, xy], largest);
  const squared = (count * (yy * x * x - 2 * xy * x * y + xx * y * y)) / determinant;
  return Math.pow(1 + squared / (count - 1), -(count - 2) / 2);
}

/** All marks on one line: beside the line there is no spread at all, along it Student's t decides. */
function biasOnLine(
  count: number,
  [x, y]: readonly [number, number],
  [xx, yy, xy]: readonly [number, number, number],
  largest: number,
): number {
  // The line's direction: the eigenvector of the covariance to its one spread.
  const [dx, dy] = xx >= yy ? [largest - yy, xy] : [xy, largest - xx];
  const size = Math.hypot(dx, dy);
  const [alongLine, besideLine] = [(x * dx + y * dy) / size, (x * dy - y * dx) / size];
  if (Math.abs(besideLine) > 1e-9 * (Math.sqrt(largest) + Math.hypot(x, y))) return 0;
  const freedom = count - 1;
  const t2 = (count * alongLine * alongLine) / largest;
  return betaBelow(freedom / (freedom + t2), freedom / 2, 0.5);
}
