/** Where the tosses land, from marks on the floor relative to the target: right and forward are positive. */
import { mean, sampleStandardDeviation } from "simple-statistics";
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
const LINE = 1e-6;
/** The mean of marks on one line lies on it up to rounding. */
const BESIDE_LINE = 1e-9;

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
 *
 * Worked out along the marks' own two axes: there T² is a sum of two squares. The variances and their covariance would
 * do as well on paper, but of marks near one line their determinant keeps few digits.
 */
export function biasChance(across: readonly number[], along: readonly number[]): number {
  const count = across.length;
  const { length, width, meanAlong, meanBeside } = ownAxes(across, along);
  if (length === 0) return meanAlong === 0 && meanBeside === 0 ? 1 : 0;
  if (width <= LINE * length) return biasOnLine(count, length, meanAlong, meanBeside);
  // T² / (n − 1), since a variance is the sum of squares over n − 1.
  const squared = count * ((meanAlong / length) ** 2 + (meanBeside / width) ** 2);
  return Math.pow(1 + squared, -(count - 2) / 2);
}

/** All marks on one line: beside the line there is no spread at all, along it Student's t decides. */
function biasOnLine(count: number, length: number, meanAlong: number, meanBeside: number): number {
  if (Math.abs(meanBeside) > BESIDE_LINE * (length + Math.hypot(meanAlong, meanBeside))) return 0;
  const squared = count * (meanAlong / length) ** 2;
  return betaBelow(1 / (1 + squared), (count - 1) / 2, 0.5);
}

/** The marks in the two directions in which they vary most and least. */
interface OwnAxes {
  /** Roots of the sums of squares about the mean, the longer first. */
  readonly length: number;
  readonly width: number;
  /** Of the mean, from the target. */
  readonly meanAlong: number;
  readonly meanBeside: number;
}

/** Rounding alone leaves this of two directions that are at right angles. */
const RIGHT_ANGLE = 1e-15;
const MOST_TURNS = 10;

/**
 * Turns the two columns until they are at right angles: one-sided Jacobi rotations (Hestenes 1958, Journal of the Society
 * for Industrial and Applied Mathematics 6:51–90), which keep the digits of the smaller of the two.
 */
function ownAxes(across: readonly number[], along: readonly number[]): OwnAxes {
  let [meanX, meanY] = [mean([...across]), mean([...along])];
  let x = across.map((value) => value - meanX);
  let y = along.map((value) => value - meanY);
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    const [xx, yy, xy] = [sumOfProducts(x, x), sumOfProducts(y, y), sumOfProducts(x, y)];
    if (Math.abs(xy) <= RIGHT_ANGLE * Math.sqrt(xx) * Math.sqrt(yy)) break;
    const ratio = (yy - xx) / (2 * xy);
    const tangent = (ratio < 0 ? -1 : 1) / (Math.abs(ratio) + Math.hypot(1, ratio));
    const cosine = 1 / Math.hypot(1, tangent);
    const sine = cosine * tangent;
    const [formerX, formerY] = [x, y];
    x = formerX.map((value, toss) => cosine * value - sine * (formerY[toss] as number));
    y = formerX.map((value, toss) => sine * value + cosine * (formerY[toss] as number));
    [meanX, meanY] = [cosine * meanX - sine * meanY, sine * meanX + cosine * meanY];
  }
  const [sizeX, sizeY] = [Math.sqrt(sumOfProducts(x, x)), Math.sqrt(sumOfProducts(y, y))];
  return sizeX >= sizeY
    ? { length: sizeX, width: sizeY, meanAlong: meanX, meanBeside: meanY }
    : { length: sizeY, width: sizeX, meanAlong: meanY, meanBeside: meanX };
}

function sumOfProducts(one: readonly number[], other: readonly number[]): number {
  let sum = 0;
  for (let toss = 0; toss < one.length; toss++) sum += (one[toss] as number) * (other[toss] as number);
  return sum;
}
