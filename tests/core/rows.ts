import { readMark } from "../../src/core/marks";
import { RowOfMarks } from "../../src/core/row-of-marks";

/** Reads mark cells one by one as rows of a log; `use` is called after each. */
export function readRows<Place>(
  rows: readonly (readonly [Place, string])[],
  use: (place: Place, row: RowOfMarks) => void,
): void {
  const row = new RowOfMarks();
  rows.forEach(([place, cell], index) => {
    row.begin();
    readMark(cell, "marks", index + 1, 1, row.log);
    use(place, row);
  });
}
