/** The copy with answers only, from the grid: what it holds is what is worked out now, not what the file said. */
import { gridState } from "../../../src/grid/file/grid-state";
import { WorkbookFile } from "../../../src/grid/file/workbook-file";
import { bookFile, type BookParts, testOptions } from "./parts";
import { openFile, type Workbench } from "./workbench";

let bench: Workbench | undefined;

afterEach(() => {
  bench?.close();
  bench = undefined;
});

async function open(book: BookParts): Promise<{ opened: Workbench; file: WorkbookFile; rows: () => string }> {
  const bytes = bookFile(book);
  const opened = (bench = await openFile(bytes));
  const { file } = WorkbookFile.open("Book.xlsx", bytes, testOptions);
  const rows = (): string => {
    const copy = file.saveAnswers(gridState(opened.engine.api, opened.injector));
    expect(copy.losses).toEqual([]);
    return /<sheetData>(.*)<\/sheetData>/s.exec(copy.package.text("xl/worksheets/sheet1.xml"))?.[1] ?? "";
  };
  return { opened, file, rows };
}

const row = (...cells: readonly string[]): BookParts => ({
  sheets: [{ name: "Log", rows: `<row r="1">${cells.join("")}</row>` }],
});

test("a day that the file worked out long ago is the day of now", async () => {
  const { opened, rows } = await open(
    row('<c r="A1"><f>TODAY()</f><v>40000</v></c>', '<c r="B1"><f>A1+1</f><v>40001</v></c>'),
  );
  // Save leaves it to the program that opens the file.
  expect(opened.save().package.isChanged).toBe(false);
  const shown = (address: string): string => String(opened.sheet("Log").getRange(address).getValue());
  expect(Number(shown("A1"))).toBeGreaterThan(46000);
  expect(rows()).toBe(`<row r="1"><c r="A1"><v>${shown("A1")}</v></c><c r="B1"><v>${shown("B1")}</v></c></row>`);
});

test("what the file never worked out is worked out; an empty cell's answer is 0, and a text without letters none", async () => {
  const { rows } = await open(
    row('<c r="A1"><f>1+1</f></c>', '<c r="B1"><f>Z9</f><v>0</v></c>', '<c r="C1" t="str"><f>""</f><v></v></c>', '<c r="D1"><f>1/0</f></c>', '<c r="E1"><f>A1=2</f></c>'), // prettier-ignore
  );
  expect(rows()).toBe(
    '<row r="1"><c r="A1"><v>2</v></c><c r="B1"><v>0</v></c><c r="C1" t="str"><v></v></c><c r="D1" t="e"><v>#DIV/0!</v></c><c r="E1" t="b"><v>1</v></c></row>',
  );
});

test("a formula that cannot be worked out here keeps its last answer", async () => {
  const { rows } = await open(row('<c r="A1"><f>[1]Other!A1*2</f><v>7</v></c>'));
  expect(rows()).toBe('<row r="1"><c r="A1"><v>7</v></c></row>');
});

test("a spill stands there as it is after an edit, though its first cell is the same; the workbook keeps its formulas", async () => {
  const { opened, file, rows } = await open({
    sheets: [
      {
        name: "Log",
        rows:
          '<row r="1"><c r="A1" t="str"><v>c</v></c><c r="C1" t="str" cm="1"><f t="array" ref="C1:D3">_xldudf_TWIRL_TALLY(A1:A5)</f><v>Mark</v></c><c r="D1" t="str"><v>Count</v></c></row>' +
          '<row r="2"><c r="A2" t="str"><v>d</v></c><c r="C2" t="str"><v>c</v></c><c r="D2"><v>1</v></c><c r="E2"><f>D2*10</f><v>10</v></c></row>' +
          '<row r="3"><c r="C3" t="str"><v>d</v></c><c r="D3"><v>1</v></c></row>',
      },
    ],
  });
  await opened.type("Log", "A2", "c");
  expect(rows()).toBe(
    '<row r="1"><c r="A1" t="str"><v>c</v></c><c r="C1" t="str"><v>Mark</v></c><c r="D1" t="str"><v>Count</v></c></row>' +
      '<row r="2"><c r="A2" t="inlineStr"><is><t xml:space="preserve">c</t></is></c><c r="C2" t="str"><v>c</v></c><c r="D2"><v>2</v></c><c r="E2"><v>20</v></c></row>' +
      '<row r="3"></row>',
  );
  const state = gridState(opened.engine.api, opened.injector);
  expect(file.save(state).package.text("xl/worksheets/sheet1.xml")).toContain("_xldudf_TWIRL_TALLY(A1:A5)");
  expect(file.original).toBe(opened.source.file);
});
