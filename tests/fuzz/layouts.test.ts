/** A short run of `npm run fuzz -- layouts`, always the same. */
import { judge, judgeMany } from "./layouts";
import { drawLog } from "./drawn-logs";

test("no drawn log is read wrong without a word", () => {
  const { outcomes, wrong } = judgeMany(1, 1500);
  expect(wrong).toEqual([]);
  expect(outcomes.wrong).toBe(0);
  // Asking about everything would be no reading.
  expect(outcomes.right).toBeGreaterThan(300);
});

test.each([60001074, 70007532, 70010898, 80004437, 80008284])("log %d was wrong without a word once", (seed) => {
  expect(judge(drawLog(seed)).outcome).not.toBe("wrong");
});

test("the judge sees a board that is wrong", () => {
  const seed = Array.from({ length: 200 }, (_, index) => index).find((one) => judge(drawLog(one)).outcome === "right");
  const drawn = drawLog(seed ?? 0);
  const [first, ...others] = drawn.rows;
  if (!first) throw new Error("An empty log");
  expect(judge({ ...drawn, rows: [{ ...first, athlete: "Somebody else" }, ...others] }).outcome).toBe("wrong");
  expect(judge({ ...drawn, rows: others }).outcome).toBe("wrong");
});
