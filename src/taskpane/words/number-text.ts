/** Numbers as people type and read them. */
import { texts } from "./texts";

/** A number as people type it: a decimal point or a decimal comma, and nothing else; NaN for anything that is none. */
export function numberFromText(text: string): number {
  const trimmed = text.trim();
  return /^[-+]?(\d+([.,]\d*)?|[.,]\d+)$/.test(trimmed) ? Number(trimmed.replace(",", ".")) : Number.NaN;
}

/** With so many decimals, in the reader's own way of writing them. */
export function decimals(value: number, digits: number): string {
  return value.toLocaleString(texts.locale, { minimumFractionDigits: digits, maximumFractionDigits: digits });
}

/** A share as a whole per cent; the sign stays with its number. */
export function percent(share: number): string {
  return `${String(Math.round(share * 100))}\u00A0%`;
}
