import { readFileSync } from "node:fs";
import path from "node:path";
import { chamberOf, houseDiagram, roomOf, SOURCE } from "../../src/tools/house";

const from = (file: string, imported: string) => ({ file: path.join(SOURCE, file), imported });

test("an arrow for each room that looks into another, a box for each room, a list of its packages", () => {
  const drawn = houseDiagram([
    from("taskpane/main.ts", "../core/marks"),
    from("taskpane/season/season-data.ts", "../../core/readiness"),
    from("taskpane/main.ts", "./frame/pane"),
    from("taskpane/main.ts", "d3-array"),
    from("core/marks.ts", "@stdlib/math-base-special-betainc"),
    from("core/marks.ts", "@stdlib/stats-base-dists-normal-quantile"),
    from("xlsx/write-plan.ts", "../workbook/plan/schema"),
    from("workbook/season/season.ts", "./names"),
    from("tools/build.ts", "webpack"),
    from("tools/build.ts", "node:fs"),
  ]);
  expect(
    drawn
      .split("\n")
      .slice(1)
      .map((line) => line.trim().replace(/\["<b>(.*?)<\/b>.*/, " $1")),
  ).toEqual([
    "tools tools",
    "xlsx xlsx",
    "taskpane taskpane",
    "workbook workbook",
    "core core",
    "xlsx --> workbook",
    "taskpane --> core",
    'taskpane -.- taskpaneLibraries(["d3-array"])',
    'core -.- coreLibraries(["@stdlib"])',
  ]);
});

test("a room without words is refused", () => {
  expect(() => houseDiagram([from("cellar/cellar.ts", "node:fs")])).toThrow("The room cellar has no words");
});

test("a file lies in a room, and in a chamber of it where it lies deeper", () => {
  expect(roomOf(path.join(SOURCE, "taskpane/parts/tempo/tempo-part.ts"))).toBe("taskpane");
  expect(chamberOf(path.join(SOURCE, "taskpane/parts/tempo/tempo-part.ts"))).toBe("parts");
  expect(chamberOf(path.join(SOURCE, "taskpane/main.ts"))).toBeUndefined();
});

test("the drawing in DEVELOPERS.md is the one of these sources", () => {
  expect(readFileSync(path.resolve(__dirname, "../../DEVELOPERS.md"), "utf8")).toContain(
    `\`\`\`mermaid\n${houseDiagram()}\n\`\`\``,
  );
});
