/**
 * `npm run keys`: twenty thousand keys typed into the log of the try-out page, in a real browser, at a person's pace (60 to
 * 150 ms a key) and faster than anybody types (20 to 60 ms), in a new season and in the sample one, with the machine quiet and
 * with other work on every core. Rows below the log, blank rows, rows put in between, cells typed over, lists that refuse; Tab,
 * Enter and arrows. Every cell that was typed into is then compared with what was typed; fails where a single one differs.
 * `-- --keys 2000` for less, `--human 0.5` for another share of the keys at a person's pace, `--seed 7`, `--from 3` to go on
 * with the third line of the table; `--long 1000` for as many keys more in a log of 50,000 rows, which is worked out for
 * seconds at a time meanwhile.
 */
import { numberOf, readCommand } from "../../src/tools/command-line";
import { type ChildProcess, spawn } from "node:child_process";
import { availableParallelism } from "node:os";
import type { Page } from "playwright-core";

import type {} from "../../src/page/page-window";
import { build } from "../../src/tools/build";
import { type OpenPage, openTryOutPage } from "../browser/page";
import {
  ATHLETES,
  buildSeason,
  keysOfRow,
  type Pace,
  pressRowsAbove,
  STAGES,
  TRICKS,
  typeKeys,
} from "../browser/typing";
import { typeIntoLongLog } from "./keys-long-log";
import { seededRandom } from "./random";
import { allowNamedFunctions } from "./times";

const PACES: Readonly<Record<string, Pace>> = { human: [60, 150], fast: [20, 60] };
const FIRST_ROW = 5;
const [MARKS_COLUMN, LAST_COLUMN] = ["E", "F"] as const;
const COLUMNS = "ABCDEF";
/** A row that the page was asked to show lies this far below the top of the grid, in pixels, where it had to scroll for it. */
const ROW_ASKED_FOR = 210;
const FIRST_ROW_THAT_SCROLLS = 20;
/** How long one piece of other work lasts: it ends by itself, whatever becomes of this program. */
const WORK_SECONDS = 20;

interface Plan {
  readonly keys: number;
  /** The share of the keys at a person's pace. */
  readonly human: number;
  readonly seed: number;
  /** Which phase is the first, from 1. */
  readonly from: number;
  /** How many keys are typed into a log of 50,000 rows. */
  readonly long: number;
}

interface Phase {
  readonly season: "new" | "sample";
  readonly pace: "human" | "fast";
  readonly busy: boolean;
  readonly keys: number;
}

interface Lost {
  readonly cell: string;
  readonly typed: string;
  readonly shown: string;
}

function planOf(words: readonly string[]): Plan {
  const { values } = readCommand(words, {
    usage: "npm run keys -- [--keys 2000] [--human 0.5] [--seed 7] [--from 3] [--long 1000]",
    options: {
      keys: { type: "string" },
      human: { type: "string" },
      seed: { type: "string" },
      from: { type: "string" },
      long: { type: "string" },
    },
  });
  return {
    keys: numberOf("--keys", values.keys, { otherwise: 20_000 }),
    human: numberOf("--human", values.human, { otherwise: 0.1, least: 0, most: 1, whole: false }),
    seed: numberOf("--seed", values.seed, { otherwise: 1 }),
    from: numberOf("--from", values.from, { otherwise: 1, least: 1, most: 8 }),
    long: numberOf("--long", values.long, { otherwise: 0 }),
  };
}

function phasesOf({ keys, human }: Plan): Phase[] {
  return (["new", "sample"] as const).flatMap((season) =>
    [false, true].flatMap((busy) =>
      (["fast", "human"] as const).map((pace) => ({
        season,
        pace,
        busy,
        keys: Math.round((keys / 4) * (pace === "human" ? human : 1 - human)),
      })),
    ),
  );
}

