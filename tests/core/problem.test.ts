import { Missing, Problem, quote } from "../../src/core/problem";

describe("a problem says where, what was found and what is accepted", () => {
  test.each([
    [{ argument: "rate" }, "rate: found the number 2. Accepted: a share."],
    [{ argument: "rate", row: 3 }, "rate, row 3: found the number 2. Accepted: a share."],
    [{ argument: "rate", row: 3, column: 2 }, "rate, row 3, column 2: found the number 2. Accepted: a share."],
  ])("%p", (place, message) => {
    const problem = new Problem({ ...place, found: quote(2), accepted: "a share" });
    expect(problem).toMatchObject({ name: "Problem", message, details: place });
    expect(problem).toBeInstanceOf(Error);
  });

  test("what is missing is its message", () => {
    expect(new Missing("Log a set")).toMatchObject({ name: "Missing", message: "Log a set" });
  });
});

test.each([
  [null, "an empty cell"],
  [undefined, "an empty cell"],
  ["", "an empty cell"],
  ["maybe", 'the text "maybe"'],
  ["z".repeat(40), `the text "${"z".repeat(40)}"`],
  ["z".repeat(41), `the text "${"z".repeat(40)}…"`],
  // Cut between characters, never inside one.
  ["🤸".repeat(41), `the text "${"🤸".repeat(40)}…"`],
  ["z".repeat(32767), `the text "${"z".repeat(40)}…"`],
  [0, "the number 0"],
  [-2.5, "the number -2.5"],
  [true, "TRUE"],
  [false, "FALSE"],
  [{}, "something that is neither a number nor a text"],
])("%p is told as %p", (value, words) => {
  expect(quote(value)).toBe(words);
});
