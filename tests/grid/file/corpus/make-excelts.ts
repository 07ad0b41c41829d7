/** Writes the files of the corpus whose name begins with excelts-: `npx tsx <this file> <folder>`. */
import { writeFileSync } from "node:fs";
import path from "node:path";
import { Workbook } from "@cj-tech-master/excelts";

const CREATED = new Date("2026-11-01T00:00:00Z");
const ROWS = Array.from({ length: 9 }, (_, n) => [
  new Date(Date.UTC(2026, 9, 5 + 7 * Math.floor(n / 3))),
  ["M.K.", "A.R.", "J.T."][n % 3],
  ["Two spin", "Toss illusion"][n % 2],
  10,
  5 + (n % 6),
]);

function start(): { book: Workbook; sheet: ReturnType<Workbook["addWorksheet"]> } {
  const book = new Workbook();
  book.created = CREATED;
  book.modified = CREATED;
  const sheet = book.addWorksheet("Log", { views: [{ state: "frozen", xSplit: 1, ySplit: 1 }] });
  sheet.addRow(["Date", "Athlete", "Trick", "Tried", "Caught", "Share"]);
  ROWS.forEach((row, at) => {
    sheet.addRow([...row, { formula: `E${at + 2}/D${at + 2}`, result: (5 + (at % 6)) / 10 }]);
  });
  return { book, sheet };
}

async function save(book: Workbook, name: string): Promise<void> {
  writeFileSync(path.join(process.argv[2] ?? ".", `excelts-${name}.xlsx`), Buffer.from(await book.xlsx.writeBuffer()));
}

async function main(): Promise<void> {
  const plain = start();
  plain.sheet.mergeCells("H1:J2");
  plain.sheet.getCell("H1").value = { richText: [{ text: "caught " }, { font: { bold: true }, text: "eight" }] };
  plain.sheet.getCell("H3").value = { text: "rules", hyperlink: "https://example.org/" };
  plain.sheet.getCell("H4").note = "Back after a cold";
  plain.sheet.getCell("H5").value = { error: "#N/A" };
  plain.sheet.getColumn(1).numFmt = "dd.mm.yyyy";
  await save(plain.book, "rich");

  const ruled = start();
  for (let row = 2; row <= 10; row += 1) {
    ruled.sheet.getCell(`C${row}`).dataValidation = { type: "list", allowBlank: true, formulae: ['"Two spin,Rad"'] };
  }
  ruled.sheet.addConditionalFormatting({
    ref: "F2:F10",
    rules: [{ type: "cellIs", operator: "lessThan", priority: 1, formulae: [0.6], style: { font: { italic: true } } }],
  });
  ruled.book.addWorksheet("Hidden", { state: "hidden" }).getCell("A1").value = {
    formula: "SUM(Log!E2:E10)",
    result: 65,
  };
  await save(ruled.book, "rules");
}

void main();
