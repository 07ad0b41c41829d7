/** How a sheet of a file is to lie on paper: its print area and titles, which are names of the workbook, and its page. */
import { columnNumber } from "../../../core/sheet";
import type { ColumnSpan, PrintPlan } from "../../../workbook/plan/schema";
import type { DefinedName, SheetEntry } from "../workbook/read";
import { child, type XmlElement } from "../../xml/tree";

export function readPrint(root: XmlElement, entry: SheetEntry, names: readonly DefinedName[]): PrintPlan {
  const own = (word: string): string =>
    names.find(({ name, sheetIndex }) => sheetIndex === entry.index && name.toLowerCase() === `_xlnm.${word}`)
      ?.formula ?? "";
  const columns = columnSpans(own("print_area"));
  const titles = /\$1:\$(\d+)\s*$/.exec(own("print_titles"));
  return {
    orientation: child(root, "pageSetup")?.attributes["orientation"] === "portrait" ? "portrait" : "landscape",
    pagesWide: 1,
    repeatRows: titles === null ? 0 : Number(titles[1]),
    ...(columns.length === 0 ? {} : { columns }),
  };
}

/** The columns of an area such as `Board!$A:$M,Board!$O$1:$AC$40`. */
function columnSpans(area: string): readonly ColumnSpan[] {
  return [...area.matchAll(/!\$?([A-Z]{1,3})(?:\$?\d+)?:\$?([A-Z]{1,3})(?:\$?\d+)?(?=,|$)/g)].map(
    ([, first, last]) => ({
      first: columnNumber(first ?? ""),
      last: columnNumber(last ?? ""),
    }),
  );
}
