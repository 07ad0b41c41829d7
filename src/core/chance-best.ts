/**
 * Which of several ways has the highest rate? The rates are independent, each Beta(caught + ½, missed + ½), and the chance
 * of each to be the highest is ∫ f_i ∏ F_j over the others, by quadrature.
 *
 * The rate is written as sin²θ: then a density that is infinite at 0 or 1 is finite, and each has a width of about
 * 1/√(2n) wherever it lies. The range is cut into panels no wider than twice the narrowest density in them. On each
 * panel a density is its polynomial through 16 Gauss–Legendre nodes, which is integrated exactly from node to node, so that
 * the distribution functions come out of the same values, and incomplete beta functions are needed at the left end only.
 */
import type { Tally } from "./compare";
import { betaBelow, logGamma } from "./tails";

const NODES = 16;
/** Beyond this many widths from its middle a density is below 1e-25 of what it is at most. */
const REACH_WIDTHS = 10;
const PANEL_WIDTHS = 2;
const WHOLE_RANGE = Math.PI / 2;

interface Rate {
  readonly a: number;
  readonly b: number;
  /** Exponents of sin θ and cos θ in the density of θ, and the logarithm of its factor. */
  readonly sines: number;
  readonly cosines: number;
  readonly logFactor: number;
  readonly from: number;
  readonly to: number;
  /** The widest panel that the density stands. */
  readonly panel: number;
}

/**
 * The chance of each to have the highest true rate; together 1.
 *
 * @param tallies caught whole, 0 to attempts; attempts up to ten million
 */
export function chancesToBeBest(tallies: readonly Tally[]): number[] {
  const rates = tallies.map(rateOf);
  const count = rates.length;
  const chances = new Float64Array(count);
  const rule = gaussLegendre();
  // Where one of the rates has not begun none is the highest but by a chance far below rounding.
  let left = Math.max(...rates.map(({ from }) => from));
  const end = Math.max(...rates.map(({ to }) => to));
  /** For each rate how much of it lies below the panel. */
  const below = Float64Array.from(rates, ({ a, b }) => betaBelow(Math.sin(left) ** 2, a, b));
  const densities = new Float64Array(count * NODES);
  const shares = new Float64Array(count * NODES);
  const logSines = new Float64Array(NODES);
  const logCosines = new Float64Array(NODES);
  while (left < end) {
    const right = Math.min(end, panelEnd(rates, left));
    const half = (right - left) / 2;
    for (let node = 0; node < NODES; node++) {
      const angle = left + half * (1 + (rule.nodes[node] as number));
      logSines[node] = Math.log(Math.sin(angle));
      logCosines[node] = Math.log(Math.cos(angle));
    }
    for (let index = 0; index < count; index++) {
      const rate = rates[index] as Rate;
      const at = index * NODES;
      if (right <= rate.from || left >= rate.to) {
        densities.fill(0, at, at + NODES);
        shares.fill(below[index] as number, at, at + NODES);
        continue;
      }
      for (let node = 0; node < NODES; node++) {
        densities[at + node] = densityAt(rate, logSines[node] as number, logCosines[node] as number);
      }
      below[index] = integrate(rule, densities, at, half, below[index] as number, shares);
    }
    addPanel(rule, densities, shares, half, chances);
    left = right;
  }
  // What rounding leaves over is shared out, so that the chances add up to 1.
  const sum = chances.reduce((all, chance) => all + chance, 0);
  return Array.from(chances, (chance) => chance / sum);
}

function rateOf({ caught, attempts }: Tally): Rate {
  const [a, b] = [caught + 0.5, attempts - caught + 0.5];
  const middle = Math.atan2(Math.sqrt(a), Math.sqrt(b));
  const width = 1 / Math.sqrt(2 * (a + b));
  return {
    a,
    b,
    sines: 2 * a - 1,
    cosines: 2 * b - 1,
    // 2 / B(a, b): the 2 is from dx = 2 sin θ cos θ dθ.
    logFactor: Math.LN2 + logGamma(a + b) - logGamma(a) - logGamma(b),
    from: Math.max(0, middle - REACH_WIDTHS * width),
    to: Math.min(WHOLE_RANGE, middle + REACH_WIDTHS * width),
    panel: PANEL_WIDTHS * width,
  };
}

