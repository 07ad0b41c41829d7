/**
 * Edits at any moment of the calculations that earlier ones have begun: once it is quiet, every answer in the workbook is what
 * a workbook opened anew works out.
 */
import { answersOf } from "../../src/grid/file/answers";
import { gridState } from "../../src/grid/file/grid-state";
import { type GridState, reportStates } from "../../src/grid/calculation-state";
import { tellOfVanishedSpills } from "../../src/grid/mends/vanished-spills";
import { toSnapshot } from "../../src/grid/adapter/grid-writer";
import { builtFunctions } from "../../src/tools/build-samples";
import { sampleRecords, sampleSeason, sampleSettings } from "../../src/workbook/sample/sample-season";
import { seededRandom } from "../benchmarks/random";
import { type Engine, openEngineOn } from "./engine";

jest.setTimeout(300_000);

const EDITS = 16;
const ROUNDS = 1;
const SEED = Number(process.env["PROPERTY_SEED"] ?? Date.now() % 1_000_000);
/** Longer than the engine gathers edits. */
const LONGEST_WAIT = 350;
const LOG_ROW = 5;
const ROUTINE_ROW = 7;

/** A calculation that is stopped leaves the channel open over which it drew breath, and node does not end while one is. */
const channels: MessageChannel[] = [];
const OwnChannel = globalThis.MessageChannel;

beforeAll(() => {
  globalThis.MessageChannel = class extends OwnChannel {
    constructor() {
      super();
      channels.push(this);
    }
  };
});

afterAll(() => {
  globalThis.MessageChannel = OwnChannel;
  for (const { port1 } of channels) port1.close();
});

const wait = (milliseconds: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Every answer, spilled ones too, and how far each formula spills. */
function answers({ api, injector }: Engine): Map<string, string> {
  const all = new Map<string, string>();
  for (const [sheet, { values, sizes }] of answersOf(gridState(api, injector))) {
    for (const [cell, value] of values) all.set(`${sheet} ${String(cell)}`, JSON.stringify(value));
    for (const [cell, size] of sizes) all.set(`${sheet} ${String(cell)} size`, size);
  }
  return all;
}

test(`${String(ROUNDS * EDITS)} edits of the sample season, a few of them while others are worked out`, async () => {
  const random = seededRandom(SEED);
  const one = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
  const engine = await openEngineOn(toSnapshot(sampleSeason()), builtFunctions());
  const { api, injector } = engine;
  let state: GridState = "calculating";
  reportStates(injector, { beginRun: () => undefined }, (now) => (state = now));
  tellOfVanishedSpills(api, injector, engine.calculate);
  /** Ready, and still so when what an answer brings about would have begun. */
  const quiet = async (): Promise<void> => {
    for (let calm = 0; calm < 4; calm = state === "ready" ? calm + 1 : 0) await wait(100);
  };
  const write = (sheet: string, at: string, value: string): void =>
    void api.getActiveWorkbook()?.getSheetByName(`${sheet} 2026`)?.getRange(at).setValue(value);
  const tricks = sampleSettings.tricks.map(({ name }) => name);
  const logged = (): string => String(LOG_ROW + Math.floor(random() * sampleRecords.practice.length));
  const edits: readonly (() => void)[] = [
    () => write("Practice", `E${logged()}`, one(["ccccc ccccc", "ddddd", "x", "", "8/10"])),
    () => write("Practice", `B${logged()}`, one(["M.K.", "A.R.", "Z.Z.", ""])),
    () => write("Practice", `C${logged()}`, one(["New trick", ...tricks])),
    () => write("Routine", `B${String(ROUTINE_ROW + Math.floor(random() * 13))}`, one(tricks)),
    ...(["Contests S6", "Week B5", "Routine B3"] as const).map((place) => () => {
      const [sheet = "", at = ""] = place.split(" ");
      write(sheet, at, one(sampleSettings.athletes));
    }),
  ];
  for (let round = 0; round < ROUNDS; round += 1) {
    for (let edit = 0; edit < EDITS; edit += 1) {
      one(edits)();
      await wait(random() * LONGEST_WAIT);
    }
    await quiet();
    const workbook = api.getActiveWorkbook()?.save();
    if (workbook === undefined) throw new Error("There is no workbook.");
    const fresh = await openEngineOn(workbook, builtFunctions());
    const expected = answers(fresh);
    fresh.close();
    const shown = answers(engine);
    expect(expected.size).toBeGreaterThan(5000);
    const differing = [...expected.keys(), ...shown.keys()].filter((key) => expected.get(key) !== shown.get(key));
    expect({ seed: SEED, round, differing }).toEqual({ seed: SEED, round, differing: [] });
  }
  engine.close();
});
