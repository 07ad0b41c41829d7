import { findFunctions, type FunctionHelp } from "../../../../src/taskpane/parts/functions/function-help";
import { askedWords } from "../../../../src/taskpane/parts/functions/asked-words";
import generated from "../../../../src/taskpane/parts/functions/functions.generated.json";

const all: readonly FunctionHelp[] = generated;
const names = (search: string): readonly string[] =>
  findFunctions(all, search).flatMap(({ functions }) => functions.map(({ id }) => id));

test("an empty search finds every function once, under its heading, in the order of the list", () => {
  for (const search of ["", "  "]) {
    const groups = findFunctions(all, search);
    expect(groups.map(({ heading }) => heading)).toEqual([...new Set(all.map(({ heading }) => heading))]);
    for (const { heading, functions } of groups) {
      expect(functions).toEqual(all.filter((one) => one.heading === heading));
    }
  }
});

test.each([
  { search: "streak", finds: "STREAK" },
  { search: "TWIRL.STREAK", finds: "STREAK" },
  { search: "toss plan", finds: "TOSSPLAN" },
  { search: "plan TOSS", finds: "TOSSPLAN" },
])("“$search” finds $finds, whatever the capitals and the order", ({ search, finds }) => {
  expect(names(search)).toContain(finds);
});

test.each([
  { search: "ready by", first: "READYDATE" },
  { search: "how high", first: "TOSSHEIGHT" },
  { search: "Left hand", first: "CONDITIONS" },
  { search: "weakest trick", first: "WEAKLINK" },
  { search: "warm up", first: "FIRSTTRIES" },
  { search: "main gauche", first: "CONDITIONS" },
])("what a coach asks, “$search”, finds $first first", ({ search, first }) => {
  expect(names(search)[0]).toBe(first);
});

test("what coaches ask is asked of functions that there are", () => {
  const ids = all.map(({ id }) => id);
  expect(Object.keys(askedWords).filter((id) => !ids.includes(id))).toEqual([]);
});

test("every word must fit", () => {
  expect(names("streak ceiling")).toEqual(names("streak").filter((id) => names("ceiling").includes(id)));
  expect(names("no such words anywhere")).toEqual([]);
});

test("every function has what the pane shows", () => {
  expect(all.length).toBeGreaterThan(0);
  for (const one of all) {
    expect(one.id).toMatch(/^[A-Z]+$/);
    expect(one.syntax.startsWith(`TWIRL.${one.id}(`)).toBe(true);
    expect(one.example.formula).toContain(`TWIRL.${one.id}(`);
    expect(one.example.formula.startsWith("=")).toBe(true);
    for (const text of [one.heading, one.sentence, one.answer, one.errors, one.source, one.example.shows]) {
      expect(text.trim()).not.toBe("");
    }
    for (const { name, optional, description } of one.parameters) {
      expect(one.syntax).toContain(optional ? `[${name}]` : name);
      expect(description.trim()).not.toBe("");
    }
  }
});
