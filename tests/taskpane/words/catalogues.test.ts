/** The two catalogues beside each other: the same texts, the same values in them, and numbers that agree. */
import { assess, type Reason } from "../../../src/core/readiness";
import { logOf } from "../../core/logs";
import { french } from "../../../src/taskpane/words/french";
import { english } from "../../../src/taskpane/words/texts";
import { checkSeasonSettings, defaultSettings, type SeasonSettings } from "../../../src/workbook/season/season";

type Sentence = (...given: unknown[]) => unknown;
interface Text {
  readonly key: string;
  readonly value: string | Sentence;
}

/** Every text of a catalogue with its place in it. */
function textsOf(catalogue: object, prefix = ""): readonly Text[] {
  return Object.entries(catalogue).flatMap(([name, value]: [string, unknown]) => {
    const key = prefix + name;
    if (typeof value === "string" || typeof value === "function") return [{ key, value: value as Text["value"] }];
    return textsOf(value as object, `${key}.`);
  });
}

const catalogues = { english: textsOf(english), french: textsOf(french) };
/** Made of a whole problem or judgement rather than of values; looked at below. */
const ofWholes: readonly string[] = ["settingsProblem", "reasonInWords"];
const sentences = (of: keyof typeof catalogues): readonly { readonly key: string; readonly say: Sentence }[] =>
  catalogues[of].flatMap(({ key, value }) =>
    typeof value === "string" || ofWholes.includes(key) ? [] : [{ key, say: value }],
  );
const sentence = (of: keyof typeof catalogues, key: string): Sentence => {
  const found = sentences(of).find((one) => one.key === key);
  if (!found) throw new Error(`${of} has no ${key}`);
  return found.say;
};
/** As many values as a sentence takes: the English ones are not wrapped, and so tell. */
const keys = sentences("english").map(({ key, say }) => ({ key, count: say.length }));

test("both have the same texts, words where the other has words and sentences where it has sentences", () => {
  const shape = (of: keyof typeof catalogues): readonly string[] =>
    catalogues[of].map(({ key, value }) => `${key} ${typeof value}`).sort();
  expect(shape("french")).toEqual(shape("english"));
  expect(keys.length).toBeGreaterThan(80);
});

test.each(keys)("$key names the same values in both", ({ key, count }) => {
  // Numbers that occur in no text, so that one sees where each value goes; large, so that none is a special case.
  const values = Array.from({ length: count }, (_, index) => 70_101 + 101 * index);
  const named = (of: keyof typeof catalogues): readonly number[] => {
    const said = String(sentence(of, key)(...values)).replace(/\s/g, "");
    return values.filter((value) => said.includes(String(value)));
  };
  expect(named("french")).toEqual(named("english"));
});

/** Every way of giving `count` values out of the list. */
function givings(list: readonly unknown[], count: number): readonly (readonly unknown[])[] {
  if (count === 0) return [[]];
  return givings(list, count - 1).flatMap((rest) => list.map((value) => [...rest, value]));
}

