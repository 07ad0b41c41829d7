/** Conditional formats that were changed in the grid, back in the file. */
import {
  CFNumberOperator,
  CFRuleType,
  CFSubRuleType,
  CFTextOperator,
  CFTimePeriodOperator,
  type IConditionalFormattingRuleConfig,
  type IConditionFormattingRule,
  type IHighlightCell,
  type IValueConfig,
} from "@univerjs/sheets-conditional-formatting";

import { element, escapeText } from "../../../xlsx/xml/write";
import { isFormula } from "../../../xlsx/formulas/check";
import { writeFormula } from "../../../xlsx/formulas/writing";
import type { GridSheetState } from "../grid-state";
import { fingerprint, widened } from "../range-widening";
import { placeName, rangeNames } from "../../../xlsx/ranges";
import type { ReadSheet } from "../open";
import { insertInOrder } from "../../../xlsx/xml/insert-in-order";
import type { StyleWriter } from "../styles/write";
import type { XmlEdits } from "../../../xlsx/xml/edits";
import { children, prefixOf, type XmlElement } from "../../../xlsx/xml/tree";

export function writeRules(edits: XmlEdits, file: ReadSheet, grid: GridSheetState, styles: StyleWriter): void {
  const before = file.rules.flatMap(({ rule }) => rule ?? []);
  if (fingerprint(before) === fingerprint(grid.rules)) return;
  const known = new Map(file.rules.flatMap((entry) => (entry.rule ? [[entry.rule.cfId, entry] as const] : [])));
  const kept = new Set<XmlElement>();
  const added: string[] = [];
  const prefix = prefixOf(file.root);
  grid.rules.forEach((rule, index) => {
    const entry = known.get(rule.cfId);
    const priority = index + 1;
    if (entry?.rule && fingerprint(entry.rule) === fingerprint(rule)) {
      kept.add(entry.element);
      if (entry.priority !== priority) edits.setAttribute(entry.element, "priority", priority);
      return;
    }
    const dxfId = entry?.element.attributes["dxfId"];
    const sameLook = entry?.rule && fingerprint(styleOf(entry.rule)) === fingerprint(styleOf(rule));
    const look = sameLook && dxfId !== undefined ? Number(dxfId) : lookNumber(rule, styles);
    added.push(blockXml(rule, priority, look, grid, prefix));
  });
  // Those that the grid does not draw come after all that it does.
  let next = grid.rules.length;
  for (const { element: rule, rule: shown } of file.rules) {
    if (shown !== undefined) continue;
    next += 1;
    kept.add(rule);
    edits.setAttribute(rule, "priority", next);
  }
  for (const block of children(file.root, "conditionalFormatting")) {
    const rules = children(block, "cfRule");
    if (rules.every((rule) => !kept.has(rule))) edits.removeElement(block);
    else for (const rule of rules) if (!kept.has(rule)) edits.removeElement(rule);
  }
  for (const xml of added) insertInOrder(edits, file.root, "conditionalFormatting", xml);
}

function styleOf({ rule }: IConditionFormattingRule): unknown {
  return "style" in rule ? (rule as IHighlightCell).style : undefined;
}

function lookNumber({ rule }: IConditionFormattingRule, styles: StyleWriter): number | undefined {
  return rule.type === CFRuleType.highlightCell ? styles.ruleNumberOf((rule as IHighlightCell).style) : undefined;
}

function blockXml(
  { rule, ranges, stopIfTrue }: IConditionFormattingRule,
  priority: number,
  dxfId: number | undefined,
  grid: GridSheetState,
  prefix: string,
): string {
  const first = ranges[0] ?? { startRow: 0, startColumn: 0 };
  const { attributes, content } = ruleParts(
    rule,
    placeName({ row: first.startRow, column: first.startColumn }),
    prefix,
  );
  return element(
    `${prefix}conditionalFormatting`,
    { sqref: rangeNames(widened(ranges, grid)) },
    element(`${prefix}cfRule`, { ...attributes, dxfId, priority, stopIfTrue: stopIfTrue ? 1 : undefined }, ...content),
  );
}

interface RuleParts {
  readonly attributes: Readonly<Record<string, string | number | undefined>>;
  readonly content: readonly string[];
}

