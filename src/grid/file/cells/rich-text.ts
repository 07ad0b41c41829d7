/** A cell whose letters are drawn in more than one way, as the grid's own small documents. */
import type { IDocumentData, ITextRun } from "@univerjs/core";

import type { Palette } from "../../../xlsx/parts/styles/colours";
import type { CellText } from "../../../xlsx/parts/strings/read";
import { readFont } from "../styles/read";

export function richDocument({ runs = [] }: CellText, palette: Palette): IDocumentData {
  let stream = "";
  const textRuns: ITextRun[] = [];
  for (const { text, font } of runs) {
    const st = stream.length;
    // In a document a paragraph ends with this character, a line feed ends the whole.
    stream += text.replace(/\r?\n/g, "\r");
    if (font !== undefined && stream.length > st) {
      textRuns.push({ st, ed: stream.length, ts: readFont(font, palette) });
    }
  }
  stream += "\r";
  const paragraphs = [...stream.matchAll(/\r/g)].map(({ index }) => ({ startIndex: index }));
  return {
    id: "d",
    documentStyle: {},
    body: { dataStream: `${stream}\n`, textRuns, paragraphs, sectionBreaks: [{ startIndex: stream.length }] },
  };
}

/** The letters of such a document alone. */
export function documentText(document: IDocumentData): string {
  return (document.body?.dataStream ?? "").replace(/\r\n$/, "").replaceAll("\r", "\n");
}