describe.each(["english", "french"] as const)("%s", (of) => {
  test("holds no empty text, no hole and no space too many, whatever the values", () => {
    const said = [
      ...catalogues[of].flatMap(({ key, value }) => (typeof value === "string" ? [{ key, words: value }] : [])),
      ...keys.flatMap(({ key, count }) =>
        givings([0, 1, 2, 12], count).map((given) => ({ key, words: String(sentence(of, key)(...given)) })),
      ),
    ];
    expect(said.length).toBeGreaterThan(500);
    const wrong = said.filter(
      ({ words }) => words.trim() !== words || words === "" || /\b(undefined|null|NaN)\b|\[object| {2}/.test(words),
    );
    expect(wrong).toEqual([]);
  });

  test("counts as the language does: nothing is many in English, one or less in French (CLDR 48, plural rules)", () => {
    const rules = new Intl.PluralRules(of === "english" ? "en" : "fr");
    const form = (key: string, given: readonly unknown[]): string =>
      String(sentence(of, key)(...given)).replace(/\d+/g, "#");
    const wrong = keys.flatMap(({ key, count }) =>
      Array.from({ length: count }, (_, at) => {
        const [none, one, two] = [0, 1, 2].map((value) =>
          form(
            key,
            Array.from({ length: count }, (__, index) => (index === at ? value : 12)),
          ),
        );
        if (one === two || none === undefined) return [];
        // Nothing may have words of its own; but never the form of the other number.
        const other = rules.select(0) === "one" ? two : one;
        return none === other ? [`${key}: ${none}`] : [];
      }).flat(),
    );
    expect(wrong).toEqual([]);
  });
});

test("French is French: only what is the same word in both is the same", () => {
  const englishWords = new Map(catalogues.english.map(({ key, value }) => [key, value]));
  const same = catalogues.french.filter(
    ({ key, value }) => typeof value === "string" && value === englishWords.get(key),
  );
  expect(same.map(({ key }) => key).sort()).toEqual(
    ["functionArguments", "functionSource", "minutesLabel", "product", "tempoTitle", "wayLabels.condition"].sort(),
  );
});

test("no French text has a space before : ; ? ! or % at which a line may break", () => {
  const loose = catalogues.french.filter(({ value }) => typeof value === "string" && / [:;?!%»]|« /.test(value));
  expect(loose).toEqual([]);
  expect(french.pictureOf("a", "b")).toBe("a\u00A0: b");
});

test("each problem of a season's settings is told in French, with what it names", () => {
  const good: SeasonSettings = {
    ...defaultSettings,
    label: "2027",
    athletes: ["M.K."],
    tricks: [{ name: "Thumb toss", bodyCounts: null }],
  };
  const trick = (name: string, bodyCounts: number | null = null): SeasonSettings["tricks"][number] => ({
    name,
    bodyCounts,
  });
  const faults: readonly Partial<SeasonSettings>[] = [
    { label: "" },
    { label: "x".repeat(13) },
    { label: "a/b" },
    { label: " - " },
    { label: "2026" },
    { contestDate: 1 },
    { athletes: [] },
    { tricks: [] },
    { athletes: Array.from({ length: 61 }, (_, index) => `A${String(index)}`) },
    { athletes: ["A.R.", ""] },
    { athletes: ["A\tR"] },
    { athletes: ["x".repeat(41)] },
    { tricks: [trick("Flat"), trick("flat")] },
    { tricks: [trick("Flat", 99)] },
    { standard: 2 },
    { setSize: 2.5 },
    { countsPerMinute: 1 },
    { ceiling: 1 },
    { unit: "yd" as "m" },
    { dropCost: -1 },
  ];
  const problems = faults.flatMap((fault) =>
    checkSeasonSettings({ ...good, ...fault }, { sheets: ["Season 2026"], tables: [] }),
  );
  expect(new Set(problems.map(({ kind }) => kind)).size).toBe(19);
  for (const problem of problems) {
    const [told, message] = [french.settingsProblem(problem), english.settingsProblem(problem)];
    expect(message).toBe(problem.message);
    expect(told).not.toBe(message);
    expect(told).not.toMatch(/undefined| {2}/);
    // The same numbers and quotations stand in both, but for the share that French leaves out.
    if (problem.kind !== "standard") expect(told.match(/\d+/g)).toEqual(message.match(/\d+/g));
  }
});

test("each reason of a status is told in French, with the numbers that it has in English", () => {
  const records: readonly (readonly string[])[] = [
    [],
    ["ccccccc"],
    ["7/10"],
    ["8/10"],
    ["8/10", "8/10"],
    // A chance just under what is asked for has a digit more.
    ["cdcdc dcddc", "dccdc cdccc", "ccdcc cccdc", "ccccc ccdcc", "ccccc ccccc", "ccccd ccccc", "ccccc ccccd"],
    ["9/10", "9/10"],
    ["9/10", "9/10", "7/10"],
    ["10/10", "10/10", "10/10", "5/10"],
    ["cccccccccc", "cccccccccc", "cccccbbbbb"],
    ["10/10", "10/10", "10/10", "8/10", "7/10", "7/10", "7/10"],
    ["10/10", "10/10", "10/10", "8/10", "7/10", "7/10", "7/10", "7/10", "7/10", "7/10"],
    ["cccccccccc", "cccccccccc", "ccccccccbb"],
  ];
  const kinds = new Set<Reason["kind"]>();
  for (const marks of records) {
    const found = assess(logOf(marks), 0.8, 10);
    kinds.add(found.reason.kind);
    const [told, message] = [french.reasonInWords(found), english.reasonInWords(found)];
    expect(told).not.toBe(message);
    expect(told).not.toMatch(/undefined| {2}| [;%]/);
    const numbers = (words: string): readonly string[] =>
      words.replace(/(\d),(\d)/g, "$1.$2").match(/\d+(\.\d+)?/g) ?? [];
    expect(numbers(told)).toEqual(numbers(message));
  }
  expect(kinds.size).toBe(10);
});
