/** XML as text: just what the parts of a workbook file need. */

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** One element with its attributes (those that are `undefined` left out) and its children, each XML already. */
export function element(name: string, attributes: Attributes = {}, ...children: readonly string[]): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${escapeAttribute(String(value))}"`)
    .join("");
  return children.length === 0 ? `<${name}${written}/>` : `<${name}${written}>${children.join("")}</${name}>`;
}

/** A whole part: the declaration and the root. */
export function xmlPart(root: string): string {
  return `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n${root}`;
}

export function escapeText(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}

export function escapeAttribute(text: string): string {
  // A line break in an attribute is read back as a space unless it is written as a reference.
  return escapeText(text)
    .replaceAll('"', "&quot;")
    .replaceAll("\n", "&#10;")
    .replaceAll("\r", "&#13;")
    .replaceAll("\t", "&#9;");
}

/**
 * A string as the file format holds it (ST_Xstring, ECMA-376 part 1, 22.9.2.19): characters that XML cannot hold as
 * `_x000D_`, and text that looks like such a code with its underscore coded.
 */
export function codeString(text: string): string {
  return (
    text
      .replace(/_(?=x[0-9a-f]{4}_)/gi, "_x005F_")
      // eslint-disable-next-line no-control-regex -- these are the characters that XML 1.0 has no place for
      .replace(/[\u0000-\u0008\u000B-\u001F\uFFFE\uFFFF]/g, (character) => {
        return `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`;
      })
      .replace(/\p{Surrogate}/gu, "\uFFFD")
  );
}
