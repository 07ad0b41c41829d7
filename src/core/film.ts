/** Airtime from film, and the baton's turns in it. */

export interface Measured {
  readonly seconds: number;
  /** Combined standard uncertainty. */
  readonly uncertainty: number;
}

/**
 * Each frame is read to half a frame either way, uniformly: a standard uncertainty of (1/fps)/√12 for each, and √2 of
 * that for their difference, 1/(√6·fps) (Guide to the Expression of Uncertainty in Measurement, JCGM 100:2008, 4.3.7
 * and 5.1.2).
 */
export function filmAirtime(releaseFrame: number, catchFrame: number, framesPerSecond: number): Measured {
  return {
    seconds: (catchFrame - releaseFrame) / framesPerSecond,
    uncertainty: 1 / (Math.sqrt(6) * framesPerSecond),
  };
}
