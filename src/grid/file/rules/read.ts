/** Conditional formats, from the file into the grid. */
import type { IRange, IStyleBase } from "@univerjs/core";
import {
  CFNumberOperator,
  CFRuleType,
  CFSubRuleType,
  CFValueType,
  type IConditionalFormattingRuleConfig,
  type IConditionFormattingRule,
  type IIconSet,
  type IValueConfig,
} from "@univerjs/sheets-conditional-formatting";

import { readColour } from "../../../xlsx/parts/styles/colours";
import { type FormulaReading, readFormula } from "../../../xlsx/formulas/reading";
import { parseRanges, placeName } from "../../../xlsx/ranges";
import type { StylesPart } from "../styles/read";
import { child, children, isTrue, wholeNumber, type XmlElement } from "../../../xlsx/xml/tree";

export interface FileRule {
  /** The block with its cells, and the one rule in it. */
  readonly block: XmlElement;
  readonly element: XmlElement;
  readonly priority: number;
  /** Undefined for one that the grid cannot draw. */
  readonly rule: IConditionFormattingRule | undefined;
}

/** In the order in which they win. */
export function readRules(
  worksheet: XmlElement,
  sheetId: string,
  styles: StylesPart,
  formulas: FormulaReading,
  fit: (range: IRange) => IRange | undefined,
): FileRule[] {
  let count = 0;
  return children(worksheet, "conditionalFormatting")
    .flatMap((block) => {
      const all = parseRanges(block.attributes["sqref"]);
      const ranges = all.flatMap((range) => fit(range) ?? []);
      return children(block, "cfRule").map((element): FileRule => {
        count += 1;
        const priority = wholeNumber(element, "priority") ?? count;
        const first = all[0];
        const config =
          first === undefined || ranges.length === 0
            ? undefined
            : readConfig(element, placeName({ row: first.startRow, column: first.startColumn }), styles, formulas);
        return {
          block,
          element,
          priority,
          rule: config && {
            cfId: `${sheetId}-rule-${count}`,
            ranges,
            stopIfTrue: isTrue(element, "stopIfTrue"),
            rule: config,
          },
        };
      });
    })
    .sort((one, other) => one.priority - other.priority);
}

/** @param first the first cell of the rule's block: from there its formulas count */
function readConfig(
  element: XmlElement,
  first: string,
  styles: StylesPart,
  formulas: FormulaReading,
): IConditionalFormattingRuleConfig | undefined {
  const style = styles.ruleStyles[wholeNumber(element, "dxfId") ?? -1] ?? {};
  const parts = children(element, "formula").map(({ text }) => readFormula(text, formulas));
  if (parts.some(({ isWorkable }) => !isWorkable)) return undefined;
  const [one, two] = parts.map(({ text }) => text.slice(1));
  const byFormula = (formula: string): IConditionalFormattingRuleConfig => ({
    type: CFRuleType.highlightCell,
    subType: CFSubRuleType.formula,
    value: `=${formula}`,
    style,
  });
  switch (element.attributes["type"]) {
    case "cellIs": {
      // By a formula: the grid's own rules for values do not see what another formula has spilled into a cell.
      const condition = one === undefined ? undefined : comparison(element.attributes["operator"], first, one, two);
      return condition === undefined ? undefined : byFormula(condition);
    }
    case "expression":
    case "containsText":
    case "notContainsText":
    case "beginsWith":
    case "endsWith":
    case "containsBlanks":
    case "notContainsBlanks":
    case "containsErrors":
    case "notContainsErrors":
    case "timePeriod":
      return one === undefined ? undefined : byFormula(one);
    case "duplicateValues":
      return { type: CFRuleType.highlightCell, subType: CFSubRuleType.duplicateValues, style };
    case "uniqueValues":
      return { type: CFRuleType.highlightCell, subType: CFSubRuleType.uniqueValues, style };
    case "top10":
      return {
        type: CFRuleType.highlightCell,
        subType: CFSubRuleType.rank,
        isBottom: isTrue(element, "bottom"),
        isPercent: isTrue(element, "percent"),
        value: wholeNumber(element, "rank") ?? 10,
        style,
      };
    case "aboveAverage":
      return aboveAverage(element, style);
    case "colorScale":
      return colourScale(child(element, "colorScale"), styles, formulas);
    case "dataBar":
      return dataBar(child(element, "dataBar"), styles, formulas);
    case "iconSet":
      return iconSet(child(element, "iconSet"), formulas);
    case undefined:
    default:
      return undefined;
  }
}

function comparison(
  operator: string | undefined,
  cell: string,
  one: string,
  two: string | undefined,
): string | undefined {
  switch (operator) {
    case "equal":
      return `${cell}=${one}`;
    case "notEqual":
      return `${cell}<>${one}`;
    case "lessThan":
      return `${cell}<${one}`;
    case "lessThanOrEqual":
      return `${cell}<=${one}`;
    case "greaterThan":
      return `${cell}>${one}`;
    case "greaterThanOrEqual":
      return `${cell}>=${one}`;
    case "between":
      return two === undefined ? undefined : `AND(${cell}>=${one},${cell}<=${two})`;
    case "notBetween":
      return two === undefined ? undefined : `OR(${cell}<${one},${cell}>${two})`;
    case undefined:
    default:
      return undefined;
  }
}

