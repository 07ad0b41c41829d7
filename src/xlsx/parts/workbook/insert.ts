import type { XmlEdits } from "../../xml/edits";
import type { XmlElement } from "../../xml/tree";

/** Children of `workbook` in the order that the format wants. */
const ORDER = (
  "fileVersion fileSharing workbookPr workbookProtection bookViews sheets functionGroups externalReferences definedNames " +
  "calcPr oleSize customWorkbookViews pivotCaches smartTagPr smartTagTypes webPublishing fileRecoveryPr " +
  "webPublishObjects extLst"
).split(" ");

/** Puts a child of `workbook` where the format wants it. */
export function insertInWorkbook(edits: XmlEdits, root: XmlElement, name: string, xml: string): void {
  const later = root.children.find((one) => ORDER.indexOf(one.name) > ORDER.indexOf(name));
  if (later) edits.insertBefore(later, xml);
  else edits.append(root, xml);
}
