/**
 * Lets formulas name the season's tables. The engine's own pattern for `Table[Column]` has no room for an underscore,
 * and every table of a season carries one (`Practice_2027`); a spreadsheet program allows it.
 */
import { type Injector, IUniverInstanceService, UniverInstanceType } from "@univerjs/core";
import { ISuperTableService, ReferenceNodeFactory } from "@univerjs/engine-formula";

/** The one question of the engine's factory that is answered anew: may this piece of a formula be a table's name? */
interface AsksForTables {
  _checkTokenIsTableReference(token: string): boolean;
}

/** Has every table of the workbook recognised by its name, whatever letters the name holds. */
export function recogniseEveryTable(injector: Injector): void {
  const tables = injector.get(ISuperTableService);
  const instances = injector.get(IUniverInstanceService);
  const factory = injector.get(ReferenceNodeFactory) as unknown as AsksForTables;
  const original = factory._checkTokenIsTableReference.bind(factory);
  factory._checkTokenIsTableReference = (token) => {
    if (original(token)) return true;
    const bracket = token.indexOf("[");
    const workbook = instances.getCurrentUnitOfType(UniverInstanceType.UNIVER_SHEET);
    if (bracket < 1 || !workbook) return false;
    return tables.getTableMap(workbook.getUnitId())?.has(token.slice(0, bracket)) === true;
  };
}
