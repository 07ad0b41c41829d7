/** One cell as the file writes it. */
import type { IDocumentData } from "@univerjs/core";

import { codeString, element, escapeText } from "../../../xlsx/xml/write";
import { type CellValue, sameValue } from "./values";
import type { NewContent } from "./changes";
import { type GridPlace, placeName, rangeName } from "../../../xlsx/ranges";
import { DAYS_FROM_1900_TO_1904 } from "./read";
import { fontXml } from "../styles/write";
import { XmlEdits } from "../../../xlsx/xml/edits";
import { decodeString } from "../../../xlsx/xml/text";
import { child, type XmlElement } from "../../../xlsx/xml/tree";

export interface CellWriting {
  /** What stands before the names of the sheet's elements. */
  readonly prefix: string;
  readonly from1904: boolean;
  /** Whether cells of this style show days. */
  readonly isDated: (style: number) => boolean;
  /** The number of the record that marks a formula as one that spills. */
  readonly dynamicRecord: () => number;
}

/** A cell's type and the element that holds its value. */
interface WrittenValue {
  readonly type: string | undefined;
  readonly value: string;
}

/** A cell that holds something else than before. Nothing for a cell that holds nothing and looks like any other. */
export function newCellXml(at: GridPlace, content: NewContent, style: number, writing: CellWriting): string {
  const { prefix } = writing;
  const attributes = { r: placeName(at), s: style === 0 ? undefined : style };
  switch (content.kind) {
    case "value": {
      if (content.value.kind === "empty") return style === 0 ? "" : element(`${prefix}c`, attributes);
      if (content.value.kind === "text") {
        return element(`${prefix}c`, { ...attributes, t: "inlineStr" }, inlineXml(content.value.text, prefix));
      }
      const { type, value } = valueXml(content.value, style, writing);
      return element(`${prefix}c`, { ...attributes, t: type }, value);
    }
    case "rich":
      return element(`${prefix}c`, { ...attributes, t: "inlineStr" }, richXml(content.document, prefix));
    case "formula": {
      const { type, value } = valueXml(content.answer, style, writing);
      const isArray = content.block !== undefined;
      return element(
        `${prefix}c`,
        { ...attributes, t: type, cm: isArray ? writing.dynamicRecord() : undefined },
        element(
          `${prefix}f`,
          isArray ? { t: "array", ref: rangeName(content.block) } : {},
          escapeText(codeFormula(content.text)),
        ),
        ...(value === "" ? [] : [value]),
      );
    }
    default:
      return unknownKind(content);
  }
}

/** A cell without a formula of its own, into which one spills: only its value is another. */
export function spilledCellXml(at: GridPlace, answer: CellValue, style: number, writing: CellWriting): string {
  const { type, value } = valueXml(answer, style, writing);
  const attributes = { r: placeName(at), s: style === 0 ? undefined : style, t: type };
  if (value === "") return style === 0 ? "" : element(`${writing.prefix}c`, { ...attributes, t: undefined });
  return element(`${writing.prefix}c`, attributes, value);
}

/** Whether the file's cell shows this already. */
export function showsAnswer(cell: XmlElement, answer: CellValue, style: number, writing: CellWriting): boolean {
  const text = child(cell, "v")?.text;
  const known = ((): CellValue => {
    if (text === undefined) return { kind: "empty" };
    switch (cell.attributes["t"]) {
      case "str":
        return { kind: "text", text: decodeString(text) };
      case "b":
        return { kind: "boolean", value: text === "1" || text === "true" };
      case "e":
        return { kind: "error", name: text };
      case undefined:
      case "n": {
        const moved = writing.from1904 && writing.isDated(style) ? DAYS_FROM_1900_TO_1904 : 0;
        return { kind: "number", value: Number(text) + moved };
      }
      default:
        return { kind: "empty" };
    }
  })();
  const written: CellValue = answer.kind === "error" ? { kind: "error", name: fileError(answer.name) } : answer;
  return sameValue(known, written);
}