/** An exponent of 0 stands for a factor of 1, also where the logarithm is −∞. */
function densityAt({ sines, cosines, logFactor }: Rate, logSine: number, logCosine: number): number {
  return Math.exp(logFactor + (sines === 0 ? 0 : sines * logSine) + (cosines === 0 ? 0 : cosines * logCosine));
}

/** Where the panel that begins here has to end: before the next density begins, and as narrow as those within ask for. */
function panelEnd(rates: readonly Rate[], left: number): number {
  let end = Infinity;
  for (const { from, to, panel } of rates) {
    if (left >= to) continue;
    const atMost = left < from ? from : left + panel;
    if (atMost < end) end = atMost;
  }
  return end;
}

/** Writes the integral from the panel's left end up to each node, and answers that over the whole panel. */
function integrate(
  rule: Rule,
  densities: Float64Array,
  at: number,
  half: number,
  below: number,
  shares: Float64Array,
): number {
  let whole = 0;
  for (let node = 0; node < NODES; node++) {
    let sum = 0;
    for (let other = 0; other < NODES; other++) {
      sum += (rule.upTo[node * NODES + other] as number) * (densities[at + other] as number);
    }
    shares[at + node] = below + half * sum;
    whole += (rule.weights[node] as number) * (densities[at + node] as number);
  }
  return below + half * whole;
}

/** Adds the panel's part of each chance. The products over all others come from products from both ends. */
function addPanel(
  rule: Rule,
  densities: Float64Array,
  shares: Float64Array,
  half: number,
  chances: Float64Array,
): void {
  const count = chances.length;
  const before = new Float64Array(count);
  for (let node = 0; node < NODES; node++) {
    let product = 1;
    for (let index = 0; index < count; index++) {
      before[index] = product;
      product *= shares[index * NODES + node] as number;
    }
    let after = half * (rule.weights[node] as number);
    for (let index = count - 1; index >= 0; index--) {
      const density = densities[index * NODES + node] as number;
      chances[index] = (chances[index] as number) + density * (before[index] as number) * after;
      after *= shares[index * NODES + node] as number;
    }
  }
}

interface Rule {
  /** On −1 to 1. */
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
  /** Row by row: what the value at each node adds to the integral from −1 up to a node. */
  readonly upTo: Float64Array;
}

/**
 * Gauss–Legendre nodes as the roots of the Legendre polynomial by Newton's method (Press and others, Numerical Recipes,
 * section 4.6), and the integrals of the polynomial through the values at the nodes: its coefficients in Legendre
 * polynomials are exact sums over the nodes, and ∫P_k = (P_{k+1} − P_{k−1}) / (2k + 1).
 */
export function gaussLegendre(): Rule {
  const nodes = new Float64Array(NODES);
  const weights = new Float64Array(NODES);
  for (let node = 0; node < NODES; node++) {
    let x = -Math.cos((Math.PI * (node + 0.75)) / (NODES + 0.5));
    let slope = 0;
    for (let step = 0; step < 10; step++) {
      const values = legendre(x);
      const [at, before] = [values[NODES] as number, values[NODES - 1] as number];
      slope = (NODES * (x * at - before)) / (x * x - 1);
      x -= at / slope;
    }
    nodes[node] = x;
    weights[node] = 2 / ((1 - x * x) * slope * slope);
  }
  const upTo = new Float64Array(NODES * NODES);
  const polynomials = Array.from(nodes, legendre);
  for (let node = 0; node < NODES; node++) {
    for (let other = 0; other < NODES; other++) {
      const [here, there] = [polynomials[node] as number[], polynomials[other] as number[]];
      let sum = (nodes[node] as number) + 1;
      for (let degree = 1; degree < NODES; degree++) {
        sum += (there[degree] as number) * ((here[degree + 1] as number) - (here[degree - 1] as number));
      }
      upTo[node * NODES + other] = ((weights[other] as number) / 2) * sum;
    }
  }
  return { nodes, weights, upTo };
}

/** P_0 to P_16 at a place. */
function legendre(x: number): number[] {
  const values = [1, x];
  for (let degree = 1; degree < NODES; degree++) {
    const [at, before] = [values[degree] as number, values[degree - 1] as number];
    values.push(((2 * degree + 1) * x * at - degree * before) / (degree + 1));
  }
  return values;
}
