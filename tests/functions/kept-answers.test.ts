import { answerTo, draw, readKept } from "./kept-answers";
import { metadata } from "./hostile-arguments";

const kept = readKept();

test("two thousand calls are kept, of every function, answered and refused", () => {
  expect(kept.length).toBeGreaterThanOrEqual(2000);
  for (const { id } of metadata.functions) {
    const own = kept.filter((one) => one.id === id);
    const refused = own.filter(({ answer }) => (answer as { error?: string }).error !== undefined);
    expect({ id, kept: own.length >= 50, refused: refused.length >= 3, answered: own.length - refused.length >= 25 }).toEqual({ id, kept: true, refused: true, answered: true }); // prettier-ignore
  }
});

test("their answers are the same to twelve digits: npm run answers renews them and says what has changed", () => {
  const changed = kept
    .map(({ id, args, answer }) => ({ id, args, was: answer, is: answerTo(id, args) }))
    .filter(({ was, is }) => JSON.stringify(was) !== JSON.stringify(is));
  expect(changed).toEqual([]);
});

test.each(["CATCHINTERVAL", "CLEANCHANCE"])("the calls of %s are drawn by its id, whichever others there are", (id) => {
  expect(draw([id]).map(({ args }) => args)).toEqual(kept.filter((one) => one.id === id).map(({ args }) => args));
});
