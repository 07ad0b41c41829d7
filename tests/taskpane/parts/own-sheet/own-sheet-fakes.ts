/** A workbook that hands over one log, for tests of the pane. */
import type { OwnSheetHost, ReadLog, Repairs } from "../../../../src/taskpane/host/own-sheet-host";
import { day, sheet, turned } from "../../../core/log-layout/sheets";

/** Crosses and rounds, stages of the club's own, days as text, and a few cells that nobody can read. */
export const messyLog: ReadLog = {
  sheet: "Our log",
  table: null,
  block: sheet("A1", [
    ["Larkfield Twirlers, practice"],
    [],
    ["Day", "Who", "What", "How", "T1", "T2", "T3", "Remarks"],
    ...Array.from({ length: 30 }, (_, row) => [
      row % 5 === 0 ? `${String(1 + (row % 9))}.3.2026` : day(`2026-03-${String(1 + (row % 28)).padStart(2, "0")}`),
      ["M.K.", "A.R.", "J.T."][row % 3] ?? "",
      ["Double turn", "Illusion"][row % 2] ?? "",
      ["together", "toss alone"][row % 2] ?? "",
      row % 3 === 0 ? "o" : "x",
      "x",
      row === 7 ? "sick" : row === 9 ? turned("2026-10-08", "8-Oct") : "x",
      "",
    ]),
    [day("2026-03-30"), "", "Illusion", "together", "x", "o", "x", "who was it?"],
  ]),
};

export interface FakeOwnSheet extends OwnSheetHost {
  readonly visited: string[];
}

export const nothingRepaired: Repairs = { repaired: 0, stillUnknown: 0, refused: 0, protectedSheets: [] };

export function fakeOwnSheet(log: ReadLog = messyLog, repairs: Repairs = nothingRepaired): FakeOwnSheet {
  const visited: string[] = [];
  return {
    visited,
    readLog: (progress) => {
      progress?.(0, log.block.values.length);
      return Promise.resolve(log);
    },
    goToCell: (sheetName, { row, column }) => {
      visited.push(`${sheetName} ${String(row)},${String(column)}`);
      return Promise.resolve();
    },
    repairFormulas: () => Promise.resolve(repairs),
  };
}
