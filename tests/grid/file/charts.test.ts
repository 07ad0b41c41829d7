import { readWorkbook, toGridSheets } from "../../../src/grid/file/open";
import { findUnshown } from "../../../src/grid/file/unshown";
import { WorkbookPackage } from "../../../src/xlsx/package/workbook-package";
import { sampleSeason } from "../../../src/workbook/sample/sample-season";
import { writeWorkbookFile } from "../../../src/xlsx/write-plan";

const plan = sampleSeason();
const source = WorkbookPackage.open(writeWorkbookFile(plan));
const options = { ownFunctions: [] };

test("the season's own charts come back from the file as they were planned", () => {
  const read = toGridSheets(readWorkbook(source, options));
  const planned = plan.sheets.map(({ name, charts }) => ({ name, charts }));
  expect(planned.flatMap(({ charts }) => charts).length).toBeGreaterThan(0);
  expect(read.sheets.map(({ sheet, charts }) => ({ name: sheet.name, charts }))).toEqual(planned);
});

test("they hold their sheets' rows and columns in place, and are not named as not shown", () => {
  const { things, fixed } = findUnshown(source, readWorkbook(source, options));
  expect(things.map(({ what }) => what)).not.toContain("charts");
  for (const { name, charts } of plan.sheets) if (charts.length > 0) expect(fixed.get(name)).toBe("charts");
});

test("a chart of another kind is named", () => {
  const other = source.copy();
  const part = other.names().find((name) => name.startsWith("xl/charts/chart")) ?? "";
  other.set(part, other.text(part).replaceAll("c:scatterChart", "c:barChart"));
  const { things } = findUnshown(other, readWorkbook(other, options));
  expect(things).toContainEqual({ what: "charts", sheets: [expect.stringContaining("")], cells: [] });
});
