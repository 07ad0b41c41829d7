/** What may be typed into cells, from the file into the grid. */
import {
  DataValidationErrorStyle,
  DataValidationOperator,
  DataValidationRenderMode,
  DataValidationType,
  type IRange,
  type ISheetDataValidationRule,
} from "@univerjs/core";

import { type FormulaReading, readFormula } from "../../../xlsx/formulas/reading";
import { parseRanges } from "../../../xlsx/ranges";
import { decodeString } from "../../../xlsx/xml/text";
import { child, children, isTrue, type XmlElement } from "../../../xlsx/xml/tree";

export interface FileValidation {
  readonly element: XmlElement;
  /** Undefined for one that the grid cannot check. */
  readonly rule: ISheetDataValidationRule | undefined;
}

const TYPES: Readonly<Record<string, DataValidationType>> = {
  none: DataValidationType.ANY,
  whole: DataValidationType.WHOLE,
  decimal: DataValidationType.DECIMAL,
  list: DataValidationType.LIST,
  date: DataValidationType.DATE,
  time: DataValidationType.TIME,
  textLength: DataValidationType.TEXT_LENGTH,
  custom: DataValidationType.CUSTOM,
};

const ERROR_STYLES: Readonly<Record<string, DataValidationErrorStyle>> = {
  stop: DataValidationErrorStyle.STOP,
  warning: DataValidationErrorStyle.WARNING,
  information: DataValidationErrorStyle.INFO,
};

/**
 * @param fit cuts a block to the cells that the grid's sheet has, or answers undefined where none is left
 */
export function readValidations(
  worksheet: XmlElement,
  sheetId: string,
  formulas: FormulaReading,
  fit: (range: IRange) => IRange | undefined,
): FileValidation[] {
  return children(child(worksheet, "dataValidations"), "dataValidation").map((element, index) => {
    const ranges = parseRanges(element.attributes["sqref"]).flatMap((range) => fit(range) ?? []);
    const type = TYPES[element.attributes["type"] ?? "none"];
    const isOff = isTrue(element, "showErrorMessage") === false && type !== DataValidationType.LIST;
    if (type === undefined || ranges.length === 0) return { element, rule: undefined };
    const rule = readRule(element, type, isOff, formulas);
    return { element, rule: rule && { uid: `${sheetId}-check-${index + 1}`, ranges, ...rule } };
  });
}

type RuleWithoutPlace = Omit<ISheetDataValidationRule, "uid" | "ranges">;

function readRule(
  element: XmlElement,
  type: DataValidationType,
  isOff: boolean,
  formulas: FormulaReading,
): RuleWithoutPlace | undefined {
  const { attributes } = element;
  const text = (name: string): string | undefined => {
    const value = attributes[name];
    return value === undefined ? undefined : decodeString(value);
  };
  const prompt = isTrue(element, "showInputMessage") ? text("prompt") : undefined;
  const promptTitle = isTrue(element, "showInputMessage") ? text("promptTitle") : undefined;
  const error = text("error");
  const errorTitle = text("errorTitle");
  const messages = {
    allowBlank: isTrue(element, "allowBlank"),
    ...(prompt === undefined ? {} : { showInputMessage: true, prompt }),
    ...(promptTitle === undefined ? {} : { promptTitle }),
    ...(error === undefined ? {} : { showErrorMessage: true, error }),
    ...(errorTitle === undefined ? {} : { errorTitle }),
  };
  // A check that never speaks up lets everything pass; only what it says beforehand is of use.
  if (type === DataValidationType.ANY || isOff) return { type: DataValidationType.ANY, ...messages };

  const formula1 = limit(child(element, "formula1")?.text, type, formulas);
  const formula2 = limit(child(element, "formula2")?.text, type, formulas);
  if (formula1 === undefined) return undefined;
  const hasErrors = isTrue(element, "showErrorMessage");
  return {
    type,
    ...messages,
    formula1,
    ...(formula2 === undefined ? {} : { formula2 }),
    errorStyle: hasErrors
      ? (ERROR_STYLES[attributes["errorStyle"] ?? "stop"] ?? DataValidationErrorStyle.STOP)
      : DataValidationErrorStyle.INFO,
    ...(type === DataValidationType.LIST
      ? // The attribute says the contrary of its name: it hides the arrow.
        { showDropDown: !isTrue(element, "showDropDown"), renderMode: DataValidationRenderMode.TEXT }
      : {}),
    ...(type === DataValidationType.LIST || type === DataValidationType.CUSTOM
      ? {}
      : { operator: operatorOf(attributes["operator"]) }),
  };
}

function operatorOf(word = "between"): DataValidationOperator {
  const operators: readonly string[] = Object.values(DataValidationOperator);
  const known: Readonly<Record<string, DataValidationOperator>> = {
    greaterThanOrEqual: DataValidationOperator.GREATER_THAN_OR_EQUAL,
    lessThanOrEqual: DataValidationOperator.LESS_THAN_OR_EQUAL,
  };
  return known[word] ?? (operators.includes(word) ? (word as DataValidationOperator) : DataValidationOperator.BETWEEN);
}

/** A list's words, a number, or a formula; undefined for a formula that the grid does not work out. */
function limit(text: string | undefined, type: DataValidationType, formulas: FormulaReading): string | undefined {
  if (text === undefined || text.trim() === "") return undefined;
  if (type === DataValidationType.LIST) {
    const words = /^\s*"((?:[^"]|"")*)"\s*$/.exec(text)?.[1];
    if (words !== undefined) {
      return words
        .replaceAll('""', '"')
        .split(",")
        .map((word) => word.trim())
        .join(",");
    }
  } else if (type !== DataValidationType.CUSTOM && Number.isFinite(Number(text))) {
    return text.trim();
  }
  const formula = readFormula(text, formulas);
  return formula.isWorkable ? formula.text : undefined;
}
