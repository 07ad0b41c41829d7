import {
  checkSeasonSettings,
  defaultSettings,
  type NamesInUse,
  type SeasonSettings,
  type SettingsField,
} from "../../../src/workbook/season/season";

const nothingUsed: NamesInUse = { sheets: [], tables: [] };

const good: SeasonSettings = {
  ...defaultSettings,
  label: "2027",
  athletes: ["M.K.", "A.R."],
  tricks: [
    { name: "Double spin", bodyCounts: 3 },
    { name: "Illusion", bodyCounts: null },
  ],
};

function fields(settings: SeasonSettings, names: NamesInUse = nothingUsed): readonly SettingsField[] {
  return checkSeasonSettings(settings, names).map(({ field }) => field);
}

test("the defaults want only what is the coach's own: label, athletes, tricks", () => {
  expect(fields(defaultSettings)).toEqual(["label", "athletes", "tricks"]);
  expect(fields(good)).toEqual([]);
});

interface Case {
  readonly change: Partial<SeasonSettings>;
  readonly field: SettingsField | null;
  readonly because: string;
}

const many = (count: number): string[] => Array.from({ length: count }, (_, index) => `A${index}`);

const cases: readonly Case[] = [
  { change: { label: "2027 B-1" }, field: null, because: "spaces and hyphens are allowed" },
  { change: { label: "Été 27" }, field: null, because: "letters of other languages are letters" },
  { change: { label: "123456789012" }, field: null, because: "12 characters fit" },
  { change: { label: "1234567890123" }, field: "label", because: "13 do not" },
  { change: { label: "  " }, field: "label", because: "blanks are no label" },
  { change: { label: " - " }, field: "label", because: "a label needs a letter or digit" },
  { change: { label: "20/27" }, field: "label", because: "a sheet's name cannot hold /" },
  { change: { label: "2027'" }, field: "label", because: "a quote ends a sheet's name in a formula" },
  { change: { label: "=1" }, field: "label", because: "a sign is no letter" },
  { change: { contestDate: 46467 }, field: null, because: "a whole day" },
  { change: { contestDate: 46467.5 }, field: "contestDate", because: "half a day is no day" },
  { change: { contestDate: 27 }, field: "contestDate", because: "1900 is a slip of the finger" },
  { change: { contestDate: NaN }, field: "contestDate", because: "not a number" },
  { change: { athletes: [] }, field: "athletes", because: "nobody to log" },
  { change: { athletes: ["M.K.", " m.k. "] }, field: "athletes", because: "case and blanks do not part two athletes" },
  { change: { athletes: ["M.K.", ""] }, field: "athletes", because: "a name is needed" },
  { change: { athletes: ["M.K.\nA.R."] }, field: "athletes", because: "a line break inside a name" },
  { change: { athletes: many(60) }, field: null, because: "60 fit" },
  { change: { athletes: many(61) }, field: "athletes", because: "61 do not" },
  { change: { tricks: [] }, field: "tricks", because: "nothing to log" },
  {
    change: { tricks: [{ name: "=HYPERLINK(1)", bodyCounts: 0.5 }] },
    field: null,
    because: "any text is a trick's name, and half counts are counted",
  },
  { change: { tricks: [{ name: "Spin", bodyCounts: -1 }] }, field: "tricks", because: "counts below nothing" },
  { change: { tricks: [{ name: "Spin", bodyCounts: NaN }] }, field: "tricks", because: "counts that are no number" },
  {
    change: {
      tricks: [
        { name: "e\u0301toile", bodyCounts: null },
        { name: "\u00e9toile", bodyCounts: null },
      ],
    },
    field: "tricks",
    because: "an accent stored in two ways is one name",
  },
  { change: { standard: 0.99 }, field: null, because: "the highest that a record can show" },
  { change: { standard: 1 }, field: "standard", because: "no number of catches proves 100 %" },
  { change: { standard: 80 }, field: "standard", because: "80 % is 0.8" },
  { change: { standard: NaN }, field: "standard", because: "not a number" },
  { change: { setSize: 3 }, field: null, because: "the smallest set" },
  { change: { setSize: 2 }, field: "setSize", because: "too small for a share" },
  { change: { setSize: 7.5 }, field: "setSize", because: "half an attempt" },
  { change: { countsPerMinute: 0 }, field: "countsPerMinute", because: "it divides" },
  { change: { ceiling: 1.9 }, field: "ceiling", because: "lower than a person with a baton" },
  { change: { ceiling: 25, unit: "ft" }, field: null, because: "25 ft is a hall" },
  { change: { ceiling: 5, unit: "ft" }, field: "ceiling", because: "5 ft is not" },
  { change: { dropCost: -0.5 }, field: "dropCost", because: "points lost are not below nothing" },
];

test.each(cases)("$change: $because", ({ change, field }) => {
  expect(fields({ ...good, ...change })).toEqual(field === null ? [] : [field]);
});

const taken: readonly { names: NamesInUse; label: string; clash: boolean; because: string }[] = [
  { names: { sheets: ["Board 2027"], tables: [] }, label: "2027", clash: true, because: "the sheet is there" },
  { names: { sheets: ["BOARD été"], tables: [] }, label: "Été", clash: true, because: "sheets do not differ by case" },
  { names: { sheets: [], tables: ["practice_2027_b"] }, label: "2027 B", clash: true, because: "nor do tables" },
  {
    names: { sheets: ["Season 2027 B"], tables: ["Practice_2027_B"] },
    label: "2027-B",
    clash: true,
    because: "two labels that give one table name",
  },
  {
    names: { sheets: ["Board 2026"], tables: ["Practice_2026"] },
    label: "2027",
    clash: false,
    because: "another season",
  },
  { names: { sheets: ["Notes 2027"], tables: [] }, label: "2027", clash: false, because: "the club's own sheet" },
];

test("a club's own sheet of the team stands in the way of a season with a team only", () => {
  const names = { sheets: ["Team 2027"], tables: [] };
  expect(fields({ ...good, label: "2027" }, names)).toEqual([]);
  expect(fields({ ...good, label: "2027", exchanges: true }, names)).toEqual(["label"]);
});

test.each(taken)("label $label beside $names: $because", ({ names, label, clash }) => {
  expect(fields({ ...good, label }, names)).toEqual(clash ? ["label"] : []);
});
