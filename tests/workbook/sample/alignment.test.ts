/** Where numbers, days and words stand in the sample workbooks, as another library reads them, worked out answers among them. */
import { readFileSync } from "node:fs";
import path from "node:path";
import { Workbook, type Cell, type Worksheet } from "@cj-tech-master/excelts";

const FOLDER = path.join(__dirname, "../../../sample-workbooks");

async function sheetsOf(file: string): Promise<readonly Worksheet[]> {
  const workbook = new Workbook();
  await workbook.xlsx.load(readFileSync(path.join(FOLDER, file)));
  return workbook.worksheets;
}

/** A day or a number, typed or worked out. */
function isNumeric({ value }: Cell): boolean {
  const shown: unknown = typeof value === "object" && value !== null && "result" in value ? value.result : value;
  return typeof shown === "number" || shown instanceof Date;
}

const side = (cell: Cell): string => cell.alignment?.horizontal ?? "as it is";

/** What follows a ± stands beside the number on its left. */
const isAddition = (cell: Cell): boolean => String(cell.numFmt).includes("±");

test.each(["season.xlsx", "empty-season.xlsx"])("%s: no number stands left", async (file) => {
  const left: string[] = [];
  let numbers = 0;
  for (const sheet of await sheetsOf(file)) {
    sheet.eachRow((row) =>
      row.eachCell((cell) => {
        if (!isNumeric(cell) || isAddition(cell)) return;
        numbers += 1;
        if (side(cell) === "left") left.push(`${sheet.name}!${cell.address}`);
      }),
    );
  }
  expect(left).toEqual([]);
  expect(numbers).toBeGreaterThan(100);
});

test("the title of each sheet stands left, over a column of days too", async () => {
  for (const sheet of await sheetsOf("season.xlsx"))
    expect([sheet.name, side(sheet.getCell("A1"))]).toEqual([sheet.name, "left"]);
});

describe("season.xlsx: the headings stand as their columns do", () => {
  let sheets: readonly Worksheet[];
  beforeAll(async () => {
    sheets = await sheetsOf("season.xlsx");
  });

  const RIGHT = [
    // tables
    ["Practice", "Date"],
    ["Practice", "Minutes"],
    ["Tricks", "Body counts"],
    ["Tricks", "Airtime (s)"],
    ["Contests", "Score"],
    ["Contests", "Drops each"],
    ["Routine", "Order"],
    ["Routine", "Rate"],
    // spills
    ["Board", "Attempts"],
    ["Board", "Recent rate"],
    ["Board", "Chance"],
    ["Board", "Best streak"],
    ["Board", "Last practised"],
    ["Board", "Date"],
    ["Board", "Standard"],
    ["Board", "Run-through"],
    ["Week", "Attempts to do"],
    ["Week", "Would catch"],
    ["Routine", "Clean if sure"],
    ["Routine", "Starts at"],
    ["Contests", "By chance"],
  ] as const;
  const LEFT = [
    ["Practice", "Marks"],
    ["Practice", "Note"],
    ["Tricks", "Release"],
    ["Board", "Athlete"],
    ["Board", "Last set"],
    ["Board", "Status"],
    ["Board", "Next step"],
    ["Board", "Breaks at"],
    ["Week", "Practise"],
    ["Routine", "In time"],
  ] as const;

  test.each([
    ...RIGHT.map(([sheet, heading]) => ({ sheet, heading, stands: "right" })),
    ...LEFT.map(([sheet, heading]) => ({ sheet, heading, stands: "left" })),
  ])("$sheet, $heading: $stands", ({ sheet: name, heading, stands }) => {
    const sheet = sheets.find((one) => one.name.startsWith(name));
    const found: Cell[] = [];
    sheet?.eachRow((row) =>
      row.eachCell((cell) => {
        if (
          shownText(cell) === heading &&
          cell.font?.bold === true &&
          cell.fill?.type === "pattern" &&
          cell.fill.pattern === "solid"
        )
          found.push(cell);
      }),
    );
    const [cell] = found;
    if (!sheet || !cell) throw new Error(`${name} has no heading ${heading}.`);
    const below = sheet.getCell(Number(cell.row) + 1, Number(cell.col));
    expect([side(cell), side(below)]).toEqual([stands, stands]);
    // Under it to the letter, a table's button beside both.
    expect(cell.alignment?.indent ?? 0).toBe(below.alignment?.indent ?? 0);
    if (stands === "right") expect(cell.alignment?.indent).toBeGreaterThan(0);
  });
});

function shownText({ value }: Cell): unknown {
  return typeof value === "object" && value !== null && "result" in value ? value.result : value;
}
