/** The styles of one package put into another's, each only where it is not there yet. */
import { element } from "../../xml/write";
import { prefixed } from "../workbook/dynamic-arrays";
import { readNumberFormats } from "./number-formats";
import { StyleLists } from "./style-lists";
import { readWorkbookPart } from "../workbook/read";
import type { WorkbookPackage } from "../../package/workbook-package";
import { child, children, parseXml, wholeNumber, type XmlElement } from "../../xml/tree";

export interface MergedStyles {
  /** The number, in the other package, of a cell style of the first. */
  cellStyle(number: number): number;
  /** The same for what conditional formats draw. */
  ruleStyle(number: number): number;
}

/**
 * @param from a package without prefixes, as our own writer makes it
 * @param part the name of its styles part
 */
export function mergeStyles(target: WorkbookPackage, from: WorkbookPackage, part: string | undefined): MergedStyles {
  if (part === undefined) return { cellStyle: () => 0, ruleStyle: () => 0 };
  const lists = new StyleLists(target, readWorkbookPart(target));
  const { root, source } = parseXml(from.text(part));
  const codes = readNumberFormats(root);
  const copied = (list: string, name: string): number[] =>
    children(child(root, list), name).map((item) => lists.add(list, prefixed(textOf(source, item), lists.prefix)));
  const fonts = copied("fonts", "font");
  const fills = copied("fills", "fill");
  const borders = copied("borders", "border");
  const rules = copied("dxfs", "dxf");
  const cells = children(child(root, "cellXfs"), "xf").map((format) => {
    const number = (attribute: string): number => wholeNumber(format, attribute) ?? 0;
    const xml = element(
      "xf",
      {
        ...format.attributes,
        numFmtId: lists.formatNumber(codes.get(number("numFmtId")) ?? "General"),
        fontId: fonts[number("fontId")] ?? 0,
        fillId: fills[number("fillId")] ?? 0,
        borderId: borders[number("borderId")] ?? 0,
        xfId: 0,
        // The other workbook's usual look may be any.
        applyNumberFormat: 1,
        applyFont: 1,
        applyFill: 1,
        applyBorder: 1,
      },
      ...format.children.map((inner) => textOf(source, inner)),
    );
    return lists.add("cellXfs", prefixed(xml, lists.prefix));
  });
  lists.finish();
  return { cellStyle: (number) => cells[number] ?? 0, ruleStyle: (number) => rules[number] ?? 0 };
}

function textOf(source: string, { start, end }: XmlElement): string {
  return source.slice(start, end);
}
