/** A file opened in the grid's own model, to be edited there and saved, as the page does it. */
import type { Injector } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";

import { type Answers, answersOf } from "../../../src/grid/file/answers";
import { gridState } from "../../../src/grid/file/grid-state";
import { type ReadingOptions, readWorkbook, toGridWorkbook } from "../../../src/grid/file/open";
import { type SavedWorkbook, saveWorkbook } from "../../../src/grid/file/save";
import { WorkbookPackage } from "../../../src/xlsx/package/workbook-package";
import { type Engine, openEngineOn } from "../engine";
import { testOptions } from "./parts";

type Sheet = NonNullable<ReturnType<NonNullable<ReturnType<FUniver["getActiveWorkbook"]>>["getSheetByName"]>>;

export interface Workbench {
  readonly engine: Engine;
  readonly injector: Injector;
  readonly source: WorkbookPackage;
  sheet(name: string): Sheet;
  /** Types into a cell, as a formula where it begins with `=`, and waits until everything is worked out. */
  type(sheet: string, address: string, value: string | number | boolean): Promise<void>;
  settled(): Promise<void>;
  save(): SavedWorkbook;
  close(): void;
}

export async function openFile(file: Uint8Array, options: ReadingOptions = testOptions): Promise<Workbench> {
  const source = WorkbookPackage.open(file);
  const snapshot = toGridWorkbook(readWorkbook(source, options), "Book");
  const engine = await openEngineOn(snapshot);
  const { api, injector } = engine;
  // As the page does.
  const shown = api.getActiveWorkbook()?.getSheetBySheetId(String(snapshot.custom?.["activeSheet"]));
  if (shown) api.getActiveWorkbook()?.setActiveSheet(shown);
  const opening: Answers = answersOf(gridState(api, injector));
  const sheet = (name: string): Sheet => {
    const found = api.getActiveWorkbook()?.getSheetByName(name);
    if (!found) throw new Error(`There is no sheet ${name}.`);
    return found;
  };
  const settled = async (): Promise<void> => {
    const done = engine.settled();
    engine.calculate();
    await done;
  };
  return {
    engine,
    injector,
    source,
    sheet,
    type: async (name, address, value) => {
      const range = sheet(name).getRange(address);
      if (typeof value === "string" && value.startsWith("=")) range.setFormula(value);
      else range.setValue(value);
      await settled();
    },
    settled,
    save: () => saveWorkbook(source, options, gridState(api, injector), opening),
    close: () => engine.close(),
  };
}

/** The parts of two packages that are not the same: by name, before and after; undefined for one that is not there. */
export function changedParts(
  before: WorkbookPackage,
  after: WorkbookPackage,
): Map<string, readonly [string | undefined, string | undefined]> {
  const changed = new Map<string, readonly [string | undefined, string | undefined]>();
  for (const name of new Set([...before.names(), ...after.names()])) {
    const was = before.has(name) ? before.bytes(name) : undefined;
    const is = after.has(name) ? after.bytes(name) : undefined;
    if (was && is && Buffer.from(was).equals(Buffer.from(is))) continue;
    changed.set(name, [was && new TextDecoder().decode(was), is && new TextDecoder().decode(is)]);
  }
  return changed;
}
