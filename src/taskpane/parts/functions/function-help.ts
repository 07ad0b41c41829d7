/** What the pane shows about a function, and the search over it. The content is generated from the functions' own source. */
import { askedWords } from "./asked-words";

interface FunctionParameter {
  readonly name: string;
  readonly optional: boolean;
  /** Whether it takes a block of cells rather than one value. */
  readonly matrix: boolean;
  readonly description: string;
}

export interface FunctionHelp {
  /** The id as typed after `TWIRL.` */
  readonly id: string;
  readonly heading: string;
  /** What it answers, in one sentence. */
  readonly sentence: string;
  /** Such as `TWIRL.STREAK(marks, [which], [key])`. */
  readonly syntax: string;
  readonly parameters: readonly FunctionParameter[];
  readonly answer: string;
  readonly example: { readonly formula: string; readonly shows: string };
  readonly errors: string;
  readonly source: string;
}

interface FunctionGroup {
  readonly heading: string;
  readonly functions: readonly FunctionHelp[];
}

/**
 * The functions in which every word of `search` occurs (in the name, the heading, the sentence, the answer, an argument or
 * what coaches ask), grouped by heading in the order in which they came; those that answer just what is asked stand first.
 * An empty search finds all of them.
 */
export function findFunctions(all: readonly FunctionHelp[], search: string): readonly FunctionGroup[] {
  const words = folded(search)
    .split(/\s+/)
    .filter((word) => word !== "");
  const groups = new Map<string, FunctionHelp[]>();
  const asked = words.join(" ");
  const answers = (one: FunctionHelp): boolean => asked !== "" && folded(askedWords[one.id] ?? "").includes(asked);
  for (const one of [...all.filter(answers), ...all.filter((other) => !answers(other))]) {
    const text = searchedText(one);
    if (!words.every((word) => text.includes(word))) continue;
    const group = groups.get(one.heading);
    if (group) group.push(one);
    else groups.set(one.heading, [one]);
  }
  return [...groups].map(([heading, functions]) => ({ heading, functions }));
}

const searchedText = (one: FunctionHelp): string =>
  folded(
    [
      `TWIRL.${one.id}`,
      one.heading,
      one.sentence,
      one.answer,
      askedWords[one.id] ?? "",
      ...one.parameters.flatMap((parameter) => [parameter.name, parameter.description]),
    ].join(" "),
  );

const folded = (text: string): string => text.normalize("NFC").toLowerCase();
