import fc from "fast-check";
import { runs } from "./runs";
import { isBlankMark, readKey, requireOrder } from "../../src/core/marks";
import { Problem } from "../../src/core/problem";
import { lettersOf, logOf } from "./logs";

const problemOf = (cell: string | boolean | number, key?: string): Problem => {
  try {
    logOf(["c", cell], key);
  } catch (error) {
    if (error instanceof Problem) return error;
    throw error;
  }
  throw new Error(`${String(cell)} was accepted`);
};

describe("what a mark cell may hold", () => {
  test.each<[cell: string | boolean | number | null, letters: string]>([
    ...["c", "caught", "catch", "y", "yes", "1", "✓", "✔", "TRUE", "C", " Caught ", "✔\uFE0F", true].map(
      (cell) => [cell, "c"] as [typeof cell, string],
    ),
    ...["d", "drop", "dropped", "n", "no", "0", "✗", "✘", "false", "Drop", false].map(
      (cell) => [cell, "d"] as [typeof cell, string],
    ),
    ...["b", "bail", "bailed", "balk", "BALK"].map((cell) => [cell, "b"] as [typeof cell, string]),
    ["ccdcc ccccd", "ccdccccccd"],
    ["c,d, b", "cdb"],
    ["CcDb", "ccdb"],
    ["0110", "dccd"],
    ["1 0,1", "cdc"],
    ["✓✗ ✔✘", "cdcd"],
    ["8/10", "[8/10]"],
    [" 8 / 10 ", "[8/10]"],
    ["0/3", "[0/3]"],
    ["", ""],
    ["   ", ""],
    [0, ""],
    [null, ""],
  ])("%p is %p", (cell, letters) => {
    expect(lettersOf(logOf([cell]))).toBe(letters);
  });

  test.each([
    ["x", /either way round.*key/],
    ["o", /either way round.*key/],
    ["xx o", /either way round.*key/],
    [1, /partner 0 cannot be told from an empty cell.*1\/0/],
    [1101, /leading 0 would have been lost/],
    [10, /leading 0 would have been lost/],
    [46302, /can only be a date.*format the cell as text/],
    [8, /not a number/],
    [0.8, /not a number/],
    [-1, /not a number/],
    ["12/10", /more caught than tried/],
    ["0/0", /1 to 1,000,000 attempts/],
    ["1/2000000", /1 to 1,000,000 attempts/],
    ["maybe", /the text "maybe"/],
    ["c1", /the text "c1"/],
    ["c✓", /the text "c✓"/],
    ["1b", /the text "1b"/],
    [",", /the text ","/],
    ["caught drop", /the text "caught drop"/],
    ["8-10", /the text "8-10"/],
    ["__proto__", /the text "__proto__"/],
  ])("%p is refused: %p", (cell, message) => {
    const problem = problemOf(cell);
    expect(problem.message).toMatch(message);
    expect(problem.details).toMatchObject({ argument: "marks", row: 2, column: 1 });
  });

  /** Tallies up to their ends: one attempt, all caught, a million. */
  test.each(["1/1", "0/1", "10/10", "1000000/1000000"])("the tally %p is read", (tally) => {
    expect(lettersOf(logOf([tally]))).toBe(`[${tally}]`);
  });

  test("a tally is quoted without the spaces around it", () => {
    expect(problemOf(" 12/10 ").message).toContain("found the tally 12/10, which");
    expect(problemOf(" 0/0 ").message).toContain("found the tally 0/0. Accepted");
  });

  /** The serials of 1 January 1955 and 31 December 2099, by any sheet. */
  test.each([
    [20090, true],
    [73050, true],
    [20089, false],
    [73051, false],
    [46302.5, false],
  ])("%p can only be a date: %p", (serial, isDate) => {
    expect(/can only be a date/.test(problemOf(serial).message)).toBe(isDate);
  });

  test.each([
    [12, false],
    [21, false],
    [102, false],
    [201, false],
    [100, true],
    [0.1, false],
  ])("%p has lost a leading 0: %p", (number, lost) => {
    expect(/leading 0/.test(problemOf(number).message)).toBe(lost);
  });

  test.each(["xc", "cx", "x1", "box"])("%p is no matter of x and o", (text) => {
    expect(problemOf(text).message).not.toMatch(/either way round/);
  });

  test.each([
    ["Marks", true],
    ["Marks of today", true],
    ["cq", false],
    ["1 Marks", false],
    ["Marks 2", false],
    ["Marks!", false],
  ])("%p at the top may be a heading: %p", (text, heading) => {
    const message = (() => {
      try {
        logOf([text]);
      } catch (error) {
        return (error as Error).message;
      }
      return "";
    })();
    expect(/if this is a heading/.test(message)).toBe(heading);
  });

  test("where the order matters a tally is refused with its place, and marks are not", () => {
    expect(() => requireOrder(logOf(["ccd", "1"]), "marks")).not.toThrow();
    expect(() => requireOrder(logOf(["ccd", "8/10", "1/2"]), "marks")).toThrow(
      /^marks, row 2, column 1: found the tally 8\/10\. Accepted: marks in order/,
    );
  });

  test("a long text is quoted in short", () => {
    expect(problemOf("z".repeat(32767)).message.length).toBeLessThan(300);
  });

  test("a heading at the top of a range is told to be one", () => {
    expect(() => logOf(["Marks"])).toThrow(/if this is a heading, start the range below it/);
    expect(problemOf("Marks").message).not.toMatch(/heading/);
  });
});