/** Busy programs, one for each core, each of which stops by itself and is followed by another until `stop`. */
function otherWork(): { stop(): void } {
  let stopped = false;
  const running = new Set<ChildProcess>();
  const start = (): void => {
    const code = `const end = Date.now() + ${String(WORK_SECONDS * 1000)}; while (Date.now() < end);`;
    const child = spawn(process.execPath, ["-e", code], { stdio: "ignore" });
    running.add(child);
    child.on("exit", () => {
      running.delete(child);
      if (!stopped) start();
    });
  };
  for (let core = 0; core < availableParallelism(); core += 1) start();
  return {
    stop: () => {
      stopped = true;
      for (const child of running) child.kill();
    },
  };
}

/** One season's log, and what its cells are to hold by their addresses. */
class Log {
  private readonly expected = new Map<string, string>();
  private keys = 0;
  private refusals = 0;
  private made = 0;

  private constructor(
    private readonly opened: OpenPage,
    private readonly sheet: string,
    private readonly pace: Pace,
    private readonly random: () => number,
    private next: number,
  ) {}

  static async open(opened: OpenPage, phase: Phase, random: () => number): Promise<Log> {
    if (phase.season === "new") await buildSeason(opened.page, "2031");
    await opened.ready();
    const names = await opened.page.evaluate(() => window.tryOutPage?.sheetNames() ?? []);
    const sheet = phase.season === "new" ? "Practice 2031" : names.find((name) => name.startsWith("Practice"));
    if (sheet === undefined) throw new Error("There is no log.");
    const next = await opened.page.evaluate(
      ([name, first]) => {
        let row: number = first;
        while (String(window.tryOutPage?.read(name, `A${String(row)}`) ?? "") !== "") row += 1;
        return row;
      },
      [sheet, FIRST_ROW] as const,
    );
    return new Log(opened, sheet, PACES[phase.pace] ?? [0, 0], random, next);
  }

  async type(keys: number): Promise<void> {
    while (this.keys < keys) {
      await this.below();
      await this.typedOver();
      await this.blankRow();
      await this.refusedAndPutRight();
      await this.insertedRow();
    }
  }

  async lost(): Promise<{ keys: number; cells: number; refusals: number; lost: Lost[] }> {
    await this.opened.ready();
    const cells = [...this.expected.keys()];
    const shown = await this.opened.page.evaluate(
      ([name, addresses]) => addresses.map((address) => String(window.tryOutPage?.read(name, address) ?? "")),
      [this.sheet, cells] as const,
    );
    const lost = cells.flatMap((cell, index): Lost[] => {
      const typed = this.expected.get(cell) ?? "";
      return shown[index] === typed ? [] : [{ cell, typed, shown: shown[index] ?? "" }];
    });
    return { keys: this.keys, cells: cells.length, refusals: this.refusals, lost };
  }

  /** Three rows just below the log, without a pause. */
  private async below(): Promise<void> {
    const rows = [this.row(), this.row(), this.row()];
    await this.opened.goTo(this.sheet, `A${String(this.next)}`);
    await this.press(rows.flatMap(keysOfRow));
    for (const row of rows) this.expectRow(this.next++, row);
    await this.arrived();
  }

  /** Marks of five rows that stand below each other, by the down arrow or Enter, and back up by the up arrow. */
  private async typedOver(): Promise<void> {
    const first = this.next - 5 - Math.floor(this.random() * Math.max(1, this.next - FIRST_ROW - 5));
    const row = Math.max(FIRST_ROW, first);
    await this.opened.goTo(this.sheet, `${MARKS_COLUMN}${String(row)}`);
    const down = this.random() < 0.5 ? "ArrowDown" : "Enter";
    const [down1, down2, back, side] = [this.marks(), this.marks(), this.marks(), String(this.minutes())];
    await this.press([...down1, down, ...down2, "ArrowUp", ...back, "ArrowRight", ...side, "ArrowLeft"]);
    this.expected.set(`${MARKS_COLUMN}${String(row)}`, back);
    this.expected.set(`${MARKS_COLUMN}${String(row + 1)}`, down2);
    this.expected.set(`${LAST_COLUMN}${String(row)}`, side);
    await this.arrived();
  }

