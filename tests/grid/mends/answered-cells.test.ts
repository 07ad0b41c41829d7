import { ICommandService } from "@univerjs/core";
import { SetFormulaCalculationResultMutation } from "@univerjs/engine-formula";

import { answerFormulasOnly } from "../../../src/grid/mends/answered-cells";
import { openCells } from "../engine";

/** C1 fills C1:C3 with the doubles of A1:A3; D1 is one more than A1. */
async function open(mended: boolean) {
  const { univer, api, injector, read, write } = openCells({
    0: { 0: { v: 1 }, 2: { f: "=A1:A3*2" }, 3: { f: "=A1+1" } },
    1: { 0: { v: 2 } },
    2: { 0: { v: 3 } },
  });
  if (mended) answerFormulasOnly(injector);
  const settle = async (change: () => void): Promise<void> => {
    const end = api.getFormula().onCalculationEnd();
    change();
    await end;
  };
  await settle(() => api.getFormula().executeCalculation());
  return {
    univer,
    settle,
    write,
    read,
    /** Types at the last moment: all is worked out, and no answer stands in its cell yet. */
    meanwhile: (typed: () => void): void => {
      const listener = injector.get(ICommandService).beforeCommandExecuted(({ id }) => {
        if (id !== SetFormulaCalculationResultMutation.id) return;
        listener.dispose();
        typed();
      });
    },
  };
}

test.each([
  ["typed anew", "C2", "later", "later"],
  ["typed into what was empty", "C3", "too", "too"],
  ["emptied", "C2", "", ""],
  ["typed over a formula", "D1", "noted", "noted"],
])("what stands in a formula's way and is %s meanwhile stays so", async (_, at, typed, shown) => {
  const { univer, settle, write, read, meanwhile } = await open(true);
  meanwhile(() => write(at, typed));
  await settle(() => {
    write("C2", "x");
    write("A1", 5);
  });
  expect([read("C1"), read(at)]).toEqual(["#SPILL!", shown]);
  univer.dispose();
});

test("answers come as before: into formulas, and into what they fill once nothing is in their way", async () => {
  const { univer, settle, write, read } = await open(true);
  expect(["C1", "C2", "C3", "D1"].map(read)).toEqual([2, 4, 6, 2]);
  await settle(() => write("C2", "x"));
  expect(["C1", "C2", "C3", "D1"].map((at) => read(at) ?? "")).toEqual(["#SPILL!", "x", "", 2]);
  await settle(() => {
    write("C2", "");
    write("A1", 7);
  });
  expect(["C1", "C2", "C3", "D1"].map(read)).toEqual([14, 4, 6, 8]);
  univer.dispose();
});

test("the engine alone writes back what was there: else there is nothing to mend", async () => {
  const { univer, settle, write, read, meanwhile } = await open(false);
  meanwhile(() => write("C2", "later"));
  await settle(() => write("C2", "x"));
  expect(read("C2")).toBe("x");
  univer.dispose();
});
