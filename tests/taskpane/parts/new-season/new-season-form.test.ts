import { checkSeasonSettings, defaultSettings } from "../../../../src/workbook/season/season";
import {
  formFields,
  formFromDraft,
  problemsByField,
  settingsFromForm,
  tidyForm,
  usualForm,
  type FormText,
} from "../../../../src/taskpane/parts/new-season/new-season-form";

const filled: FormText = {
  ...usualForm,
  label: "2027",
  contestDate: "2027-06-05",
  athletes: "M.K.\nA.R.",
  tricks: "Double turn, 4\nThumb toss",
};

const problemsOf = (form: FormText) =>
  problemsByField(checkSeasonSettings(settingsFromForm(form), { sheets: [], tables: [] }));

test("the form starts with the usual settings", () => {
  expect(settingsFromForm(usualForm)).toEqual(defaultSettings);
});

test("a filled form is a season", () => {
  expect(problemsOf(filled)).toEqual({});
  expect(settingsFromForm(filled)).toMatchObject({
    label: "2027",
    athletes: ["M.K.", "A.R."],
    tricks: [
      { name: "Double turn", bodyCounts: 4 },
      { name: "Thumb toss", bodyCounts: null },
    ],
    standard: 0.8,
    ceiling: null,
    unit: "m",
  });
});

describe("how a field is read", () => {
  test.each([
    {
      field: "contestDate",
      typed: "2000-01-01",
      read: "contestDate",
      expected: 36_526,
      because: "the serial that sheets give for it",
    },
    {
      field: "contestDate",
      typed: "2027-06-05",
      read: "contestDate",
      expected: 46_543,
      because: "36526 + 27 years with 7 leap days + 155 days",
    },
    { field: "contestDate", typed: "5 June 2027", read: "contestDate", expected: 46_543, because: "the same in words" },
    { field: "contestDate", typed: "", read: "contestDate", expected: null, because: "it may be left out" },
    { field: "standard", typed: "80", read: "standard", expected: 0.8, because: "per cent" },
    { field: "standard", typed: " 85 % ", read: "standard", expected: 0.85, because: "per cent, said" },
    { field: "standard", typed: "82,5", read: "standard", expected: 0.825, because: "a decimal comma" },
    { field: "standard", typed: "0.8", read: "standard", expected: 0.8, because: "a share: no standard is under 10 %" },
    { field: "standard", typed: "0.8 %", read: "standard", expected: 0.008, because: "per cent, said" },
    { field: "dropCost", typed: "0,5", read: "dropCost", expected: 0.5, because: "a decimal comma" },
    { field: "ceiling", typed: "", read: "ceiling", expected: null, because: "it may be left out" },
    { field: "ceiling", typed: "7.5", read: "ceiling", expected: 7.5, because: "a number" },
    { field: "unit", typed: "ft", read: "unit", expected: "ft", because: "feet" },
  ] as const)("$field “$typed” is $expected: $because", ({ field, typed, read, expected }) => {
    const found = settingsFromForm({ ...filled, [field]: typed })[read];
    if (typeof expected === "number") expect(found).toBeCloseTo(expected, 12);
    else expect(found).toBe(expected);
  });

  test.each([
    { line: "Double turn, 4", name: "Double turn", bodyCounts: 4 },
    { line: "Double turn,4.5", name: "Double turn", bodyCounts: 4.5 },
    { line: "Turn, left, 3", name: "Turn, left", bodyCounts: 3 },
    { line: "Thumb toss,", name: "Thumb toss", bodyCounts: null },
    { line: "=HYPERLINK(1)", name: "=HYPERLINK(1)", bodyCounts: null },
  ])("the trick line “$line”", ({ line, name, bodyCounts }) => {
    expect(settingsFromForm({ ...filled, tricks: line }).tricks).toEqual([{ name, bodyCounts }]);
  });

  test("lists drop empty lines and outer spaces, whatever the line ends", () => {
    expect(settingsFromForm({ ...filled, athletes: "\r\n M.K. \r\n\r\nA.R.\rJ.T.\n" }).athletes).toEqual([
      "M.K.",
      "A.R.",
      "J.T.",
    ]);
    expect(tidyForm({ ...filled, athletes: "\n M.K. \n\n A.R.\n" }).athletes).toBe("M.K.\nA.R.");
  });
});

describe("what cannot be read is a problem at its own field", () => {
  test.each([
    ["label", ""],
    ["label", "2027/28"],
    ["label", "thirteen char"],
    ["contestDate", "10"],
    ["contestDate", "Monday 5 June 2027"],
    ["contestDate", "2027-02-31"],
    ["contestDate", "0027-06-05"],
    ["athletes", " \n "],
    ["athletes", "M.K.\nm.k."],
    ["tricks", ""],
    ["tricks", "Turn\nDouble turn, left"],
    ["tricks", ", 4"],
    ["standard", ""],
    ["standard", "eighty"],
    ["standard", "100"],
    ["standard", "800"],
    ["setSize", "9.5"],
    ["setSize", ""],
    ["countsPerMinute", "1e3"],
    ["countsPerMinute", "0"],
    ["ceiling", "high"],
    ["ceiling", "-3"],
    ["dropCost", ""],
    ["dropCost", "-1"],
  ] as const)("%s “%s”", (field, typed) => {
    const problems = problemsOf({ ...filled, [field]: typed });
    expect(Object.keys(problems)).toEqual([field]);
    expect(problems[field]).toMatch(/\S.*[.]$/);
  });

  test("a standard is told in per cent, as it is asked for", () => {
    for (const typed of ["800", "5"]) {
      const { standard } = problemsOf({ ...filled, standard: typed });
      expect(standard).toMatch(/10 to 99/);
      expect(standard).not.toMatch(/0\.8/);
    }
  });

  test("a body count that is no number is told with its line", () => {
    expect(problemsOf({ ...filled, tricks: "Turn, 2\nDouble turn, left" }).tricks).toMatch(/Line 2/);
  });
});

describe("a draft", () => {
  test("comes back as it was kept", () => {
    expect(formFromDraft(JSON.parse(JSON.stringify(filled)))).toEqual(filled);
  });

  test.each([null, 3, "text", [], {}, { ...filled, label: 3 }, { ...filled, tricks: undefined }])(
    "that is none is no form: %j",
    (draft) => {
      expect(formFromDraft(draft)).toBeNull();
    },
  );
});

test("every setting has its field", () => {
  expect([...formFields].sort()).toEqual(Object.keys(defaultSettings).sort());
});