function ruleParts(rule: IConditionalFormattingRuleConfig, cell: string, prefix: string): RuleParts {
  const formula = (text: string): string => element(`${prefix}formula`, {}, escapeText(text));
  const byFormula = (text: string): RuleParts => ({ attributes: { type: "expression" }, content: [formula(text)] });
  switch (rule.type) {
    case CFRuleType.dataBar:
      return {
        attributes: { type: "dataBar" },
        content: [
          element(
            `${prefix}dataBar`,
            { showValue: rule.isShowValue ? undefined : 0 },
            valueXml(rule.config.min, prefix),
            valueXml(rule.config.max, prefix),
            colourXml(rule.config.positiveColor, prefix),
          ),
        ],
      };
    case CFRuleType.colorScale: {
      const steps = [...rule.config].sort((one, other) => one.index - other.index);
      return {
        attributes: { type: "colorScale" },
        content: [
          element(
            `${prefix}colorScale`,
            {},
            ...steps.map(({ value }) => valueXml(value, prefix)),
            ...steps.map(({ color }) => colourXml(color, prefix)),
          ),
        ],
      };
    }
    case CFRuleType.iconSet: {
      const steps = [...rule.config].reverse();
      return {
        attributes: { type: "iconSet" },
        content: [
          element(
            `${prefix}iconSet`,
            {
              iconSet: steps[0]?.iconType,
              showValue: rule.isShowValue ? undefined : 0,
              reverse: steps[0]?.iconId === "0" ? 1 : undefined,
            },
            ...steps.map(({ value, operator }) =>
              valueXml(value, prefix, operator === CFNumberOperator.greaterThan ? { gte: 0 } : {}),
            ),
          ),
        ],
      };
    }
    case CFRuleType.highlightCell:
      break;
    default:
      return byFormula("FALSE");
  }
  switch (rule.subType) {
    case CFSubRuleType.formula:
      return byFormula(isFormula(rule.value) ? writeFormula(rule.value) : "FALSE");
    case CFSubRuleType.uniqueValues:
      return { attributes: { type: "uniqueValues" }, content: [] };
    case CFSubRuleType.duplicateValues:
      return { attributes: { type: "duplicateValues" }, content: [] };
    case CFSubRuleType.rank:
      return {
        attributes: {
          type: "top10",
          percent: rule.isPercent ? 1 : undefined,
          bottom: rule.isBottom ? 1 : undefined,
          rank: rule.value,
        },
        content: [],
      };
    case CFSubRuleType.average: {
      const { operator } = rule;
      const isBelow = operator === CFNumberOperator.lessThan || operator === CFNumberOperator.lessThanOrEqual;
      const orEqual = operator === CFNumberOperator.greaterThanOrEqual || operator === CFNumberOperator.lessThanOrEqual;
      return {
        attributes: {
          type: "aboveAverage",
          aboveAverage: isBelow ? 0 : undefined,
          equalAverage: orEqual ? 1 : undefined,
        },
        content: [],
      };
    }
    case CFSubRuleType.number: {
      const values = Array.isArray(rule.value) ? rule.value : [rule.value ?? 0];
      return {
        attributes: { type: "cellIs", operator: rule.operator },
        content: values.map((value) => formula(String(value))),
      };
    }
    case CFSubRuleType.text:
      return byFormula(textFormula(rule.operator, rule.value ?? "", cell));
    case CFSubRuleType.timePeriod:
      return byFormula(timeFormulas[rule.operator].replaceAll("?", cell));
    default:
      return byFormula("FALSE");
  }
}

function textFormula(operator: CFTextOperator, value: string, cell: string): string {
  const text = `"${value.replaceAll('"', '""')}"`;
  switch (operator) {
    case CFTextOperator.beginsWith:
      return `LEFT(${cell},LEN(${text}))=${text}`;
    case CFTextOperator.endsWith:
      return `RIGHT(${cell},LEN(${text}))=${text}`;
    case CFTextOperator.containsText:
      return `NOT(ISERROR(SEARCH(${text},${cell})))`;
    case CFTextOperator.notContainsText:
      return `ISERROR(SEARCH(${text},${cell}))`;
    case CFTextOperator.equal:
      return `${cell}=${text}`;
    case CFTextOperator.notEqual:
      return `${cell}<>${text}`;
    case CFTextOperator.containsBlanks:
      return `LEN(TRIM(${cell}))=0`;
    case CFTextOperator.notContainsBlanks:
      return `LEN(TRIM(${cell}))>0`;
    case CFTextOperator.containsErrors:
      return `ISERROR(${cell})`;
    case CFTextOperator.notContainsErrors:
      return `NOT(ISERROR(${cell}))`;
    default:
      return "FALSE";
  }
}

/** With `?` for the cell. A week begins on Sunday, as the file format's own rules have it. */
const timeFormulas: Readonly<Record<CFTimePeriodOperator, string>> = {
  [CFTimePeriodOperator.today]: "FLOOR(?,1)=TODAY()",
  [CFTimePeriodOperator.yesterday]: "FLOOR(?,1)=TODAY()-1",
  [CFTimePeriodOperator.tomorrow]: "FLOOR(?,1)=TODAY()+1",
  [CFTimePeriodOperator.last7Days]: "AND(TODAY()-FLOOR(?,1)<=6,FLOOR(?,1)<=TODAY())",
  [CFTimePeriodOperator.thisWeek]: "AND(FLOOR(?,1)>TODAY()-WEEKDAY(TODAY()),FLOOR(?,1)<=TODAY()-WEEKDAY(TODAY())+7)",
  [CFTimePeriodOperator.lastWeek]: "AND(FLOOR(?,1)>TODAY()-WEEKDAY(TODAY())-7,FLOOR(?,1)<=TODAY()-WEEKDAY(TODAY()))",
  [CFTimePeriodOperator.nextWeek]: "AND(FLOOR(?,1)>TODAY()-WEEKDAY(TODAY())+7,FLOOR(?,1)<=TODAY()-WEEKDAY(TODAY())+14)",
  [CFTimePeriodOperator.thisMonth]: "AND(MONTH(?)=MONTH(TODAY()),YEAR(?)=YEAR(TODAY()))",
  [CFTimePeriodOperator.lastMonth]: "AND(MONTH(?)=MONTH(EDATE(TODAY(),-1)),YEAR(?)=YEAR(EDATE(TODAY(),-1)))",
  [CFTimePeriodOperator.nextMonth]: "AND(MONTH(?)=MONTH(EDATE(TODAY(),1)),YEAR(?)=YEAR(EDATE(TODAY(),1)))",
};

function valueXml(
  { type, value }: IValueConfig,
  prefix: string,
  further: Readonly<Record<string, number>> = {},
): string {
  const text = value === undefined ? undefined : String(value);
  const written = text?.startsWith("=") === true && isFormula(text) ? writeFormula(text) : text;
  return element(`${prefix}cfvo`, { type, val: written, ...further });
}

function colourXml(colour: string, prefix: string): string {
  const digits = /^#([0-9a-f]{6})/i.exec(colour)?.[1] ?? "000000";
  return element(`${prefix}color`, { rgb: `FF${digits.toUpperCase()}` });
}
