import fc from "fast-check";
import { whatIsWrong } from "./answer-rules";
import { callCell, HostError } from "./built";
import { argumentsFor, metadata } from "./hostile-arguments";

describe("no argument whatever gives NaN, Infinity, null in a spill, or another exception", () => {
  test.each(metadata.functions)("$id", ({ id, parameters }) => {
    let answered = 0;
    fc.assert(
      fc.property(argumentsFor(parameters), (given) => {
        const answer = callCell(id, ...given);
        if (!(answer instanceof HostError)) answered++;
        expect({ answer, wrong: whatIsWrong(id, answer) }).toMatchObject({ wrong: undefined });
        expect(callCell(id, ...given)).toEqual(answer);
      }),
      // One seed, so that a change is judged and not the day: `npm run fuzz` looks on with others.
      { numRuns: 3000, seed: 20261130 },
    );
    // The property would prove little if every call were refused.
    expect(answered).toBeGreaterThan(100);
  });

  test("fewer and more arguments than declared", () => {
    for (const { id } of metadata.functions) {
      for (const count of [0, 1, 2, 20])
        expect(whatIsWrong(id, callCell(id, ...Array(count).fill([["c"]])))).toBeUndefined();
    }
  });
});

test("a well-filled log always gives a board", () => {
  const row = fc.tuple(
    fc.integer({ min: 40000, max: 50000 }),
    fc.constantFrom("M.K.", "A.R.", "É.B."),
    fc.constantFrom("Two spin", "Flat"),
    fc.constantFrom("ccd", "8/10", "ccccc ccccc", "bb"),
  );
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 40 }), (rows) => {
      const column = (place: number) => rows.map((cells) => [cells[place]]);
      const board = callCell("BOARD", column(0), column(1), column(2), column(3)) as unknown[][];
      expect(whatIsWrong("BOARD", board)).toBeUndefined();
      expect(board.length - 1).toBe(new Set(rows.map(([, athlete, trick]) => `${athlete} ${trick}`)).size);
      const attempts = rows.reduce(
        (sum, [, , , marks]) => sum + ({ ccd: 3, "8/10": 10, "ccccc ccccc": 10, bb: 2 }[marks] ?? NaN),
        0,
      );
      expect(board.slice(1).reduce((sum, cells) => sum + Number(cells[2]), 0)).toBe(attempts);
    }),
  );
});
