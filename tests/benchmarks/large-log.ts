/**
 * A club with ten years of logs: 50,000 rows in a file that another library wrote are opened in the page, and get a
 * board. How long each takes, from the coach's click to the answer in sight.
 */
import { Workbook } from "@cj-tech-master/excelts";

import { texts } from "../../src/taskpane/words/texts";
import { openTryOutPage } from "../browser/page";
import { seededRandom } from "./random";
import { allowNamedFunctions, printTimes } from "./times";

const ROWS = 50_000;
const ROUNDS = 3;
const ATHLETES = ["M.K.", "A.R.", "J.T.", "B.F.", "C.H.", "E.V.", "G.P.", "L.O.", "S.W.", "T.D."];
const TRICKS = ["Two spin", "Double turn", "Blind catch", "Toss illusion", "Cartwheel", "Back catch", "Thumb toss", "Grand jeté"]; // prettier-ignore

/** The club's file: day, athlete, move, marks; and one mark whose place on the board is known. */
export async function logFile(): Promise<Buffer> {
  const random = seededRandom(50_000);
  const pick = (list: readonly string[]): string => list[Math.floor(random() * list.length)] ?? "";
  const book = new Workbook();
  const sheet = book.addWorksheet("Log");
  sheet.addRow(["Day", "Athlete", "Move", "Marks"]);
  for (let row = 0; row < ROWS; row += 1) {
    const marks = Array.from({ length: 10 }, () => (random() < 0.75 ? "c" : random() < 0.9 ? "d" : "b")).join("");
    const day = new Date(Date.UTC(2016, 8, 1) + Math.floor((row / ROWS) * 3650) * 86_400_000);
    sheet.addRow([day, pick(ATHLETES), pick(TRICKS), marks]);
  }
  sheet.getColumn(1).numFmt = "yyyy-mm-dd";
  return Buffer.from(await book.xlsx.writeBuffer());
}

export async function largeLogBenchmark(print: (line: string) => void): Promise<void> {
  const file = await logFile();
  print(`${String(ROWS)} rows, ${(file.length / 1e6).toFixed(1)} MB`);
  const [opening, reading, board, edit]: [number[], number[], number[], number[]] = [[], [], [], []];
  for (let round = 0; round < ROUNDS; round += 1) {
    const opened = await openTryOutPage();
    const { page } = opened;
    const now = (): Promise<number> => page.evaluate(() => performance.now());
    try {
      await allowNamedFunctions(page);
      let started = await now();
      await opened.pickFile("ten years.xlsx", file);
      await page.locator("#file-message", { hasText: "is open." }).waitFor();
      await opened.ready();
      await opened.shows("Log", `C${String(ROWS + 1)}`, String(await opened.read("Log", `C${String(ROWS + 1)}`)));
      opening.push((await now()) - started);

      await opened.goTo("Log", "B2");
      await page.locator("#pane").getByRole("tab", { name: texts.ownSheetTitle }).click();
      const part = page.locator("#twirl-panel-own-sheet");
      await part.getByRole("button", { name: texts.ownSheetRead }).waitFor();
      started = await now();
      await part.getByRole("button", { name: texts.ownSheetRead }).click();
      await part.getByText(texts.ownSheetColumns).waitFor();
      reading.push((await now()) - started);

      started = await now();
      await part.getByRole("button", { name: texts.ownSheetPut }).click();
      await opened.shows("Board (Log)", "A8", "Athlete");
      await opened.ready();
      board.push((await now()) - started);

      // One mark more in the first row: the board's count of attempts follows.
      await opened.goTo("Log", "D2");
      const [athlete, trick] = [await opened.read("Log", "B2"), await opened.read("Log", "C2")].map(String);
      const row = await page.evaluate(
        ([name, move]) => {
          const read = (at: string): unknown => window.tryOutPage?.read("Board (Log)", at);
          for (let at = 9; at < 400; at += 1) if (read(`A${at}`) === name && read(`B${at}`) === move) return at;
          throw new Error("The board does not know the first row.");
        },
        [athlete, trick] as const,
      );
      const before = Number(await opened.read("Board (Log)", `C${String(row)}`));
      await page.keyboard.type("ccccccccccc");
      started = await now();
      await page.keyboard.press("Enter");
      await opened.shows("Board (Log)", `C${String(row)}`, String(before + 1));
      edit.push((await now()) - started);
    } finally {
      await opened.close();
    }
  }
  printTimes(print, "file opened, every row there", opening, "10 s");
  printTimes(print, "log read by Use my sheet", reading, "none set");
  printTimes(print, "board put and answered", board, "3 s");
  printTimes(print, "one mark changed, seen on the board", edit, "3 s");
}
