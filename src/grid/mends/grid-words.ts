/** The grid's own words, all in English, and those that its catalogue lacks: it would show their keys instead. */
import { type ILocales, mergeLocales } from "@univerjs/core";
import conditionalFormattingWords from "@univerjs/preset-sheets-conditional-formatting/locales/en-US";
import coreWords from "@univerjs/preset-sheets-core/locales/en-US";
import dataValidationWords from "@univerjs/preset-sheets-data-validation/locales/en-US";
import tableWords from "@univerjs/preset-sheets-table/locales/en-US";

/** What the menu on a table's cell offers: see `row-menus.ts`, which draws the grid's menus in and is no room for words. */
const rowMenuWords = { "twirl-ledger": { "insert-row-above": "Insert row above", "delete-row": "Delete row" } };

type Words = ILocales[string];

/** Shown beside the formula bar while a calculation takes longer than a second. */
const progress = {
  analyzing: "Finding what to work out…",
  calculating: "Working out…",
  "array-analysis": "Finding what reads the answers…",
  "array-calculation": "Working out what reads the answers…",
  done: "Worked out",
};

export function gridWords(): Words {
  const words = mergeLocales(coreWords, tableWords, conditionalFormattingWords, dataValidationWords);
  return { ...words, ...rowMenuWords, "sheets-formula": { ...(words["sheets-formula"] as object), progress } } as Words;
}
