/** Formulas follow a table's column when its heading gets another word. */
import { formulaTokens, joinTokens } from "./tokens";

/** A heading of a table as the file knew it and as it is now. */
export interface RenamedColumn {
  readonly table: string;
  readonly from: string;
  readonly to: string;
}

/** @param ownTable the table in which the formula stands: its columns may be named without it */
export function withRenamedColumns(formula: string, renamed: readonly RenamedColumn[], ownTable?: string): string {
  if (renamed.length === 0 || !formula.includes("[")) return formula;
  const tokens = formulaTokens(formula);
  return joinTokens(
    tokens.map((token, index) => {
      if (token.kind !== "columns") return token;
      const before = tokens[index - 1];
      const table = before?.kind === "word" ? before.text : ownTable;
      const ofTable = renamed.filter((column) => column.table.toLowerCase() === table?.toLowerCase());
      return { kind: "columns", text: ofTable.reduce((text, column) => withRenamed(text, column), token.text) };
    }),
  );
}

function withRenamed(columns: string, { from, to }: RenamedColumn): string {
  return ["[", "[@"].reduce(
    (text, opening) => text.replaceAll(`${opening}${escaped(from)}]`, `${opening}${escaped(to)}]`),
    columns,
  );
}

/** Inside the brackets these characters want a `'` before them. */
function escaped(heading: string): string {
  return heading.replace(/['#[\]@]/g, "'$&");
}
