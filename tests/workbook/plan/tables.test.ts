import { validatedBlock } from "../../../src/workbook/plan/tables";
import type { TablePlan } from "../../../src/workbook/plan/schema";

function log(rows: number): TablePlan {
  return {
    name: "Log",
    at: { row: 4, column: 1 },
    columns: [{ heading: "Day", format: "date" }],
    rows: Array.from({ length: rows }, () => [{ kind: "empty" }] as const),
  };
}

test.each([
  { rows: 1, because: "an empty log has room for a season" },
  { rows: 1999, because: "a log that has nearly filled it" },
  { rows: 2111, because: "a season of six athletes is longer" },
  { rows: 9000, because: "several groups in one log" },
])("the columns' validation goes on below a log of $rows rows: $because", ({ rows }) => {
  const [column] = log(rows).columns;
  if (!column) throw new Error("The table has no column.");
  const block = validatedBlock(log(rows), column);
  expect(block).toMatchObject({ row: 5, column: 1, columns: 1 });
  expect(block.rows).toBeGreaterThanOrEqual(Math.max(2000, rows + 1000));
});
