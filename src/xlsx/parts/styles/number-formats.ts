/** Number formats: those that the file format numbers itself, and which of all formats show a date. */
import { children, wholeNumber, type XmlElement } from "../../xml/tree";

/** ECMA-376 part 1, 18.8.30; 27 to 36 and 50 to 58 are dates that depend on the language of the program. */
const BUILT_IN: Readonly<Record<number, string>> = {
  0: "General",
  1: "0",
  2: "0.00",
  3: "#,##0",
  4: "#,##0.00",
  5: '"$"#,##0_);\\("$"#,##0\\)',
  6: '"$"#,##0_);[Red]\\("$"#,##0\\)',
  7: '"$"#,##0.00_);\\("$"#,##0.00\\)',
  8: '"$"#,##0.00_);[Red]\\("$"#,##0.00\\)',
  9: "0%",
  10: "0.00%",
  11: "0.00E+00",
  12: "# ?/?",
  13: "# ??/??",
  14: "m/d/yyyy",
  15: "d-mmm-yy",
  16: "d-mmm",
  17: "mmm-yy",
  18: "h:mm AM/PM",
  19: "h:mm:ss AM/PM",
  20: "h:mm",
  21: "h:mm:ss",
  22: "m/d/yyyy h:mm",
  37: "#,##0_);(#,##0)",
  38: "#,##0_);[Red](#,##0)",
  39: "#,##0.00_);(#,##0.00)",
  40: "#,##0.00_);[Red](#,##0.00)",
  41: '_(* #,##0_);_(* \\(#,##0\\);_(* "-"_);_(@_)',
  42: '_("$"* #,##0_);_("$"* \\(#,##0\\);_("$"* "-"_);_(@_)',
  43: '_(* #,##0.00_);_(* \\(#,##0.00\\);_(* "-"??_);_(@_)',
  44: '_("$"* #,##0.00_);_("$"* \\(#,##0.00\\);_("$"* "-"??_);_(@_)',
  45: "mm:ss",
  46: "[h]:mm:ss",
  47: "mm:ss.0",
  48: "##0.0E+0",
  49: "@",
};
const LANGUAGE_DATE = "m/d/yyyy";

/** Format codes by number. */
export function readNumberFormats(stylesheet: XmlElement | undefined): ReadonlyMap<number, string> {
  const formats = new Map<number, string>(Object.entries(BUILT_IN).map(([id, code]) => [Number(id), code]));
  for (let id = 27; id <= 58; id += 1) if (!formats.has(id)) formats.set(id, LANGUAGE_DATE);
  const list = stylesheet?.children.find(({ name }) => name === "numFmts");
  for (const format of children(list, "numFmt")) {
    const id = wholeNumber(format, "numFmtId");
    const code = format.attributes["formatCode"];
    if (id !== undefined && code !== undefined) formats.set(id, code);
  }
  return formats;
}

/** The number of a built-in format with this code, or undefined. */
export function builtInFormat(code: string): number | undefined {
  const found = Object.entries(BUILT_IN).find(([, builtIn]) => builtIn === code);
  return found === undefined ? undefined : Number(found[0]);
}

/** Whether a format shows a day or a time: it has one of their letters outside quotes, escapes and brackets. */
export function showsDate(code: string): boolean {
  if (code === "General" || code === "@") return false;
  const bare = code
    .replace(/"[^"]*"/g, "")
    .replace(/\\./g, "")
    .replace(/[_*]./g, "")
    .replace(/\[(?![hms]+\])[^\]]*\]/gi, "");
  return /[ymdhs]/i.test(bare.replace(/general/gi, "").replace(/e[+-]/gi, ""));
}
