import { withDisguisedColumns } from "../../../src/grid/mends/table-names";

test.each([
  ["=SUM(Log[Length (s)])", "=SUM(Log[Length \uE000s\uE001])", "a column's name"],
  ["=Log[[#This Row],[Length (s)]]*(2+1)", "=Log[[#This Row],[Length \uE000s\uE001]]*(2+1)", "inside two brackets"],
  ['=IF(A1="[(x)]",1)', '=IF(A1="[(x)]",1)', "text between quotes"],
  ["='A (b)'!A1+Log[c (d)]", "='A (b)'!A1+Log[c \uE000d\uE001]", "a sheet's name between quotes"],
  ["=SUM((A1),(B1))", "=SUM((A1),(B1))", "no bracket at all"],
])("%s is read as %s: %s", (formula, read) => {
  expect(withDisguisedColumns(formula)).toBe(read);
  expect(read).toHaveLength(formula.length);
});
