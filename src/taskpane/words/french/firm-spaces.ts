/**
 * The space before `: ; ? ! %` and inside « » holds both sides together at a line's end, as French sets it (Imprimerie
 * nationale, Lexique des règles typographiques; from memory). The catalogue is written with plain spaces.
 */
const FIRM = "\u00A0";

export function withFirmSpaces<Catalogue extends object>(catalogue: Catalogue): Catalogue {
  return firm(catalogue) as Catalogue;
}

function firm(value: unknown): unknown {
  if (typeof value === "string") return value.replace(/ (?=[:;?!%»])/g, FIRM).replace(/« /g, `«${FIRM}`);
  if (typeof value === "function") {
    const made = value as (...given: unknown[]) => unknown;
    return (...given: unknown[]) => firm(made(...given));
  }
  if (Array.isArray(value)) return value.map(firm);
  if (typeof value === "object" && value !== null) {
    return Object.fromEntries(Object.entries(value).map(([key, inside]) => [key, firm(inside)]));
  }
  return value;
}
