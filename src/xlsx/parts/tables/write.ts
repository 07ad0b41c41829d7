/** One table of the plan as the table part of a workbook file. */
import { blockName } from "../../../workbook/plan/address";
import { callsTwirl, printFormula } from "../../../workbook/plan/formula";
import { TABLE_STYLE_NAME } from "../../../workbook/plan/looks";
import type { TableColumn, TablePlan } from "../../../workbook/plan/schema";
import { tableBlock } from "../../../workbook/plan/tables";
import { MAIN_NAMESPACE } from "../../package/namespaces";
import { codeString, element, escapeText, xmlPart } from "../../xml/write";

/** @param id unique among the tables of the workbook, from 1 */
export function tablePart(table: TablePlan, id: number): string {
  const ref = blockName(tableBlock(table));
  return xmlPart(
    element(
      "table",
      { xmlns: MAIN_NAMESPACE, id, name: table.name, displayName: table.name, ref, totalsRowShown: 0 },
      element("autoFilter", { ref }),
      element(
        "tableColumns",
        { count: table.columns.length },
        ...table.columns.map((column, index) => columnXml(column, index + 1)),
      ),
      element("tableStyleInfo", {
        name: TABLE_STYLE_NAME,
        showFirstColumn: 0,
        showLastColumn: 0,
        showRowStripes: 1,
        showColumnStripes: 0,
      }),
    ),
  );
}

function columnXml({ heading, formula }: TableColumn, id: number): string {
  const attributes = { id, name: codeString(heading) };
  if (formula === undefined) return element("tableColumn", attributes);
  const array = callsTwirl(formula) ? 1 : undefined;
  return element(
    "tableColumn",
    attributes,
    element("calculatedColumnFormula", { array }, escapeText(printFormula(formula, "file"))),
  );
}
