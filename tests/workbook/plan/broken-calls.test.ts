import { repairedFormula } from "../../../src/workbook/plan/broken-calls";

test.each<[because: string, formula: string, value: unknown, repaired: string | null]>([
  ["a call as a file holds it", "=_xldudf_TWIRL_STREAK(A1:A9)", "#NAME?", "=TWIRL.STREAK(A1:A9)"],
  ["such a call with its last answer", "=_xldudf_TWIRL_STREAK(A1:A9)", 4, "=TWIRL.STREAK(A1:A9)"],
  [
    "several calls inside others",
    "=IFNA(_xldudf_TWIRL_CATCHRATE(A1)+_xldudf_TWIRL_STREAK(A1),0)",
    "#NAME?",
    "=IFNA(TWIRL.CATCHRATE(A1)+TWIRL.STREAK(A1),0)",
  ],
  ["a name that is not known", "=IF(A1,twirl.STREAK(B1:B9),0)", "#NAME?", "=IF(A1,twirl.STREAK(B1:B9),0)"],
  ["a call that works", "=TWIRL.STREAK(A1:A9)", 3, null],
  ["a call that has something to say", "=TWIRL.STREAK(A1:A9)", "#VALUE!", null],
  ["another name that is not known", "=SOMETHING(A1)", "#NAME?", null],
  ["another add-in's name that ends like ours", "=MY.TWIRL.STREAK(A1)", "#NAME?", null],
  ["words in a text", '=SOMETHING("TWIRL.STREAK(")', "#NAME?", null],
  [
    "words in a text beside a call",
    '=IF(A1,"_xldudf_TWIRL_STREAK ""so""",_xldudf_TWIRL_STREAK(B1))',
    "#NAME?",
    '=IF(A1,"_xldudf_TWIRL_STREAK ""so""",TWIRL.STREAK(B1))',
  ],
  ["no formula", "TWIRL.STREAK(A1)", "#NAME?", null],
  ["an empty cell", "", "", null],
])("%s: %s", (_, formula, value, repaired) => {
  expect(repairedFormula(formula, value)).toBe(repaired);
});