function aboveAverage(element: XmlElement, style: IStyleBase): IConditionalFormattingRuleConfig | undefined {
  // So many standard deviations from the mean: the grid has no such rule.
  if ((wholeNumber(element, "stdDev") ?? 0) > 0) return undefined;
  const orEqual = isTrue(element, "equalAverage");
  const operator = isTrue(element, "aboveAverage", true)
    ? orEqual
      ? CFNumberOperator.greaterThanOrEqual
      : CFNumberOperator.greaterThan
    : orEqual
      ? CFNumberOperator.lessThanOrEqual
      : CFNumberOperator.lessThan;
  return { type: CFRuleType.highlightCell, subType: CFSubRuleType.average, operator, style };
}

function readValue(element: XmlElement, formulas: FormulaReading): IValueConfig | undefined {
  const value = element.attributes["val"];
  switch (element.attributes["type"]) {
    case "min":
    case "autoMin":
      return { type: CFValueType.min };
    case "max":
    case "autoMax":
      return { type: CFValueType.max };
    case "percent":
      return { type: CFValueType.percent, value: Number(value ?? 0) };
    case "percentile":
      return { type: CFValueType.percentile, value: Number(value ?? 0) };
    case "num":
      // A number may be given by a formula as well.
      if (value !== undefined && Number.isFinite(Number(value))) return { type: CFValueType.num, value: Number(value) };
      return formulaValue(value, formulas);
    case "formula":
      return formulaValue(value, formulas);
    case undefined:
    default:
      return undefined;
  }
}

function formulaValue(value: string | undefined, formulas: FormulaReading): IValueConfig | undefined {
  if (value === undefined) return undefined;
  const { text, isWorkable } = readFormula(value, formulas);
  return isWorkable ? { type: CFValueType.formula, value: text } : undefined;
}

function all<T>(values: readonly (T | undefined)[]): T[] | undefined {
  return values.includes(undefined) ? undefined : (values as T[]);
}

function colourScale(
  scale: XmlElement | undefined,
  styles: StylesPart,
  formulas: FormulaReading,
): IConditionalFormattingRuleConfig | undefined {
  const values = all(children(scale, "cfvo").map((element) => readValue(element, formulas)));
  const colours = all(children(scale, "color").map((element) => readColour(element, styles.palette)));
  if (values === undefined || colours?.length !== values.length || values.length < 2) return undefined;
  return {
    type: CFRuleType.colorScale,
    config: values.map((value, index) => ({ index, color: colours[index] ?? "#FFFFFF", value })),
  };
}

/** The colour of bars below zero, where the file names none. */
const NEGATIVE_BAR = "#FF0000";

function dataBar(
  bar: XmlElement | undefined,
  styles: StylesPart,
  formulas: FormulaReading,
): IConditionalFormattingRuleConfig | undefined {
  const [min, max] = all(children(bar, "cfvo").map((element) => readValue(element, formulas))) ?? [];
  const colour = readColour(child(bar, "color"), styles.palette);
  if (min === undefined || max === undefined || colour === undefined) return undefined;
  return {
    type: CFRuleType.dataBar,
    isShowValue: isTrue(bar, "showValue", true),
    config: { min, max, isGradient: true, positiveColor: colour, nativeColor: NEGATIVE_BAR },
  };
}

type IconType = IIconSet["config"][number]["iconType"];

/** The sets of icons that the grid draws. */
const ICON_SETS = [
  "3Arrows",
  "3ArrowsGray",
  "3Flags",
  "3Signs",
  "3Symbols",
  "3Symbols2",
  "3TrafficLights1",
  "3TrafficLights2",
  "4Arrows",
  "4ArrowsGray",
  "4Rating",
  "4RedToBlack",
  "4TrafficLights",
  "5Arrows",
  "5ArrowsGray",
  "5Quarters",
  "5Rating",
];

function iconSet(set: XmlElement | undefined, formulas: FormulaReading): IConditionalFormattingRuleConfig | undefined {
  const name = set?.attributes["iconSet"] ?? "3TrafficLights1";
  const iconType = ICON_SETS.includes(name) ? (name as IconType) : undefined;
  const steps = children(set, "cfvo");
  const values = all(steps.map((element) => readValue(element, formulas)));
  if (iconType === undefined || values === undefined || values.length < 3) return undefined;
  const reversed = isTrue(set, "reverse");
  // The file lists the steps from the lowest up, the grid from the highest down; the lowest has no limit of its own.
  const config = values
    .map((value, index) => ({
      operator: isTrue(steps[index], "gte", true) ? CFNumberOperator.greaterThanOrEqual : CFNumberOperator.greaterThan,
      value: percentAsNumber(value),
      iconType,
      iconId: String(reversed ? index : values.length - 1 - index),
    }))
    .reverse();
  return { type: CFRuleType.iconSet, isShowValue: isTrue(set, "showValue", true), config };
}

function percentAsNumber(value: IValueConfig): IValueConfig {
  return value.type === CFValueType.min ? { type: CFValueType.percent, value: 0 } : value;
}
