/**
 * What the grid's menus would offer and the page cannot keep. Protection of cells and sheets asks for users and their rights,
 * which a page without a server has none of, and none of it would be in the saved file. "Text to number" would take
 * the marks of a set, such as 0110, for a number and so lose the first attempt.
 */
import {
  AddRangeProtectionFromSheetBarCommand,
  AddRangeProtectionFromToolbarCommand,
  ChangeSheetProtectionFromSheetBarCommand,
  DeleteWorksheetProtectionFormSheetBarCommand,
  ViewSheetPermissionFromSheetBarCommand,
} from "@univerjs/sheets-ui";
import type { MenuConfig } from "@univerjs/ui";

const hidden = [
  AddRangeProtectionFromToolbarCommand.id,
  // Of a cell's, a row's and a column's menu, with all below it.
  "sheet.contextMenu.permission",
  AddRangeProtectionFromSheetBarCommand.id,
  DeleteWorksheetProtectionFormSheetBarCommand.id,
  ChangeSheetProtectionFromSheetBarCommand.id,
  ViewSheetPermissionFromSheetBarCommand.id,
  "sheet.toolbar.text-to-number",
  "sheet.contextMenu.text-to-number",
];

/** For the grid's own configuration of its menus. */
export const hiddenMenus: MenuConfig = Object.fromEntries(hidden.map((id) => [id, { hidden: true }]));
