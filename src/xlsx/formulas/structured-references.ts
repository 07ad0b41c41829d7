/**
 * References to a table's columns as the grid's engine reads them. It knows `Table[[#This Row],[Column]]`, and neither
 * `Table[@Column]` nor `[@Column]`; and it always wants the table's name.
 */

/**
 * @param columns the brackets, such as `[@Marks]` or `[[#This Row],[Marks]]`
 * @param named whether a table's name stands before them
 * @param ownTable the table in which the formula stands, if it stands in one
 */
export function gridColumns(columns: string, named: boolean, ownTable: string | undefined): string {
  const written = thisRow(columns);
  return named || ownTable === undefined ? written : `${ownTable}${written}`;
}

function thisRow(columns: string): string {
  if (!columns.startsWith("[@")) return columns;
  const rest = columns.slice(2, -1);
  if (rest === "") return "[#This Row]";
  return `[[#This Row],${rest.startsWith("[") ? rest : `[${rest}]`}]`;
}