  /** A row with a blank one above it; the log takes it in once the blank one is filled. */
  private async blankRow(): Promise<void> {
    const [beyond, between] = [this.row(), this.row()];
    await this.opened.goTo(this.sheet, `A${String(this.next + 1)}`);
    await this.press([...keysOfRow(beyond), "ArrowUp", "ArrowUp", ...keysOfRow(between)]);
    this.expectRow(this.next, between);
    this.expectRow(this.next + 1, beyond);
    this.next += 2;
    await this.arrived();
  }

  /** A stage that is in no list, with what comes after it, and then put right. */
  private async refusedAndPutRight(): Promise<void> {
    const row = this.next - 1;
    await this.opened.goTo(this.sheet, `D${String(row)}`);
    const wrong = "Jined";
    const blind = "ccd";
    await this.press([...wrong, "Tab", ...blind, "Enter"]);
    await this.opened.page.getByRole("alert").waitFor();
    this.refusals += 1;
    const marks = this.marks();
    const away = Array<string>(wrong.length + blind.length).fill("Backspace");
    await this.press([...away, ..."Joined", "Tab", ...marks, "Enter"]);
    this.expected.set(`D${String(row)}`, "Joined");
    this.expected.set(`${MARKS_COLUMN}${String(row)}`, marks);
    await this.arrived();
  }

  /** A row put in above the last but one by the menu that the right button opens, and filled. */
  private async insertedRow(): Promise<void> {
    const row = this.next - 2;
    if (row < FIRST_ROW_THAT_SCROLLS) return;
    const moved = [...this.expected].flatMap(([cell, value]): [string, string][] => {
      const line = Number(cell.slice(1));
      return line >= row ? [[`${cell.charAt(0)}${String(line + 1)}`, value]] : [];
    });
    const goTo = (): Promise<void> => this.opened.goTo(this.sheet, `A${String(row)}`);
    await insertRowAbove({ page: this.opened.page, goTo }, this.sheet, row);
    for (const [cell, value] of moved) this.expected.set(cell, value);
    this.next += 1;
    const values = this.row();
    await goTo();
    await this.press(keysOfRow(values));
    this.expectRow(row, values);
    await this.arrived();
  }

  private async press(keys: readonly string[]): Promise<void> {
    await typeKeys(this.opened.page, keys, this.pace, this.random);
    this.keys += keys.length;
  }

  /** Nobody waits between keys; between two pieces of work the page may catch up, so that the next begins at its cell. */
  private async arrived(): Promise<void> {
    await this.opened.ready();
  }

  private expectRow(row: number, values: readonly string[]): void {
    for (const [column, value] of values.entries()) {
      this.expected.set(`${COLUMNS.charAt(column)}${String(row)}`, column === 0 ? shownDay(value) : value);
    }
  }

  private row(): string[] {
    this.made += 1;
    const pick = <T>(list: readonly T[]): T => list[Math.floor(this.random() * list.length)] as T;
    const day = `2031-0${String(1 + (this.made % 9))}-1${String(this.made % 10)}`;
    return [day, pick(ATHLETES), pick(TRICKS), pick(STAGES), this.marks(), String(this.minutes())];
  }

  private marks(): string {
    if (this.random() < 0.2) return `${String(Math.floor(this.random() * 10))}/10`;
    return Array.from({ length: 5 + Math.floor(this.random() * 6) }, () => (this.random() < 0.8 ? "c" : "d")).join("");
  }

  private minutes(): number {
    return 10 + Math.floor(this.random() * 80);
  }
}

