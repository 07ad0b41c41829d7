/**
 * `npm run soak`: a season that grows to 100,000 rows in the try-out page, in a real browser, with 10,000 edits: blocks
 * pasted below the log, values put into cells, some typed and taken back by the keyboard. Tells how the memory goes and
 * how long the page takes, and fails where the page's log is not what was typed, or its board is not what the built
 * functions answer over that log. `-- --rows 5000 --edits 500 --seed 7` for less, `--typed 100` for more edits by the
 * keyboard among each 500 (each is worked out by itself, as for a coach who types). The whole takes under half an hour.
 */
import { numberOf, readCommand } from "../../src/tools/command-line";
import { isDeepStrictEqual } from "node:util";
import type { CDPSession } from "playwright-core";
import type {} from "../../src/page/page-window";
import { build } from "../../src/tools/build";
import {
  ATHLETE,
  boards,
  FIRST_LOG_ROW,
  LOG_COLUMNS,
  type LogRow,
  MARKS,
  MINUTES,
  NOTE,
  readLog,
} from "../browser/log-and-board";
import { type OpenPage, openTryOutPage } from "../browser/page";
import { seededRandom } from "./random";
import { allowNamedFunctions } from "./times";

const LOG = "Practice 2026";
const BOARD = "Board 2026";
/** Edits between two moments at which everything is worked out and the board is looked at. */
const BURST = 500;
/** The share of the edits during which the log grows; memory is to be flat after them. */
const GROWING = 0.1;

interface Plan {
  readonly rows: number;
  readonly edits: number;
  readonly seed: number;
  /** Times of typing a mark twice and taking one of them back, among each burst. */
  readonly typed: number;
}

function planOf(words: readonly string[]): Plan {
  const { values } = readCommand(words, {
    usage: "npm run soak -- [--rows 5000] [--edits 1000] [--typed 100] [--seed 7]",
    options: {
      rows: { type: "string" },
      edits: { type: "string" },
      seed: { type: "string" },
      typed: { type: "string" },
    },
  });
  return {
    rows: numberOf("--rows", values.rows, { otherwise: 100_000 }),
    edits: numberOf("--edits", values.edits, { otherwise: 10_000 }),
    seed: numberOf("--seed", values.seed, { otherwise: 1 }),
    typed: numberOf("--typed", values.typed, { otherwise: 1 }),
  };
}

class Soak {
  private readonly random: () => number;
  private edits = 0;

  private constructor(
    private readonly opened: OpenPage,
    private readonly cdp: CDPSession,
    private readonly log: LogRow[],
    private readonly plan: Plan,
  ) {
    this.random = seededRandom(plan.seed);
  }

  static async open(plan: Plan): Promise<Soak> {
    const opened = await openTryOutPage();
    const { page } = opened;
    await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await allowNamedFunctions(page);
    const cdp = await page.context().newCDPSession(page);
    return new Soak(opened, cdp, await readLog(opened, LOG), plan);
  }

  async run(): Promise<boolean> {
    const { rows, edits } = this.plan;
    const bursts = Math.ceil(edits / BURST);
    const growing = Math.max(1, Math.round(bursts * GROWING));
    const firstRows = this.log.length;
    const begun = Date.now();
    const heaps: number[] = [];
    let right = true;
    console.log("| edits | rows | heap MB | a burst s | worked out after it s | board |");
    console.log("| --- | --- | --- | --- | --- | --- |");
    for (let burst = 1; burst <= bursts; burst += 1) {
      const started = Date.now();
      const wanted = burst <= growing ? Math.round(firstRows + ((rows - firstRows) * burst) / growing) : 0;
      if (wanted > this.log.length) await this.paste(wanted - this.log.length);
      for (let run = 0; run < this.plan.typed; run += 1) await this.keyboardRun();
      await this.editRun(Math.max(0, burst * BURST - this.edits));
      const typed = Date.now();
      await this.opened.ready();
      const ready = Date.now();
      const same = await this.boardIsRight();
      right &&= same;
      heaps.push(await this.heap());
      if (burst <= growing || burst % Math.max(1, Math.round(bursts / 20)) === 0 || !same) {
        const [took, waited] = [(typed - started) / 1000, (ready - typed) / 1000];
        console.log(
          `| ${this.edits} | ${this.log.length} | ${heaps.at(-1)?.toFixed(0)} | ${took.toFixed(1)} | ${waited.toFixed(1)} | ${same ? "right" : "WRONG"} |`,
        );
      }
    }
    const later = heaps.slice(growing);
    const slope = slopeOf(later) * (1000 / BURST);
    console.log(
      `Memory after the first ${growing * BURST} edits: ${later[0]?.toFixed(0)} MB then, ${later.at(-1)?.toFixed(0)} MB at the end, ` +
        `lowest ${Math.min(...later).toFixed(0)}, highest ${Math.max(...later).toFixed(0)}, ${slope.toFixed(2)} MB more for each 1,000 edits.`,
    );
    const wrongCells = await this.wrongCells();
    console.log(`Cells of the log that are not as typed: ${wrongCells} of ${this.log.length * LOG_COLUMNS.length}.`);
    // Worked out once more from nothing, as the switch for empty cells has it done: the same answers.
    await this.opened.page.locator("details:has(input[name=empty]) > summary").click();
    await this.opened.page.locator('input[name="empty"][value="null"]').check();
    await this.opened.ready();
    const again = await this.boardIsRight();
    console.log(`The board, all worked out anew: ${again ? "the same" : "WRONG"}.`);
    console.log(
      `Complaints of the page: ${this.opened.problems.length}${this.opened.problems.slice(0, 3).join(" | ")}`,
    );
    console.log(`${this.edits} edits, ${this.log.length} rows, ${((Date.now() - begun) / 60_000).toFixed(1)} minutes.`);
    return right && again && wrongCells === 0 && this.opened.problems.length === 0;
  }

