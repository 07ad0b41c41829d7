/** The Gym sheet plans for everybody what the Week sheet plans for one: here both are asked about the same athletes. */
import { calculate } from "../../src/grid/headless";
import { gymAthletes } from "../../src/taskpane/parts/hand-out/gym-plan";
import { readPictures } from "../../src/taskpane/parts/pictures/picture-data";
import { builtFunctions } from "../../src/tools/build-samples";
import { sampleRecords, sampleSettings } from "../../src/workbook/sample/sample-season";
import type { Focus } from "../../src/workbook/season/records";
import { seasonPlan } from "../../src/workbook/season/season";
import { memoryHost } from "../taskpane/memory-host";

jest.setTimeout(300_000);

const SET = 10;

test.each(["M.K.", "D.L."])("%s has the sets of the Week sheet, in its order", async (athlete) => {
  const focus = { ...(sampleRecords.focus as Focus), athlete, weekMinutes: 75 };
  const plan = seasonPlan(sampleSettings, { ...sampleRecords, focus });
  const season = await calculate(plan, builtFunctions());
  const week = season.get("Week 2026")?.values;
  const on = (values: typeof week, address: string): string | number => {
    const value = values?.get(address);
    return value === undefined ? "" : value.kind === "number" ? value.value : value.kind === "text" ? value.text : "";
  };
  const sheet = Array.from({ length: 60 }, (_, row) => [
    on(week, `D${String(5 + row)}`),
    on(week, `E${String(5 + row)}`),
  ])
    .filter(([, attempts]) => Number(attempts) > 0)
    .map(([trick, attempts]) => ({ trick, sets: Number(attempts) / SET }));
  expect(sheet.length).toBeGreaterThan(2);

  const danced = sampleRecords.routine.map(({ trick }) => trick);
  const { season: read } = await readPictures(memoryHost([plan]), "2026");
  const found = gymAthletes(read, danced, 75);
  expect(found.map((one) => one.athlete)).toEqual(sampleSettings.athletes);
  expect(found.find((one) => one.athlete === athlete)?.lines).toEqual(sheet);
});
