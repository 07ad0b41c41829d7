/** Words as headings are compared: without accents, case and signs. */

/** `Número d'essais (n°)` gives `numero`, `d`, `essais`, `n`. */
export function plainWords(text: string): readonly string[] {
  const plain = text
    .normalize("NFD")
    .replace(/\p{Mark}+/gu, "")
    .replace(/ß/g, "ss")
    .replace(/[øØ]/g, "o")
    .replace(/[æÆ]/g, "ae")
    .toLowerCase();
  return plain.match(/\p{L}+|\d+|%/gu) ?? [];
}

export function plainText(text: string): string {
  return plainWords(text).join(" ");
}
