/**
 * Lets formulas name the season's tables and columns as a spreadsheet program does. The engine's own reading of
 * `Table[Column]` has no room for an underscore in a table's name, and every table of a season carries one
 * (`Practice_2027`); nor for parentheses in a column's (`Airtime (s)`).
 */
import { type Injector, IUniverInstanceService, UniverInstanceType, type Workbook } from "@univerjs/core";
import { type ISuperTable, ISuperTableService, LexerTreeBuilder, ReferenceNodeFactory } from "@univerjs/engine-formula";
import { hasMethods, type Mend } from "./mend";

/** The two steps of the engine's factory for references that are done anew here. */
interface TableReferences {
  /** May this piece of a formula be a table's name? */
  _checkTokenIsTableReference(token: string): boolean;
  _getTableReferenceNode(...asked: unknown[]): TableReferenceNode | undefined;
}

/** A reference to a table inside a formula that has been read. */
interface TableReferenceNode {
  /** The table's cells as they were when the formula was read. */
  _tableReferenceObject: unknown;
  execute(): void;
}

/** Has every table and column of the workbook recognised by its name. */
function recogniseEveryTable(injector: Injector): void {
  const tables = injector.get(ISuperTableService);
  recogniseTableNames(injector, tables);
  followTableSizes(injector);
  recogniseColumnNames(injector, tables);
}

function tableReferences(injector: Injector): TableReferences {
  return injector.get(ReferenceNodeFactory) as unknown as TableReferences;
}

function recogniseTableNames(injector: Injector, tables: ISuperTableService): void {
  const instances = injector.get(IUniverInstanceService);
  const factory = tableReferences(injector);
  const original = factory._checkTokenIsTableReference.bind(factory);
  factory._checkTokenIsTableReference = (token) => {
    if (original(token)) return true;
    const bracket = token.indexOf("[");
    const workbook = instances.getCurrentUnitOfType(UniverInstanceType.UNIVER_SHEET);
    if (bracket < 1 || !workbook) return false;
    return tables.getTableMap(workbook.getUnitId())?.has(token.slice(0, bracket)) === true;
  };
}

/**
 * The engine keeps each formula as it has once read it, with the table's cells of that time: a row that a table has
 * gained since would count in the next calculation, and no longer in the one after. So the cells are looked up each time.
 */
function followTableSizes(injector: Injector): void {
  const factory = tableReferences(injector);
  const original = factory._getTableReferenceNode.bind(factory);
  factory._getTableReferenceNode = (...asked) => {
    const node = original(...asked);
    if (node === undefined) return undefined;
    const execute = node.execute.bind(node);
    node.execute = () => {
      node._tableReferenceObject = original(...asked)?._tableReferenceObject ?? node._tableReferenceObject;
      execute();
    };
    return node;
  };
}

/**
 * The engine would take parentheses inside the brackets for those of a call. It gets other characters to read instead,
 * one for one, in the formula and in the list of the tables' columns alike.
 */
function recogniseColumnNames(injector: Injector, tables: ISuperTableService): void {
  const lexer = injector.get(LexerTreeBuilder);
  const readFormula = lexer.treeBuilder.bind(lexer);
  lexer.treeBuilder = (formula, ...rest) => readFormula(withDisguisedColumns(formula), ...rest);

  const registerTable = tables.registerTable.bind(tables);
  tables.registerTable = (unitId, tableName, table) => registerTable(unitId, tableName, disguisedTable(table));
  const instances = injector.get(IUniverInstanceService);
  for (const workbook of instances.getAllUnitsForType<Workbook>(UniverInstanceType.UNIVER_SHEET)) {
    const unitId = workbook.getUnitId();
    // A copy of the list: putting a table back changes the one that is walked through.
    const known = [...(tables.getTableMap(unitId) ?? [])];
    for (const [tableName, table] of known) tables.registerTable(unitId, tableName, table);
  }
}

function disguisedTable(table: ISuperTable): ISuperTable {
  return {
    ...table,
    titleMap: new Map([...table.titleMap].map(([heading, index]) => [disguised(heading), index])),
  };
}

/** From the range of characters that no text uses. */
const OPENING = "\uE000";
const CLOSING = "\uE001";

function disguised(heading: string): string {
  return heading.replaceAll("(", OPENING).replaceAll(")", CLOSING);
}

/** The formula with the parentheses inside square brackets replaced; what stands between quotes is left alone. */
export function withDisguisedColumns(formula: string): string {
  if (!formula.includes("[")) return formula;
  let result = "";
  let depth = 0;
  let quote = "";
  for (const character of formula) {
    if (quote !== "") {
      if (character === quote) quote = "";
    } else if (depth === 0 && (character === '"' || character === "'")) {
      quote = character;
    } else if (character === "[") {
      depth += 1;
    } else if (character === "]") {
      depth = Math.max(0, depth - 1);
    }
    result += quote === "" && depth > 0 ? disguised(character) : character;
  }
  return result;
}

/** For the list of mends. */
export const tableNames: Mend<"injector"> = {
  name: "table-names",
  why: "Tables with an underscore in their name, and columns with parentheses in theirs, would be #NAME? in formulas.",
  until: "The grid reads such names by itself, and looks a table's cells up at each calculation.",
  isNeeded: (injector) =>
    hasMethods(injector.get(ReferenceNodeFactory), "_checkTokenIsTableReference", "_getTableReferenceNode"),
  apply: ({ injector }) => recogniseEveryTable(injector),
};