describe("a club's own key", () => {
  test.each([
    ["x/o", ["x", "OX", "o"], "cdcd"],
    ["o/x", ["x", "ox", "o"], "dcdc"],
    ["x/o/-", ["x-o"], "cbd"],
    ["1/0", [1, 0, "10"], "cdcd"],
    ["ok/o", ["ok", "oko"], "ccd"],
    ["o/ok", ["ok", "oko"], "ddc"],
    ["o/ok/okay", ["okay", "ok o"], "bdc"],
    ["+/-", ["+,- +"], "cdc"],
    ["✓/✗", ["✓✗"], "cd"],
    ["y/n", ["y, n y"], "cdc"],
  ])("%p over %p is %p", (key, cells, letters) => {
    expect(lettersOf(logOf(cells, key))).toBe(letters);
  });

  test.each(["c", "8/10", true, 46302, "xox c"])("only its own marks are accepted: %p", (cell) => {
    expect(problemOf(cell, "x/c2").message).toMatch(/only the marks of the key x\/c2/);
  });

  test("the leading 0 is only spoken of where it may be what was lost", () => {
    expect(problemOf("11", "c/0").message).not.toMatch(/leading 0/);
    expect(problemOf(11, "c/o").message).not.toMatch(/leading 0/);
    expect(problemOf(12, "c/0").message).not.toMatch(/leading 0/);
    expect(problemOf(211, "c/0").message).not.toMatch(/leading 0/);
    expect(problemOf(true, "c/o").message).toMatch(
      /found TRUE\. Accepted: only the marks of the key c\/o, one or several/,
    );
    expect(problemOf(" , ", "c/o").message).toMatch(/only the marks/);
  });

  test("a key is told as it was typed, without the spaces around it", () => {
    expect(readKey(" X/o ").text).toBe("X/o");
  });

  test("with the key 1/0 a cell of several digits is refused as a number and read as text", () => {
    expect(problemOf(1101, "c/0").message).toMatch(/leading 0/);
    expect(lettersOf(logOf(["0110"], "1/0"))).toBe("dccd");
    expect([isBlankMark(0, readKey("1/0")), isBlankMark(0, readKey("x/o"))]).toEqual([false, true]);
  });

  test.each(["", "x", "x/x", "x/", "/o", "x/o/b/z", "a b/c", "X/x"])("%p is no key", (key) => {
    expect(() => readKey(key)).toThrow(/key: found .*caught\/dropped/);
  });
});

describe("properties", () => {
  const outcome = fc.constantFrom("c", "d", "b");

  test("how a run is cut into cells and spaced changes nothing", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(outcome, fc.constantFrom("", " ", ",", ", "), fc.boolean()), { minLength: 1 }),
        (marks) => {
          const cells = [""];
          for (const [letter, space, cut] of marks) {
            cells[cells.length - 1] += letter + space;
            if (cut) cells.push("");
          }
          expect(lettersOf(logOf(cells))).toBe(marks.map(([letter]) => letter).join(""));
        },
      ),
    );
  });

  test("a key's signs stand for the same attempts as the letters", () => {
    fc.assert(
      fc.property(fc.array(outcome, { minLength: 1 }), (letters) => {
        const signs = letters.map((letter) => ({ c: "+", d: "-", b: "*" })[letter as "c" | "d" | "b"]);
        expect(lettersOf(logOf([signs.join("")], "+/-/*"))).toBe(letters.join(""));
      }),
    );
  });

  test("any text is read or refused with its place, and a refused one leaves the log as it was", () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(..."cdb01✓✗xo/8 ,") })), (text) => {
        const log = logOf(["ccd"]);
        const before = [log.attempts, log.caught, log.entries];
        try {
          const read = logOf(["ccd", text]);
          expect(read.caught).toBeLessThanOrEqual(read.attempts);
        } catch (error) {
          expect(error).toBeInstanceOf(Problem);
          expect((error as Problem).details.row).toBe(2);
          expect([log.attempts, log.caught, log.entries]).toEqual(before);
        }
      }),
      runs(2000),
    );
  });
});
