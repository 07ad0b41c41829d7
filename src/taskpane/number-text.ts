/** A number as people type it: a decimal point or a decimal comma, and nothing else; NaN for anything that is none. */
export function numberFromText(text: string): number {
  const trimmed = text.trim();
  return /^[-+]?(\d+([.,]\d*)?|[.,]\d+)$/.test(trimmed) ? Number(trimmed.replace(",", ".")) : Number.NaN;
}
