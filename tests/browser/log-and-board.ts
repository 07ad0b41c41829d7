/** The log as the page holds it, and the board that the built function makes of it, to hold the page's own board against. */
import { loadBuiltFunctions } from "../benchmarks/built-functions";
import type { DrivenPage } from "./page";

/** A row of the log: date (a day's number), athlete, trick, stage, marks, minutes, entrance, exit, condition, note. */
export type LogRow = (string | number)[];
export const [DATE, ATHLETE, TRICK, STAGE, MARKS, MINUTES, NOTE] = [0, 1, 2, 3, 4, 5, 9] as const;

export const FIRST_LOG_ROW = 5;
export const LOG_COLUMNS = "ABCDEFGHIJ";
const FIRST_BOARD_ROW = 4;
const BOARD_COLUMNS = "ABCDEFGHIJKLM";
const LAST_DAY_COLUMN = 11;

/** The log down to its first row without a date, or with `blanks` down to that many such rows in succession, left out at the end. */
export async function readLog(opened: DrivenPage, sheet: string, blanks = 1): Promise<LogRow[]> {
  const shown = await opened.page.evaluate(
    ([name, first, most, letters]) => {
      const rows: (string | number)[][] = [];
      for (let row = first, blank = 0; blank < most && row < 1_000_000; row += 1) {
        const cells = [...letters].map((letter) => {
          try {
            return (window.tryOutPage?.read(name, letter + String(row)) ?? "") as string | number;
          } catch {
            return "";
          }
        });
        blank = cells[0] === "" ? blank + 1 : 0;
        rows.push(cells);
      }
      return rows.slice(0, rows.length - most);
    },
    [sheet, FIRST_LOG_ROW as number, blanks, LOG_COLUMNS] as const,
  );
  return shown.map(([day, ...others]) => [serialOf(day), ...others]);
}

/** A day as the page shows it, `21 Mar 2027`, as the number that its cell holds. */
function serialOf(day: string | number | undefined): number | string {
  if (typeof day === "number" || day === "") return day;
  return Date.parse(`${day ?? ""} UTC`) / 86_400_000 + 25_569;
}

let board: ReturnType<typeof builtBoard> | undefined;

function builtBoard() {
  const built = loadBuiltFunctions().get("BOARD");
  if (built === undefined) throw new Error("functions.js has no BOARD.");
  return built;
}

/** What the board is to show for this log, row by row, and what it shows; both with the empty row below it. */
export async function boards(
  opened: DrivenPage,
  sheet: string,
  log: readonly LogRow[],
): Promise<{ readonly expected: string[][]; readonly shown: string[][] }> {
  board ??= builtBoard();
  const column = (place: number): unknown[][] => log.map((row) => [row[place] ?? ""]);
  const answer = board(column(DATE), column(ATHLETE), column(TRICK), column(MARKS), 0.8, 10, column(STAGE), null, null) as unknown[][]; // prettier-ignore
  const shown = await opened.page.evaluate(
    ([name, first, rows, letters]) =>
      Array.from({ length: rows + 1 }, (_, row) =>
        [...letters].map((letter) => window.tryOutPage?.read(name, letter + String(first + row)) ?? ""),
      ),
    [sheet, FIRST_BOARD_ROW as number, answer.length, BOARD_COLUMNS] as const,
  );
  return {
    expected: [...answer.map((row) => row.map(asShown)), Array<string>(BOARD_COLUMNS.length).fill("")],
    shown: shown.map((cells, row) =>
      cells.map((cell, place) => (place === LAST_DAY_COLUMN && cell !== "" && row > 0 ? "a day" : String(cell))),
    ),
  };
}

/** A cell of the board as the sheet shows it: rates in whole percent; days as such, since they are compared in the log. */
function asShown(cell: unknown, place: number): string {
  if (typeof cell !== "number") return place === LAST_DAY_COLUMN && cell !== "" ? "Last practised" : String(cell);
  if (place === LAST_DAY_COLUMN) return "a day";
  return place >= 4 && place <= 7 ? `${String(Math.round(cell * 100))}%` : String(cell);
}
