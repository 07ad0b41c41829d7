import { findLayout } from "../../../src/core/log-layout/find-layout";
import { turnedDays } from "../../../src/core/log-layout/turned-days";
import { addressOf, day, sheet } from "./sheets";

function turnedIn(days: readonly (string | ReturnType<typeof day>)[]): readonly string[] {
  const block = sheet("A1", [
    ["Date", "Athlete", "Trick", "Marks"],
    ...days.map((one) => [one, "M.K.", "Two spin", "ccd"]),
  ]);
  const { cells, count } = turnedDays(block, findLayout(block).mapping);
  expect(count).toBe(cells.length);
  return cells.map(addressOf);
}

// 6.10. and 3.11. typed where the month is read first are 10 June and 11 March.
const [june, march] = [day("2025-06-10"), day("2025-03-11")];

test.each<[because: string, days: Parameters<typeof turnedIn>[0], turned: readonly string[]]>([
  ["dates up to the 12th beside texts past it", [june, "13.10.2025", "20.10.2025", march, "17.11.2025"], ["A2", "A5"]],
  ["a date past the 12th speaks against it", [june, "13.10.2025", "20.10.2025", day("2025-10-27"), "17.11.2025"], []],
  [
    "so does a text that would have been read",
    [june, "13.10.2025", "20.10.2025", march, "3.11.2025", "17.11.2025"],
    [],
  ],
  [
    "two texts, between which the dates come to lie once they are turned back",
    [june, "13.10.2025", "20.10.2025", march],
    ["A2", "A5"],
  ],
  ["one date alike", [june, "13.10.2025", "20.10.2025", "17.11.2025"], ["A2"]],
  ["two texts that lie nearer to the dates as they stand", [june, "13.6.2025", "20.6.2025", day("2025-06-12")], []],
  [
    "texts in the international order are read by every computer",
    [june, march, "2025-10-13", "2025-10-20", "2025-10-27"],
    [],
  ],
  ["real dates alone", [june, march, day("2025-10-08")], []],
  [
    "real dates alone, a month apart each and days apart once turned back",
    [day("2025-03-09"), day("2025-05-09"), day("2025-08-09"), day("2025-12-09")],
    ["A2", "A3", "A4", "A5"],
  ],
])("%s", (_, days, turned) => {
  expect(turnedIn(days)).toEqual(turned);
});
