/** Elements put into a sheet's part where the format wants them (ECMA-376 part 1, 18.3.1.99). */
import type { XmlEdits } from "./edits";
import { children, type XmlElement } from "./tree";

const ORDER = (
  "sheetPr dimension sheetViews sheetFormatPr cols sheetData sheetCalcPr sheetProtection protectedRanges scenarios " +
  "autoFilter sortState dataConsolidate customSheetViews mergeCells phoneticPr conditionalFormatting dataValidations " +
  "hyperlinks printOptions pageMargins pageSetup headerFooter rowBreaks colBreaks customProperties cellWatches " +
  "ignoredErrors smartTags drawing legacyDrawing legacyDrawingHF drawingHF picture oleObjects controls webPublishItems " +
  "tableParts extLst"
).split(" ");

/** After those of its kind, else before the first that must come later. */
export function insertInOrder(edits: XmlEdits, worksheet: XmlElement, name: string, xml: string): void {
  const alike = children(worksheet, name).at(-1);
  if (alike) {
    edits.insertAfter(alike, xml);
    return;
  }
  const place = ORDER.indexOf(name);
  // What the format does not list, such as a choice between two editions, stays where it is.
  const later = worksheet.children.find((element) => ORDER.indexOf(element.name) > place);
  if (later) edits.insertBefore(later, xml);
  else edits.append(worksheet, xml);
}
