import { seasonInView, seasonOfSheet } from "../../../src/taskpane/season/season-in-view";

test.each<[sheet: string, season: string | undefined]>([
  ["Practice 2027", "2027"],
  ["Toss lab 2027", "2027"],
  ["M.K. 2026", "2026"],
  ["Board A 2027", "A_2027"],
  ["board a 2027", "A_2027"],
  ["Season 2026-27", "2026_27"],
  ["2027", undefined],
  ["Our log", undefined],
  ["Practice 2028", undefined],
])("the sheet %p is of the season %p", (sheet, season) => {
  expect(seasonOfSheet(sheet, ["2026", "2027", "A_2027", "2026_27"])).toBe(season);
});

test("a season is told when it comes into view, and not again while it stays there", async () => {
  let sheet = "Our log";
  const view = seasonInView({ sheetInView: () => Promise.resolve(sheet) });
  const turned = async (to: string): Promise<string | undefined> => {
    sheet = to;
    return view.turnedTo(["2026", "2027"]);
  };
  expect(await turned("Our log")).toBeUndefined();
  expect(await turned("Board 2027")).toBe("2027");
  expect(await turned("Practice 2027")).toBeUndefined();
  expect(await turned("Our log")).toBeUndefined();
  expect(await turned("Board 2026")).toBe("2026");
  expect(await turned("Board 2027")).toBe("2027");
});
