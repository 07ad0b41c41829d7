/** A small workbook of every kind of part that a plan may hold, for the tests of the grid writer and of the engine. */
import { call, column, operation, thisRow, twirl } from "../../src/workbook/plan/formula";
import type { CellPlan, Content, NumberFormat, SheetPlan, WorkbookPlan } from "../../src/workbook/plan/schema";

const text = (words: string): Content => ({ kind: "text", text: words });
const number = (value: number): Content => ({ kind: "number", value });

function plainCell(row: number, columnNumber: number, content: Content, format: NumberFormat = "general"): CellPlan {
  return { at: { row, column: columnNumber }, content, look: "plain", format };
}

const log: SheetPlan = {
  name: "Log O'Hara",
  columnWidths: [12, 20],
  areas: [{ on: { row: 20, column: 1, rows: 2, columns: 2 }, look: "answer", format: "percent" }],
  cells: [{ ...plainCell(1, 1, text("=1+1")), look: "title", wrap: true }, plainCell(1, 6, { kind: "empty" })],
  tables: [
    {
      name: "Log_A",
      at: { row: 3, column: 1 },
      columns: [
        { heading: "Date", format: "date", validation: { allowed: { kind: "date" }, errorMessage: "A date." } },
        {
          heading: "Marks",
          format: "text",
          validation: { allowed: { kind: "none" }, inputTitle: "Marks", inputMessage: "c or d." },
        },
        { heading: "Length (s)", format: "oneDecimal" },
        {
          heading: "Twice",
          format: "oneDecimal",
          formula: operation(thisRow("Log_A", "Length (s)"), "*", 2),
        },
      ],
      rows: [
        [{ kind: "date", serial: 46391 }, text("c"), number(1.5), { kind: "empty" }],
        [{ kind: "date", serial: 46392 }, text("0110"), number(2), { kind: "empty" }],
        [{ kind: "date", serial: 46393 }, text("=1+1"), { kind: "empty" }, { kind: "empty" }],
      ],
    },
  ],
  validations: [
    {
      on: { row: 1, column: 6, rows: 1, columns: 1 },
      validation: {
        allowed: { kind: "list", source: { kind: "column", table: "Log_A", column: "Marks" }, strict: true },
      },
    },
    {
      on: { row: 2, column: 6, rows: 1, columns: 1 },
      validation: { allowed: { kind: "list", source: { kind: "words", words: ["m", "ft"] }, strict: false } },
    },
    {
      on: { row: 3, column: 6, rows: 1, columns: 1 },
      validation: { allowed: { kind: "number", least: 0, most: 10, whole: true } },
    },
  ],
  rules: [{ on: { row: 4, column: 2, rows: 3, columns: 1 }, text: 'say "c"', look: "ready" }],
  charts: [
    {
      name: "Lengths",
      title: "Lengths by day",
      description: "Each day's length.",
      on: { row: 8, column: 1, rows: 10, columns: 4 },
      across: { title: "Day", format: "date" },
      up: { title: "Length", format: "oneDecimal", least: 0 },
      series: [
        {
          name: "Length",
          across: { row: 4, column: 1, rows: 3, columns: 1 },
          up: { row: 4, column: 3, rows: 3, columns: 1 },
          look: "rate",
        },
      ],
    },
  ],
  frozen: { rows: 3, columns: 0 },
};

const answers: SheetPlan = {
  name: "Answers",
  columnWidths: [],
  areas: [],
  cells: [
    plainCell(1, 1, { kind: "formula", formula: twirl("TALLY", column("Log_A", "Marks")), spills: true }),
    plainCell(1, 5, { kind: "formula", formula: call("SUM", column("Log_A", "Length (s)")), spills: false }),
    plainCell(2, 5, { kind: "formula", formula: twirl("SHOW", column("Log_A", "Length (s)")), spills: false }),
    plainCell(3, 5, {
      kind: "formula",
      formula: twirl("TALLY", { kind: "cells", from: { row: 9, column: 9 } }),
      spills: false,
    }),
    plainCell(4, 5, { kind: "formula", formula: operation(1, "=", 1), spills: false }),
    plainCell(5, 5, {
      kind: "formula",
      formula: { kind: "cells", sheet: "Log O'Hara", from: { row: 1, column: 1 } },
      spills: false,
    }),
  ],
  tables: [],
  validations: [],
  rules: [],
  charts: [],
  frozen: { rows: 0, columns: 0 },
};

export const smallPlan: WorkbookPlan = { sheets: [log, answers], active: "Answers" };
