/** Checks of what is typed that were changed in the grid, back in the file. */
import {
  DataValidationErrorStyle,
  DataValidationOperator,
  DataValidationType,
  type ISheetDataValidationRule,
} from "@univerjs/core";

import { codeString, element, escapeText } from "../../../xlsx/xml/write";
import { isFormula } from "../../../xlsx/formulas/check";
import { writeFormula } from "../../../xlsx/formulas/writing";
import type { GridSheetState } from "../grid-state";
import { fingerprint, widened } from "../range-widening";
import { rangeNames } from "../../../xlsx/ranges";
import type { ReadSheet } from "../open";
import { insertInOrder } from "../../../xlsx/xml/insert-in-order";
import type { XmlEdits } from "../../../xlsx/xml/edits";
import { child, prefixOf, type XmlElement } from "../../../xlsx/xml/tree";

/** @returns whether every check could be written: a few kinds only the grid has */
export function writeValidations(edits: XmlEdits, file: ReadSheet, grid: GridSheetState): boolean {
  const before = file.validations.flatMap(({ rule }) => rule ?? []);
  if (byId(before) === byId(grid.validations)) return true;
  const prefix = prefixOf(file.root);
  const list = child(file.root, "dataValidations");
  const now = new Map(grid.validations.map((rule) => [rule.uid, rule]));
  const removed: XmlElement[] = [];
  for (const { element: xml, rule } of file.validations) {
    if (rule === undefined) continue;
    const is = now.get(rule.uid);
    if (is !== undefined && fingerprint(is) === fingerprint(rule)) {
      now.delete(rule.uid);
      continue;
    }
    removed.push(xml);
  }
  const added = [...now.values()].map((rule) => ruleXml(rule, grid, prefix));
  const written = added.flatMap((xml) => xml ?? []);
  const count = (list?.children.length ?? 0) - removed.length + written.length;
  if (list === undefined) {
    if (written.length > 0) {
      insertInOrder(edits, file.root, "dataValidations", element(`${prefix}dataValidations`, { count }, ...written));
    }
  } else if (count === 0) {
    edits.removeElement(list);
  } else {
    for (const xml of removed) edits.removeElement(xml);
    edits.setAttribute(list, "count", count);
    edits.append(list, written.join(""));
  }
  return written.length === added.length;
}

/** The order of checks says nothing. */
function byId(rules: readonly ISheetDataValidationRule[]): string {
  return rules
    .map((rule) => `${rule.uid} ${fingerprint(rule)}`)
    .sort()
    .join("\n");
}

const WORDS: Readonly<Record<string, string | undefined>> = {
  [DataValidationType.WHOLE]: "whole",
  [DataValidationType.DECIMAL]: "decimal",
  [DataValidationType.LIST]: "list",
  [DataValidationType.DATE]: "date",
  [DataValidationType.TIME]: "time",
  [DataValidationType.TEXT_LENGTH]: "textLength",
  [DataValidationType.CUSTOM]: "custom",
  [DataValidationType.CHECKBOX]: "list",
};

const ERROR_WORDS: Readonly<Record<DataValidationErrorStyle, string | undefined>> = {
  [DataValidationErrorStyle.STOP]: undefined,
  [DataValidationErrorStyle.WARNING]: "warning",
  [DataValidationErrorStyle.INFO]: "information",
};

function ruleXml(rule: ISheetDataValidationRule, grid: GridSheetState, prefix: string): string | undefined {
  const isAny = rule.type === DataValidationType.ANY || rule.type === DataValidationType.NONE;
  const type = WORDS[rule.type];
  if (type === undefined && !isAny) return undefined;
  const limits = isAny ? [] : limitsOf(rule);
  if (limits === undefined) return undefined;
  const text = (value: string | undefined): string | undefined => (value === undefined ? undefined : codeString(value));
  return element(
    `${prefix}dataValidation`,
    {
      type,
      errorStyle: isAny ? undefined : ERROR_WORDS[rule.errorStyle ?? DataValidationErrorStyle.STOP],
      operator: operatorWord(rule),
      allowBlank: rule.allowBlank === false ? undefined : 1,
      showDropDown: rule.type === DataValidationType.LIST && rule.showDropDown === false ? 1 : undefined,
      showInputMessage: rule.prompt === undefined ? undefined : 1,
      showErrorMessage: isAny ? undefined : 1,
      errorTitle: text(rule.errorTitle),
      error: text(rule.error),
      promptTitle: text(rule.promptTitle),
      prompt: text(rule.prompt),
      sqref: rangeNames(widened(rule.ranges, grid)),
    },
    ...limits.map((limit, index) => element(`${prefix}formula${index + 1}`, {}, escapeText(limit))),
  );
}

/** "Between" is what the format takes where no operator is named. */
function operatorWord({ type, operator }: ISheetDataValidationRule): string | undefined {
  if (type === DataValidationType.LIST || type === DataValidationType.CUSTOM) return undefined;
  return operator === undefined || operator === DataValidationOperator.BETWEEN ? undefined : operator;
}

/** The one or two limits, or undefined where one of them is nothing that the file could hold. */
function limitsOf(rule: ISheetDataValidationRule): string[] | undefined {
  if (rule.type === DataValidationType.CHECKBOX) return [`"${rule.formula1 || "1"},${rule.formula2 || "0"}"`];
  const given = [rule.formula1, rule.formula2].filter((limit): limit is string => limit !== undefined && limit !== "");
  if (given.length === 0) return undefined;
  const limits = given.map((limit) => limitText(limit, rule.type));
  return limits.includes(undefined) ? undefined : limits.flatMap((limit) => limit ?? []);
}

function limitText(limit: string, type: string): string | undefined {
  if (limit.startsWith("=")) return isFormula(limit) ? writeFormula(limit) : undefined;
  if (type === DataValidationType.LIST) return `"${limit.replaceAll('"', '""')}"`;
  if (Number.isFinite(Number(limit))) return limit;
  const day = /^(\d{4})[-/](\d{1,2})[-/](\d{1,2})$/.exec(limit);
  if (day === null) return undefined;
  return String(Date.UTC(Number(day[1]), Number(day[2]) - 1, Number(day[3])) / 86_400_000 + 25_569);
}
