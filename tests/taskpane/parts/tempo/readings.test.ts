import { readFilm, readingInWords, readingOf, riseReading } from "../../../../src/taskpane/parts/tempo/readings";
import { texts } from "../../../../src/taskpane/words/texts";

test.each([
  { because: "two digits of uncertainty", value: 2.2, uncertainty: 0.0136, most: 3, shown: "2.200 ± 0.014", cell: 2.2 },
  { because: "two digits of uncertainty", value: 1.83456, uncertainty: 0.1, most: 3, shown: "1.83 ± 0.10", cell: 1.83 },
  { because: "not more than asked for", value: 196.26, uncertainty: 0.004, most: 1, shown: "196.3 ± 0.0", cell: 196.3 },
  {
    because: "whole numbers where it is large",
    value: 196.26,
    uncertainty: 19.2,
    most: 1,
    shown: "196 ± 19",
    cell: 196,
  },
  { because: "no uncertainty seen", value: 200, uncertainty: 0, most: 1, shown: "200.0 ± 0.0", cell: 200 },
])("$value ± $uncertainty is shown as $shown: $because", ({ value, uncertainty, most, shown, cell }) => {
  const reading = readingOf(value, uncertainty, most);
  expect(readingInWords(reading)).toBe(shown);
  // What goes into a cell is what is seen.
  expect(reading.value).toBe(cell);
});

test("the rise of a measured airtime, in either unit", () => {
  // 9.80665 × 2² / 8 = 4.903 m; 9.80665 × 2 × 0.1 / 4 = 0.490 m; over 0.3048: 16.09 ft and 1.61 ft.
  expect(readingInWords(riseReading({ seconds: 2, uncertainty: 0.1 }, "m"))).toBe("4.90 ± 0.49");
  expect(readingInWords(riseReading({ seconds: 2, uncertainty: 0.1 }, "ft"))).toBe("16.1 ± 1.6");
});

describe("a film", () => {
  test("of 66 frames at 30 a second", () => {
    // As the cell function's example has it: 2.20 s, and 1/(√6·30) = 0.0136 s.
    const film = readFilm({ release: "112", catch: " 178 ", rate: "30" });
    expect(film).toMatchObject({ kind: "measured", airtime: { seconds: 2.2 } });
    if (film.kind === "measured") expect(film.airtime.uncertainty).toBeCloseTo(0.0136083, 6);
  });

  test("may be given a decimal comma", () => {
    expect(readFilm({ release: "0", catch: "30", rate: "29,97" })).toMatchObject({ kind: "measured" });
  });

  test.each([
    { form: { release: "", catch: "", rate: "30" } },
    { form: { release: "112", catch: "", rate: "30" } },
    { form: { release: "112", catch: "178", rate: "" } },
  ])("with $form is unfinished", ({ form }) => {
    expect(readFilm(form)).toEqual({ kind: "unfinished" });
  });

  test.each([
    {
      form: { release: "178", catch: "112", rate: "30" },
      problems: { catch: texts.catchAfterRelease },
    },
    { form: { release: "112", catch: "112", rate: "30" }, problems: { catch: texts.catchAfterRelease } },
    {
      form: { release: "-1", catch: "112", rate: "0" },
      problems: { release: texts.notInRange(0, 100_000_000), rate: texts.notInRange(1, 100_000) },
    },
    { form: { release: "early", catch: "", rate: "30" }, problems: { release: texts.notInRange(0, 100_000_000) } },
    { form: { release: "1", catch: "", rate: "100001" }, problems: { rate: texts.notInRange(1, 100_000) } },
  ])("with $form is wrong, and told where", ({ form, problems }) => {
    expect(readFilm(form)).toEqual({ kind: "wrong", problems });
  });
});
