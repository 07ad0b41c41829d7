import { readFileSync } from "node:fs";
import path from "node:path";
import { houseDiagram, roomOf, SOURCE } from "../../src/tools/house";

const from = (file: string, imported: string) => ({ file: path.join(SOURCE, file), imported });

test("an arrow for each room that looks into another, a box for each room, a list of its packages", () => {
  const drawn = houseDiagram([
    from("taskpane/pane.ts", "../core/marks"),
    from("taskpane/log-set/log-set.ts", "../../core/readiness"),
    from("taskpane/pane.ts", "./dom"),
    from("taskpane/pane.ts", "d3-array"),
    from("core/marks.ts", "@stdlib/math-base-special-betainc"),
    from("core/marks.ts", "@stdlib/stats-base-dists-normal-quantile"),
    from("workbook/writers/file.ts", "../season"),
    from("workbook/season.ts", "./season/names"),
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
    "taskpane taskpane",
    "workbook_writers workbook/writers",
    "workbook workbook",
    "core core",
    "taskpane --> core",
    "workbook_writers --> workbook",
    'taskpane -.- taskpaneLibraries(["d3-array"])',
    'core -.- coreLibraries(["@stdlib"])',
  ]);
});

test("a room without words is refused", () => {
  expect(() => houseDiagram([from("cellar/cellar.ts", "node:fs")])).toThrow("The room cellar has no words");
});

test("the writers are a room of their own", () => {
  expect(roomOf(path.join(SOURCE, "workbook/writers/file/xml.ts"))).toBe("workbook/writers");
  expect(roomOf(path.join(SOURCE, "workbook/season.ts"))).toBe("workbook");
});

test("the drawing in DEVELOPERS.md is the one of these sources", () => {
  expect(readFileSync(path.resolve(__dirname, "../../DEVELOPERS.md"), "utf8")).toContain(
    `\`\`\`mermaid\n${houseDiagram()}\n\`\`\``,
  );
});
