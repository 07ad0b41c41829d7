import type { ISheetDataValidationRule, IWorkbookData } from "@univerjs/core";
import type { IConditionFormattingRule } from "@univerjs/sheets-conditional-formatting";

import { type GridState, stateOf } from "../../../src/grid/file/grid-state";
import { readWorkbook, toGridWorkbook } from "../../../src/grid/file/open";
import { saveWorkbook } from "../../../src/grid/file/save";
import { WorkbookPackage } from "../../../src/xlsx/package/workbook-package";
import { bookFile, type BookParts, testOptions } from "./parts";

const block = (sqref: string, rule: string): string =>
  `<conditionalFormatting sqref="${sqref}">${rule}</conditionalFormatting>`;
const rule = (priority: number, operator: string, value: string): string =>
  `<cfRule type="cellIs" dxfId="0" priority="${priority}" operator="${operator}"><formula>${value}</formula></cfRule>`;

const book: BookParts = {
  styles: '<cellXfs><xf/></cellXfs><dxfs count="1"><dxf><font><b/><color rgb="FFFF0000"/></font></dxf></dxfs>',
  sheets: [
    {
      name: "Log",
      rows: '<row r="1"><c r="A1"><v>1</v></c></row>',
      after:
        block("A2:A9", rule(2, "equal", "2") + rule(1, "lessThan", "1")) +
        block("B2:B1048576", '<cfRule type="aboveAverage" dxfId="0" priority="3" stdDev="1"/>') +
        '<dataValidations count="2"><dataValidation type="list" showErrorMessage="1" imeMode="on" sqref="A2:A1048576"><formula1>"c,d"</formula1></dataValidation>' +
        '<dataValidation type="whole" showErrorMessage="1" sqref="B2"><formula1>1</formula1><formula2>9</formula2></dataValidation></dataValidations>',
    },
  ],
};

/** The file saved after its grid workbook was changed. */
function saved(change: (state: Mutable) => void): { xml: string; styles: string; losses: readonly string[] } {
  const source = WorkbookPackage.open(bookFile(book));
  const grid: IWorkbookData = toGridWorkbook(readWorkbook(source, testOptions), "Book");
  const state = structuredClone(stateOf(grid)) as unknown as Mutable;
  change(state);
  const { package: result, losses } = saveWorkbook(source, testOptions, state as unknown as GridState);
  return { xml: result.text("xl/worksheets/sheet1.xml"), styles: result.text("xl/styles.xml"), losses };
}

interface Mutable {
  sheets: { rules: IConditionFormattingRule[]; validations: ISheetDataValidationRule[] }[];
}

function first<T>(list: readonly T[] | undefined, index = 0): T {
  const found = list?.[index];
  if (found === undefined) throw new Error("There is none.");
  return found;
}

describe("rules that colour cells", () => {
  test("stay letter for letter where nothing changes them", () => {
    const { xml } = saved((state) => void first(state.sheets).validations.pop());
    expect(xml).toContain(block("A2:A9", rule(2, "equal", "2") + rule(1, "lessThan", "1")));
  });

  test("one that is moved is written anew with its look; the others and those that the grid does not draw stay", () => {
    const { xml, styles } = saved((state) => {
      const [one, two] = first(state.sheets).rules;
      if (one === undefined || two === undefined) throw new Error("Rules are missing.");
      two.ranges = [{ startRow: 2, endRow: 9, startColumn: 0, endColumn: 0 }];
      if ("value" in two.rule) two.rule.value = "=A3=2";
    });
    expect(xml).toContain(
      block("A2:A9", rule(1, "lessThan", "1")) +
        block("B2:B1048576", '<cfRule type="aboveAverage" dxfId="0" priority="3" stdDev="1"/>') +
        '<conditionalFormatting sqref="A3:A10"><cfRule type="expression" dxfId="0" priority="2"><formula>A3=2</formula></cfRule></conditionalFormatting>',
    );
    expect(styles).toContain('<dxfs count="1">');
  });

  test("a new one brings its look along", () => {
    const { xml, styles } = saved((state) => {
      first(state.sheets).rules.unshift({
        cfId: "new",
        stopIfTrue: true,
        ranges: [{ startRow: 0, endRow: 4, startColumn: 2, endColumn: 2 }],
        rule: {
          type: "highlightCell",
          subType: "text",
          operator: "containsText",
          value: 'a "b"',
          style: { bg: { rgb: "#00ff00" } },
        } as IConditionFormattingRule["rule"],
      });
    });
    expect(xml).toContain(
      '<conditionalFormatting sqref="C1:C5"><cfRule type="expression" dxfId="1" priority="1" stopIfTrue="1"><formula>NOT(ISERROR(SEARCH("a ""b""",C1)))</formula></cfRule></conditionalFormatting>',
    );
    expect(styles).toContain('<dxf><fill><patternFill><bgColor rgb="FF00FF00"/></patternFill></fill></dxf></dxfs>');
    expect(xml).toContain(rule(3, "equal", "2") + rule(2, "lessThan", "1"));
  });

  test("all may go", () => {
    const { xml } = saved((state) => void (first(state.sheets).rules.length = 0));
    expect(xml).not.toContain("cellIs");
    expect(xml).toContain("aboveAverage");
  });
});

describe("checks of what is typed", () => {
  test("one that is changed is written anew, to the sheet's end where it reached it; the other stays", () => {
    const { xml } = saved((state) => {
      first(first(state.sheets).validations).formula1 = "c,d,b";
    });
    expect(xml).toContain(
      '<dataValidations count="2"><dataValidation type="whole" showErrorMessage="1" sqref="B2"><formula1>1</formula1><formula2>9</formula2></dataValidation>' +
        '<dataValidation type="list" showErrorMessage="1" sqref="A2:A1048576"><formula1>"c,d,b"</formula1></dataValidation></dataValidations>',
    );
  });

  test("all may go, and the list with them", () => {
    const { xml } = saved((state) => void (first(state.sheets).validations.length = 0));
    expect(xml).not.toContain("dataValidation");
  });

  test("a kind that no file holds is left out, and that is said", () => {
    const { losses } = saved((state) => {
      first(first(state.sheets).validations, 1).type = "listMultiple" as ISheetDataValidationRule["type"];
    });
    expect(losses).toEqual(["Log: a check of what is typed is of a kind that no .xlsx file holds, and is left out."]);
  });
});