/** `2031-01-10` as the page shows it: `10 Jan 2031`. */
function shownDay(typed: string): string {
  const day = new Date(`${typed}T00:00:00Z`);
  // British short months are not all of three letters: Sept.
  const month = day.toLocaleString("en-US", { month: "short", timeZone: "UTC" });
  return `${String(day.getUTCDate())} ${month} ${String(day.getUTCFullYear())}`;
}

/** By the menu of the row's number, as one does with the mouse; only for rows that lie far enough below the first. */
async function insertRowAbove({ page, goTo }: { page: Page; goTo: () => Promise<void> }, sheet: string, row: number) {
  const at = (line: number): Promise<string> =>
    page.evaluate(([name, address]) => String(window.tryOutPage?.read(name, address) ?? ""), [
      sheet,
      `B${String(line)}`,
    ] as const);
  await goTo();
  const [held, grid] = [
    await at(row),
    await page.locator('#grid canvas[id^="univer-sheet-main-canvas"]').boundingBox(),
  ];
  await page.mouse.click((grid?.x ?? 0) + 20, (grid?.y ?? 0) + ROW_ASKED_FOR, { button: "right" });
  await pressRowsAbove(page);
  await page.waitForFunction(
    ([name, here, below, value]) =>
      String(window.tryOutPage?.read(name, here) ?? "") === "" && window.tryOutPage?.read(name, below) === value,
    [sheet, `B${String(row)}`, `B${String(row + 1)}`, held] as const,
  );
}

async function runPhase(phase: Phase, seed: number): Promise<boolean> {
  const begun = Date.now();
  const opened = await openTryOutPage();
  const work = phase.busy ? otherWork() : undefined;
  try {
    await allowNamedFunctions(opened.page);
    const log = await Log.open(opened, phase, seededRandom(seed));
    await log.type(phase.keys);
    const { keys, cells, refusals, lost } = await log.lost();
    const minutes = ((Date.now() - begun) / 60_000).toFixed(1);
    console.log(
      `| ${phase.season} | ${phase.pace} | ${phase.busy ? "busy" : "quiet"} | ${keys} | ${cells} | ${refusals} | ${lost.length} | ${minutes} |`,
    );
    for (const { cell, typed, shown } of lost) console.log(`LOST ${cell}: typed "${typed}", shows "${shown}"`);
    for (const problem of opened.problems) console.log(`COMPLAINT ${problem}`);
    return lost.length === 0 && opened.problems.length === 0;
  } finally {
    work?.stop();
    await opened.close();
  }
}

async function runLongLog(keys: number, seed: number): Promise<boolean> {
  const result = await typeIntoLongLog(keys, PACES["fast"] ?? [0, 0], seededRandom(seed));
  console.log(
    `50,000 rows: ${result.keys} keys, ${result.keysDuringCalculation} of them during ${result.calculations} calculations; ` +
      `${result.cells} cells compared, ${result.lost.length} lost.`,
  );
  for (const { cell, typed, shown } of result.lost) console.log(`LOST ${cell}: typed "${typed}", shows "${shown}"`);
  for (const problem of result.problems) console.log(`COMPLAINT ${problem}`);
  return result.lost.length === 0 && result.problems.length === 0;
}

async function main(): Promise<void> {
  const plan = planOf(process.argv.slice(2));
  await build();
  console.log("| season | pace | machine | keys | cells | refused | lost | minutes |");
  console.log("| --- | --- | --- | --- | --- | --- | --- | --- |");
  let right = true;
  for (const [index, phase] of phasesOf(plan).entries()) {
    if (index + 1 < plan.from) continue;
    if (phase.keys > 0 && !(await runPhase(phase, plan.seed + index))) right = false;
  }
  if (plan.long > 0 && !(await runLongLog(plan.long, plan.seed))) right = false;
  console.log(right ? "Every key arrived." : "Keys were lost.");
  if (!right) process.exitCode = 1;
}

main().catch((error: unknown) => {
  console.error(error);
  process.exitCode = 1;
});