  close(): Promise<void> {
    return this.opened.close();
  }

  /** One edit is the paste of a whole block below the log, from another program's plain text. */
  private async paste(rows: number): Promise<void> {
    const first = this.log.length + FIRST_LOG_ROW;
    const block = Array.from({ length: rows }, (): LogRow => {
      const like = this.log[Math.floor(this.random() * 1000)] ?? [];
      return [46_480 + Math.floor(this.log.length / 1000), ...like.slice(ATHLETE, MARKS), this.marks(), 10, ""];
    });
    const text = block.map((row) => row.join("\t")).join("\n");
    await this.opened.goTo(LOG, `A${first}`);
    await this.opened.page.evaluate((words) => navigator.clipboard.writeText(words), text);
    await this.opened.page.keyboard.press("Control+V");
    this.log.push(...block);
    await this.shows(this.log.length - 1, MARKS);
    // The rows belong to the log once the board has counted them.
    await this.opened.ready();
    this.edits += 1;
  }

  /** Edits anywhere in the log: marks, minutes or notes, ten a frame, through the grid's own way of taking in a value. */
  private async editRun(length: number): Promise<void> {
    const edits = Array.from({ length }, () => this.change());
    await this.opened.page.evaluate(
      async ([sheet, list]) => {
        for (const [index, [at, value]] of list.entries()) {
          window.tryOutPage?.write(sheet, at, value);
          if (index % 10 === 9) await new Promise((drawn) => requestAnimationFrame(drawn));
        }
      },
      [LOG, edits.map(({ at, value }) => [at, value] as const)] as const,
    );
    this.edits += length;
  }

  /** Two edits by the keyboard, of which the second is taken back, which is a third. */
  private async keyboardRun(): Promise<void> {
    const { keyboard } = this.opened.page;
    for (const takesBack of [false, true]) {
      const { index, column, at, value, was } = this.change();
      await this.opened.goTo(LOG, at);
      await keyboard.type(String(value));
      await keyboard.press("Enter");
      await this.shows(index, column);
      if (!takesBack) continue;
      await keyboard.press("Control+Z");
      const row = this.log[index];
      if (row) row[column] = was;
      await this.shows(index, column);
    }
    this.edits += 3;
  }

  /** What to change next; in the record of what should be there it is changed at once. */
  private change() {
    const index = Math.floor(this.random() * this.log.length);
    const row = this.log[index];
    if (!row) throw new Error(`The log has no row ${index}.`);
    const kind = this.random();
    const column = kind < 0.8 ? MARKS : kind < 0.9 ? MINUTES : NOTE;
    const was = row[column] ?? "";
    const value = column === MARKS ? this.marks() : column === MINUTES ? 1 + Math.floor(this.random() * 90) : `note ${index}`; // prettier-ignore
    row[column] = value;
    return { index, column, at: `${LOG_COLUMNS[column] ?? ""}${index + FIRST_LOG_ROW}`, value, was };
  }

  private marks(): string {
    const length = 5 + Math.floor(this.random() * 8);
    return Array.from({ length }, () => (this.random() < 0.8 ? "c" : this.random() < 0.9 ? "d" : "b")).join("");
  }

  private async shows(index: number, column: number): Promise<void> {
    const wanted = String(this.log[index]?.[column] ?? "");
    await this.opened.page.waitForFunction(
      ([sheet, at, words]) => String(window.tryOutPage?.read(sheet, at) ?? "") === words,
      [LOG, `${LOG_COLUMNS[column] ?? ""}${index + FIRST_LOG_ROW}`, wanted] as const,
    );
  }

  /** The board on the sheet against the built function over what was typed, cell by cell. */
  private async boardIsRight(): Promise<boolean> {
    const { expected, shown } = await boards(this.opened, BOARD, this.log);
    return isDeepStrictEqual(shown, expected);
  }

  private async wrongCells(): Promise<number> {
    const now = await readLog(this.opened, LOG);
    let wrong = Math.abs(now.length - this.log.length) * LOG_COLUMNS.length;
    for (const [index, row] of this.log.entries()) {
      // Days are read as they are shown; the board has counted them.
      for (let place = ATHLETE; place <= NOTE; place += 1) {
        if (String(now[index]?.[place] ?? "") !== String(row[place] ?? "")) wrong += 1;
      }
    }
    return wrong;
  }

  /** What the page's scripts hold, in MB, after everything that is held no more has been let go. */
  private async heap(): Promise<number> {
    await this.cdp.send("HeapProfiler.collectGarbage");
    const { usedSize } = await this.cdp.send("Runtime.getHeapUsage");
    return usedSize / 1e6;
  }
}

/** How much each value is above the one before, by least squares. */
function slopeOf(values: readonly number[]): number {
  const middle = (values.length - 1) / 2;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  let above = 0;
  let below = 0;
  for (const [index, value] of values.entries()) {
    above += (index - middle) * (value - mean);
    below += (index - middle) ** 2;
  }
  return below === 0 ? 0 : above / below;
}

async function main(): Promise<void> {
  const plan = planOf(process.argv.slice(2));
  await build();
  const soak = await Soak.open(plan);
  try {
    if (!(await soak.run())) process.exitCode = 1;
  } finally {
    await soak.close();
  }
}

main().catch((error: unknown) => {
  console.error(error);
  process.exitCode = 1;
});
