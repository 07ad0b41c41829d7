import { CalmChanges } from "../../../src/taskpane/host/calm-changes";

beforeEach(() => jest.useFakeTimers());
afterEach(() => jest.useRealTimers());

test("many changes are told once, when nothing has changed for a while", async () => {
  const changes = new CalmChanges({ pause: 400, now: () => 0 });
  const told = jest.fn();
  changes.add(told);
  for (let key = 0; key < 20; key += 1) {
    changes.changed();
    await jest.advanceTimersByTimeAsync(100);
  }
  expect(told).not.toHaveBeenCalled();
  await jest.advanceTimersByTimeAsync(400);
  expect(told).toHaveBeenCalledTimes(1);
});

test("a change during the reading is told after it, and the reading is not begun twice at once", async () => {
  const changes = new CalmChanges({ pause: 10, now: () => 0 });
  let finish: () => void = () => undefined;
  const told = jest.fn(() => new Promise<void>((resolve) => (finish = resolve)));
  changes.add(told);
  changes.changed();
  await jest.advanceTimersByTimeAsync(10);
  changes.changed();
  changes.changed();
  await jest.advanceTimersByTimeAsync(1000);
  expect(told).toHaveBeenCalledTimes(1);
  finish();
  await jest.advanceTimersByTimeAsync(10);
  expect(told).toHaveBeenCalledTimes(2);
});

test("the longer a reading takes, the longer the next one waits", async () => {
  let time = 0;
  const changes = new CalmChanges({ pause: 10, now: () => time });
  const told = jest.fn(() => void (time += 500));
  changes.add(told);
  changes.changed();
  await jest.advanceTimersByTimeAsync(10);
  changes.changed();
  await jest.advanceTimersByTimeAsync(1999);
  expect(told).toHaveBeenCalledTimes(1);
  await jest.advanceTimersByTimeAsync(1);
  expect(told).toHaveBeenCalledTimes(2);
});

test("it waits until the workbook is worked out, tells every listener, and stops where it is asked to", async () => {
  let calm: () => void = () => undefined;
  const changes = new CalmChanges({ pause: 10, calm: () => new Promise((resolve) => (calm = resolve)), now: () => 0 });
  const told: string[] = [];
  changes.add(() => {
    told.push("first");
    throw new Error("The sheet is gone");
  });
  const stop = changes.add(() => void told.push("second"));
  changes.changed();
  await jest.advanceTimersByTimeAsync(100);
  expect(told).toEqual([]);
  calm();
  await jest.advanceTimersByTimeAsync(0);
  expect(told).toEqual(["first", "second"]);
  stop();
  changes.changed();
  await jest.advanceTimersByTimeAsync(10);
  calm();
  await jest.advanceTimersByTimeAsync(0);
  expect(told).toEqual(["first", "second", "first"]);
});
