/** Tells when something of the workbook was changed by hand: what is worked out or merely looked at is no change. */
import "@univerjs/sheets/facade";
import { CommandType } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";

const OF_THE_WORKBOOK = /^(sheet|sheets|data-validation)\.mutation\.|^formula\.mutation\.(set|remove)-defined-name$/;

/** Of the grid itself: heights that follow the text, what is filtered, looks of tables. */
const BY_THE_GRID =
  /^(sheet\.mutation\.(set-worksheet-row-auto-height|data-validation-formula-mark-dirty|mark-dirty-filter-change|empty|(un)?register-worksheet-range-theme-style|(set|add|remove|delete)-(worksheet-)?range-theme(-style)?|set-worksheet-(column|row)-count))/;

export function onChange(api: FUniver, changed: () => void): void {
  api.addEvent(api.Event.CommandExecuted, ({ id, type, options }) => {
    if (type !== CommandType.MUTATION || !OF_THE_WORKBOOK.test(id) || BY_THE_GRID.test(id)) return;
    // What formulas answer comes the same way as what is typed.
    if (options?.fromFormula === true) return;
    changed();
  });
}
