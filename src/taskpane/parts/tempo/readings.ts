/** The Tempo part's results in the form in which they are shown and put into cells. Knows nothing of the document. */
import { filmAirtime, type Measured } from "../../../core/film";
import { riseOf } from "../../../core/tempo";
import type { LengthUnit } from "../../../core/toss";
import { numberFromText } from "../../words/number-text";
import { texts } from "../../words/texts";

/** A number as it is shown, and as it goes into a cell: what the coach sees is what the sheet gets. */
export interface Reading {
  readonly value: number;
  /** Standard uncertainty. */
  readonly uncertainty: number;
  readonly decimals: number;
}

/** So many decimals that the uncertainty has two digits, but never more than the measurement can carry. */
export function readingOf(value: number, uncertainty: number, mostDecimals: number): Reading {
  const needed = uncertainty > 0 ? 1 - Math.floor(Math.log10(uncertainty)) : mostDecimals;
  const decimals = Math.min(mostDecimals, Math.max(0, needed));
  return { value: rounded(value, decimals), uncertainty, decimals };
}

const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals));

/** `2.20 ± 0.014`, with a decimal point whatever the computer's own habits: as the sheet's functions write it. */
export function readingInWords({ value, uncertainty, decimals }: Reading): string {
  return texts.plusMinus(value.toFixed(decimals), uncertainty.toFixed(decimals));
}

export function airtimeReading({ seconds, uncertainty }: Measured): Reading {
  return readingOf(seconds, uncertainty, 3);
}

export function riseReading(airtime: Measured, unit: LengthUnit): Reading {
  const { rise, uncertainty } = riseOf(airtime, unit);
  return readingOf(rise, uncertainty, 2);
}

export type FilmField = "release" | "catch" | "rate";
export type FilmForm = Readonly<Record<FilmField, string>>;

type Film =
  | { readonly kind: "measured"; readonly airtime: Measured }
  /** Something is still to be typed. */
  | { readonly kind: "unfinished" }
  | { readonly kind: "wrong"; readonly problems: { readonly [Name in FilmField]?: string } };

/** As the cell function FILMTIME takes them. */
const limits = { frame: { least: 0, most: 100_000_000 }, rate: { least: 1, most: 100_000 } };

/** The form as an airtime, once it is filled in. */
export function readFilm(form: FilmForm): Film {
  const problems: { [Name in FilmField]?: string } = {};
  const read = (field: FilmField, { least, most }: { readonly least: number; readonly most: number }): number => {
    if (form[field].trim() === "") return Number.NaN;
    const value = numberFromText(form[field]);
    if (!(value >= least && value <= most)) problems[field] = texts.notInRange(least, most);
    return value;
  };
  const release = read("release", limits.frame);
  const caught = read("catch", limits.frame);
  const rate = read("rate", limits.rate);
  if (caught <= release) problems.catch ??= texts.catchAfterRelease;
  if (Object.keys(problems).length > 0) return { kind: "wrong", problems };
  if ([release, caught, rate].some(Number.isNaN)) return { kind: "unfinished" };
  return { kind: "measured", airtime: filmAirtime(release, caught, rate) };
}
