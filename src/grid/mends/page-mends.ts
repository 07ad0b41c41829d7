/** The mends of the grid as it is drawn on the page, in the order in which they are applied. The tests walk these lists. */
import { argumentHints } from "./argument-hints";
import { checkedAfterSorting } from "./checks-after-sorting";
import { copiedTables } from "./copied-tables";
import { deletedSheets } from "./deleted-sheets";
import { editingMends } from "./engine-mends";
import { fingerScrolls } from "./finger-scrolls";
import { growingTables } from "./growing-tables";
import { keptTyping } from "./kept-typing";
import { lastingRules } from "./lasting-rules";
import { checksOfOpenSheets, forgottenChecks } from "./late-checks";
import type { Mend } from "./mend";
import { rowMenus } from "./row-menus";
import { sortedRows } from "./sort-rows";
import { spareRows } from "./spare-rows";
import { toldJumps } from "./told-jumps";
import { vanishedSpills } from "./vanished-spills";
import { wholeTables } from "./whole-tables";

/** Before the grid is drawn. */
export const mendsBeforeDrawing: readonly Mend[] = [...editingMends, checksOfOpenSheets];

/** Once it is drawn: the grid's own parts are all there by then. */
export const mendsOnceDrawn: readonly Mend[] = [
  forgottenChecks,
  keptTyping,
  growingTables,
  spareRows,
  sortedRows,
  checkedAfterSorting,
  lastingRules,
  wholeTables,
  copiedTables,
  deletedSheets,
  rowMenus,
  toldJumps,
  vanishedSpills,
  fingerScrolls,
  argumentHints,
];
