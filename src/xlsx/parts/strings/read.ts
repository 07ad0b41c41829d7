/** The workbook's texts, each stored once, with the pieces of those whose letters are drawn in more than one way. */
import type { WorkbookPackage } from "../../package/workbook-package";
import { decodeString } from "../../xml/text";
import { child, children, parseXml, type XmlElement } from "../../xml/tree";

interface TextRun {
  readonly text: string;
  /** The run's font, or undefined for the cell's own. */
  readonly font: XmlElement | undefined;
}

export interface CellText {
  readonly text: string;
  readonly runs?: readonly TextRun[];
}

export function readSharedStrings(source: WorkbookPackage, part: string | undefined): CellText[] {
  const strings: CellText[] = [];
  if (part === undefined || !source.has(part)) return strings;
  parseXml(source.text(part), { parent: "sst", each: (item) => strings.push(readText(item)) });
  return strings;
}

/** A `si` or `is` element. What is there for reading aloud (`rPh`) is no part of the text. */
export function readText(item: XmlElement): CellText {
  const pieces = children(item, "r");
  if (pieces.length === 0) return { text: decodeString(child(item, "t")?.text ?? "") };
  const runs = pieces.map((piece) => ({
    text: decodeString(child(piece, "t")?.text ?? ""),
    font: child(piece, "rPr"),
  }));
  const text = runs.map((run) => run.text).join("");
  return runs.every(({ font }) => font === undefined) ? { text } : { text, runs };
}
