/** @jest-environment jsdom */
import type { Injector } from "@univerjs/core";
import { existsSync, readdirSync } from "node:fs";
import path from "node:path";
import { editingMends, engineMends } from "../../../src/grid/mends/engine-mends";
import { applyMends, type Mend } from "../../../src/grid/mends/mend";
import { mendsBeforeDrawing, mendsOnceDrawn } from "../../../src/grid/mends/page-mends";

// The grid's drawing is not loaded outside a browser.
jest.mock("@univerjs/sheets-ui", () => ({ EditingRenderController: jest.fn(), IEditorBridgeService: jest.fn() }));
jest.mock("@univerjs/ui", () => ({ IMenuManagerService: jest.fn() }));

const mends = [...new Set<Mend>([...engineMends, ...editingMends, ...mendsBeforeDrawing, ...mendsOnceDrawn])];
const folder = path.resolve(__dirname, "../../../src/grid/mends");

test.each(mends)("$name says why it is there and until when, and is named after its file", ({ name, why, until }) => {
  for (const sentence of [why, until]) expect(sentence).toMatch(/^[A-Z].{20,}\.$/);
  expect(existsSync(path.join(folder, `${name.split(",")[0] ?? ""}.ts`))).toBe(true);
});

test("every file of the folder is one of the list's, or is handed to the grid as it is made", () => {
  // What the grid is made with (words, menus, services), what needs an answer of the page's, and what the list is made of.
  const others = [
    ...["grid-words", "hidden-menus", "steady-menus", "theme-sheet"],
    ...["refused-values", "typed-days"],
    ...["engine-mends", "mend", "page-mends", "row-order"],
  ];
  const files = readdirSync(folder).map((file) => file.replace(/\.ts$/, ""));
  expect(files.sort()).toEqual([...new Set([...mends.map(({ name }) => name.split(",")[0]), ...others])].sort());
});

/** A grid in which nothing is where it was: each class answers something else, or is gone. */
const changed = (get: () => unknown): Injector => ({ get }) as unknown as Injector;

test.each([
  ["has lost its classes", changed(() => { throw new Error("Not registered."); })], // prettier-ignore
  ["answers objects without what is reached for", changed(() => ({}))],
  ["answers nothing", changed(() => undefined)],
])("a grid that %s is opened all the same, without what cannot be mended", (_, injector) => {
  const all = [...mendsBeforeDrawing, ...mendsOnceDrawn];
  const grid = { injector, api: {} as never, tell: () => undefined, calculate: () => undefined };
  expect(applyMends(all, grid)).toEqual(all.map(({ name }) => name));
});