interface Refreshed {
  readonly answer?: CellValue;
  /** The block that the formula fills, where that is another. */
  readonly block?: string;
  /** The formula by itself, where the file had it from a cell that no longer has it. */
  readonly ownFormula?: string;
  readonly style?: number;
}

/** What is said anew of a cell is changed; what else the file says of it stays. */
export function refreshedCellXml(source: string, cell: XmlElement, refreshed: Refreshed, writing: CellWriting): string {
  const edits = new XmlEdits(source, cell.start, cell.end);
  const formula = child(cell, "f");
  const { answer, block, ownFormula, style } = refreshed;
  if (style !== undefined) edits.setAttribute(cell, "s", style === 0 ? undefined : style);
  if (answer !== undefined) {
    const { type, value } = valueXml(answer, style ?? Number(cell.attributes["s"] ?? 0), writing);
    edits.setAttribute(cell, "t", type);
    // Such a mark tells of a value of a richer kind, which the new one is not.
    edits.setAttribute(cell, "vm", undefined);
    const old = child(cell, "v") ?? child(cell, "is");
    if (old) edits.replaceElement(old, value);
    else if (formula) edits.insertAfter(formula, value);
    else if (value !== "") edits.append(cell, value);
  }
  if (formula && ownFormula !== undefined) {
    edits.replaceElement(formula, element(`${writing.prefix}f`, {}, escapeText(ownFormula)));
  } else if (formula && block !== undefined && formula.attributes["ref"] !== block) {
    edits.setAttribute(formula, "ref", block);
    if (cell.attributes["cm"] === undefined) edits.setAttribute(cell, "cm", writing.dynamicRecord());
  }
  return edits.apply();
}

function inlineXml(text: string, prefix: string): string {
  return element(`${prefix}is`, {}, textXml(text, prefix));
}

function textXml(text: string, prefix: string): string {
  return element(`${prefix}t`, { "xml:space": "preserve" }, escapeText(codeString(text)));
}

/** Letters drawn in several ways, piece by piece. */
function richXml({ body }: IDocumentData, prefix: string): string {
  const stream = (body?.dataStream ?? "").replace(/\r\n$/, "");
  const pieces: string[] = [];
  let at = 0;
  const put = (from: number, to: number, font?: string): void => {
    const text = stream.slice(from, to).replaceAll("\r", "\n");
    if (text !== "")
      pieces.push(element(`${prefix}r`, {}, ...(font === undefined ? [] : [font]), textXml(text, prefix)));
  };
  for (const { st, ed, ts } of [...(body?.textRuns ?? [])].sort((one, other) => one.st - other.st)) {
    const from = Math.max(st, at);
    put(at, from);
    put(from, ed, ts === undefined ? undefined : fontXml(ts, prefix, undefined, "rPr"));
    at = Math.max(at, ed);
  }
  put(at, stream.length);
  return element(`${prefix}is`, {}, ...pieces);
}

function valueXml(value: CellValue, style: number, writing: CellWriting): WrittenValue {
  const v = (text: string): string => element(`${writing.prefix}v`, {}, text);
  switch (value.kind) {
    case "empty":
      return { type: undefined, value: "" };
    case "number": {
      const moved = writing.from1904 && writing.isDated(style) ? value.value - DAYS_FROM_1900_TO_1904 : value.value;
      return { type: undefined, value: v(String(moved)) };
    }
    case "text":
      return { type: "str", value: v(escapeText(codeString(value.text))) };
    case "boolean":
      return { type: "b", value: v(value.value ? "1" : "0") };
    case "error":
      return { type: "e", value: v(fileError(value.name)) };
    default:
      return unknownKind(value);
  }
}

/** The format's own list of errors ends before the two that came with spilling. */
function fileError(name: string): string {
  return name === "#SPILL!" || name === "#CALC!" ? "#VALUE!" : name;
}

/** Characters that XML has no place for cannot stand in a formula either. */
function codeFormula(text: string): string {
  // eslint-disable-next-line no-control-regex -- these are the characters that XML 1.0 has no place for
  return text.replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/g, "");
}

function unknownKind(found: never): never {
  throw new TypeError(`No cell is written from ${JSON.stringify(found)}.`);
}
