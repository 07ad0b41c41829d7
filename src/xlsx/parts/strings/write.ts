/** The texts of a workbook, each stored once and referred to by its number. */
import { codeString, element, escapeText, xmlPart } from "../../xml/write";
import { MAIN_NAMESPACE } from "../../package/namespaces";

export class SharedStrings {
  private readonly numbers = new Map<string, number>();
  private uses = 0;

  /** The number of a text. */
  numberOf(text: string): number {
    this.uses += 1;
    const known = this.numbers.get(text);
    if (known !== undefined) return known;
    const next = this.numbers.size;
    this.numbers.set(text, next);
    return next;
  }

  part(): string {
    const items = [...this.numbers.keys()].map((text) =>
      element("si", {}, element("t", { "xml:space": "preserve" }, escapeText(codeString(text)))),
    );
    return xmlPart(
      element("sst", { xmlns: MAIN_NAMESPACE, count: this.uses, uniqueCount: this.numbers.size }, ...items),
    );
  }
}
