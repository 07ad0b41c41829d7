/** Formulas follow a table's column when its heading gets another word. */
import { formulaTokens, joinTokens } from "./formula-tokens";
import type { RenamedColumn } from "./tables-writing";

/** @param formula as the grid holds it: each column with its table's name before it */
export function withRenamedColumns(formula: string, renamed: readonly RenamedColumn[]): string {
  if (renamed.length === 0 || !formula.includes("[")) return formula;
  const tokens = formulaTokens(formula);
  return joinTokens(
    tokens.map((token, index) => {
      const table = tokens[index - 1];
      if (token.kind !== "columns" || table?.kind !== "word") return token;
      const ofTable = renamed.filter((column) => column.table.toLowerCase() === table.text.toLowerCase());
      return { kind: "columns", text: ofTable.reduce((text, column) => withRenamed(text, column), token.text) };
    }),
  );
}

function withRenamed(columns: string, { from, to }: RenamedColumn): string {
  return columns.replaceAll(`[${escaped(from)}]`, `[${escaped(to)}]`);
}

/** Inside the brackets these characters want a `'` before them. */
function escaped(heading: string): string {
  return heading.replace(/['#[\]@]/g, "'$&");
}
