/**
 * A sheet's copy has tables of its own. The grid gives them the names of those they are copies of: what reads a log by its
 * name then reads the copy, of which a part is still to come, and nothing at all once the copy is taken away. Here a
 * table of a copy gets a name of its own, and the copy's formulas that name the sheet's own tables name the copied ones.
 */
import { type ICellData, ICommandService, type Injector, IUniverInstanceService, type Nullable } from "@univerjs/core";
import {
  CopySheetCommand,
  getSheetCommandTarget,
  type IInsertSheetMutationParams,
  InsertSheetMutation,
} from "@univerjs/sheets";
import { AddSheetTableMutation, type IAddSheetTableParams, TableManager } from "@univerjs/sheets-table";
import { comparable } from "../../core/text";
import { formulaTokens, joinTokens } from "../../xlsx/formulas/tokens";
import { hasMethods, type Mend } from "./mend";

/** The new names of the tables of a sheet that is copied, by their old ones as they are compared. */
type NewNames = ReadonlyMap<string, string>;

interface Copying {
  readonly names: NewNames;
  /** The copy, once there is one. */
  sheetId?: string;
}

export function nameCopiedTables(injector: Injector): void {
  const commands = injector.get(ICommandService);
  const instances = injector.get(IUniverInstanceService);
  const tables = injector.get(TableManager);
  let copying: Copying | undefined;
  // What a copy is made of is changed before it is made, so that Redo makes it the same.
  commands.beforeCommandExecuted(({ id, params }) => {
    if (id === CopySheetCommand.id) {
      const target = getSheetCommandTarget(instances, params as { unitId?: string; subUnitId?: string });
      copying = target ? { names: newNames(tables, target.unitId, target.subUnitId) } : undefined;
    } else if (!copying) {
      return;
    } else if (id === InsertSheetMutation.id) {
      const { sheet } = params as IInsertSheetMutationParams;
      copying.sheetId = sheet.id;
      renameInCells(sheet.cellData, copying.names);
    } else if (id === AddSheetTableMutation.id) {
      const table = params as IAddSheetTableParams;
      if (table.subUnitId === copying.sheetId) table.name = copying.names.get(comparable(table.name)) ?? table.name;
    }
  });
  commands.onCommandExecuted(({ id }) => {
    if (id === CopySheetCommand.id) copying = undefined;
  });
}

function newNames(tables: TableManager, workbookId: string, sheetId: string): NewNames {
  const taken = new Set(tables.getTableList(workbookId).map(({ name }) => comparable(name)));
  const names = tables.getTablesBySubunitId(workbookId, sheetId).map((table) => table.getDisplayName());
  return new Map(
    names.map((name) => {
      let number = 2;
      while (taken.has(comparable(`${name}_${number}`))) number += 1;
      return [comparable(name), `${name}_${number}`];
    }),
  );
}

type Cells = Readonly<Record<number, Record<number, Nullable<ICellData>> | undefined>>;

/** The copy's cells may be shared with the sheet that it was made of: those that change are others. */
function renameInCells(cells: Nullable<Cells>, names: NewNames): void {
  for (const row of Object.values(cells ?? {})) {
    for (const [column, cell] of Object.entries(row ?? {})) {
      const formula = cell?.f;
      if (!row || !cell || !formula?.includes("[")) continue;
      const renamed = withNames(formula, names);
      if (renamed !== formula) row[Number(column)] = { ...cell, f: renamed };
    }
  }
}

function withNames(formula: string, names: NewNames): string {
  const tokens = formulaTokens(formula);
  return joinTokens(
    tokens.map((token, index) => {
      const isTable = token.kind === "word" && tokens[index + 1]?.kind === "columns";
      return isTable ? { ...token, text: names.get(comparable(token.text)) ?? token.text } : token;
    }),
  );
}

/** For the list of mends. */
export const copiedTables: Mend<"injector"> = {
  name: "copied-tables",
  why: "After a sheet with a log was copied, the board would read the copy instead, and nothing once that is gone.",
  until: "The grid gives the tables of a copied sheet names of their own.",
  isNeeded: (injector) =>
    hasMethods(injector.get(ICommandService), "beforeCommandExecuted", "onCommandExecuted") &&
    hasMethods(injector.get(TableManager), "getTableList", "getTablesBySubunitId"),
  apply: ({ injector }) => nameCopiedTables(injector),
};
