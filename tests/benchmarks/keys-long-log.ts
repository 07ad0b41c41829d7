/**
 * Keys typed into a log of 50,000 rows with a board over it, each of which is worked out for seconds at a time: rows below the
 * log, and marks of its first rows typed over. No key waits for the page.
 */
import type {} from "../../src/page/page-window";
import { texts } from "../../src/taskpane/words/texts";
import { openTryOutPage } from "../browser/page";
import { keysOfRow, type Pace, typeKeys } from "../browser/typing";
import { logFile } from "./large-log";
import { allowNamedFunctions } from "./times";

const FIRST_FREE_ROW = 50_002;
const MARKS_COLUMN = "D";
const ROWS_BELOW = 3;
const MARKS_TYPED_OVER = 5;

export interface LongLogResult {
  readonly keys: number;
  /** Keys that came while the page said that it was calculating. */
  readonly keysDuringCalculation: number;
  readonly calculations: number;
  readonly cells: number;
  readonly lost: readonly { readonly cell: string; readonly typed: string; readonly shown: string }[];
  readonly problems: readonly string[];
}

export async function typeIntoLongLog(keys: number, pace: Pace, random: () => number): Promise<LongLogResult> {
  const opened = await openTryOutPage();
  const { page } = opened;
  try {
    await allowNamedFunctions(page);
    await opened.pickFile("ten years.xlsx", await logFile());
    await page.locator("#file-message", { hasText: "is open." }).waitFor();
    await opened.ready();
    await opened.goTo("Log", "B2");
    await page.locator("#pane").getByRole("tab", { name: texts.ownSheetTitle }).click();
    const part = page.locator("#twirl-panel-own-sheet");
    await part.getByRole("button", { name: texts.ownSheetRead }).click();
    await part.getByText(texts.ownSheetColumns).waitFor();
    await part.getByRole("button", { name: texts.ownSheetPut }).click();
    await opened.shows("Board (Log)", "A8", "Athlete");
    await opened.ready();
    await page.evaluate(() => {
      const counts = { keys: 0, calculations: 0 };
      Object.assign(window, { counts });
      let before = "ready";
      new MutationObserver(() => {
        const now = document.body.dataset["state"] ?? "";
        if (now === "ready" && before === "calculating") counts.calculations += 1;
        before = now;
      }).observe(document.body, { attributeFilter: ["data-state"] });
      const count = (): void => {
        if (document.body.dataset["state"] === "calculating") counts.keys += 1;
      };
      window.addEventListener("keydown", count, { capture: true });
    });

    const expected = new Map<string, string>();
    const marks = (): string => Array.from({ length: 10 }, () => (random() < 0.8 ? "c" : "d")).join("");
    let typed = 0;
    let below = FIRST_FREE_ROW;
    let over = 2;
    const press = async (row: readonly string[]): Promise<void> => {
      await typeKeys(page, row, pace, random);
      typed += row.length;
    };
    while (typed < keys) {
      await opened.goTo("Log", `A${String(below)}`);
      for (let count = 0; count < ROWS_BELOW; count += 1) {
        const row = ["2027-01-10", "M.K.", "Two spin", marks()];
        await press(keysOfRow(row));
        for (const [column, value] of row.entries()) expected.set(`${"ABCD".charAt(column)}${String(below)}`, value);
        below += 1;
      }
      await opened.goTo("Log", `${MARKS_COLUMN}${String(over)}`);
      for (let count = 0; count < MARKS_TYPED_OVER; count += 1) {
        const value = marks();
        await press([...value, "ArrowDown"]);
        expected.set(`${MARKS_COLUMN}${String(over)}`, value);
        over += 1;
      }
    }
    await opened.ready();
    const cells = [...expected.keys()];
    const shown = await page.evaluate(
      (addresses) => addresses.map((address) => String(window.tryOutPage?.read("Log", address) ?? "")),
      cells,
    );
    const lost = cells.flatMap((cell, index) => {
      const [value, seen] = [expected.get(cell) ?? "", shown[index] ?? ""];
      return seen === value ? [] : [{ cell, typed: value, shown: seen }];
    });
    const counts = (await page.evaluate("counts")) as { keys: number; calculations: number };
    return {
      keys: typed,
      keysDuringCalculation: counts.keys,
      calculations: counts.calculations,
      cells: cells.length,
      lost,
      problems: opened.problems,
    };
  } finally {
    await opened.close();
  }
}
