/**
 * A matcher of regular expressions that counts its steps. It backtracks as the engine of the language does, so a pattern
 * that could take for ever there takes more steps here than it is given; what a single character matches is asked of the
 * language itself.
 */
import { AST, RegExpParser } from "@eslint-community/regexpp";

export class TooManySteps extends Error {}

type Next = (at: number) => boolean;

class Matcher {
  steps = 0;
  private readonly singles = new Map<string, (text: string, at: number) => number>();
  private readonly groups = new Map<AST.CapturingGroup, string>();

  constructor(
    private readonly flags: string,
    private readonly text: string,
    private readonly most: number,
  ) {}

  alternatives(alternatives: readonly AST.Alternative[], at: number, next: Next): boolean {
    return alternatives.some((alternative) => this.sequence(alternative.elements, 0, at, next));
  }

  private sequence(elements: readonly AST.Element[], index: number, at: number, next: Next): boolean {
    const element = elements[index];
    return element === undefined
      ? next(at)
      : this.element(element, at, (after) => this.sequence(elements, index + 1, after, next));
  }

  private element(element: AST.Element, at: number, next: Next): boolean {
    this.steps += 1;
    if (this.steps > this.most) throw new TooManySteps();
    switch (element.type) {
      case "Character":
      case "CharacterClass":
      case "CharacterSet":
      case "ExpressionCharacterClass": {
        const length = this.single(element.raw)(this.text, at);
        return length > 0 && next(at + length);
      }
      case "Group":
        return this.alternatives(element.alternatives, at, next);
      case "CapturingGroup":
        return this.alternatives(element.alternatives, at, (after) => {
          this.groups.set(element, this.text.slice(at, after));
          return next(after);
        });
      case "Backreference": {
        const [group] = [element.resolved].flat();
        const held = group === undefined ? "" : (this.groups.get(group) ?? "");
        return this.text.startsWith(held, at) && next(at + held.length);
      }
      case "Assertion":
        return this.holds(element, at) && next(at);
      case "Quantifier":
        return this.repeated(element, at, 0, next);
    }
  }

  private repeated(element: AST.Quantifier, at: number, done: number, next: Next): boolean {
    const { min, max, greedy } = element;
    // Runs of one character are walked in a loop: the chain of calls would be as long as the text.
    if (isSingle(element.element)) return this.run(element, at, next);
    const more = (): boolean =>
      done < max &&
      this.element(
        element.element,
        at,
        (after) => (after > at || done < min) && this.repeated(element, after, done + 1, next),
      );
    if (done < min) return more();
    return greedy ? more() || next(at) : next(at) || more();
  }

  private run({ element, min, max, greedy }: AST.Quantifier, at: number, next: Next): boolean {
    const test = this.single(element.raw);
    const ends = [at];
    const step = (): boolean => {
      this.steps += 1;
      if (this.steps > this.most) throw new TooManySteps();
      const end = ends.at(-1) ?? at;
      const length = ends.length - 1 < max ? test(this.text, end) : 0;
      if (length > 0) ends.push(end + length);
      return length > 0;
    };
    if (!greedy) {
      for (let count = 0; ; count += 1) {
        if (count >= min && next(ends[count] ?? at)) return true;
        if (!step()) return false;
      }
    }
    while (step());
    for (let count = ends.length - 1; count >= min; count -= 1) {
      this.steps += 1;
      if (this.steps > this.most) throw new TooManySteps();
      if (next(ends[count] ?? at)) return true;
    }
    return false;
  }

  private holds(assertion: AST.Assertion, at: number): boolean {
    const multiline = this.flags.includes("m");
    switch (assertion.kind) {
      case "start":
        return at === 0 || (multiline && this.text[at - 1] === "\n");
      case "end":
        return at === this.text.length || (multiline && this.text[at] === "\n");
      case "word": {
        const isWord = (place: number): boolean => /\w/.test(this.text[place] ?? "");
        return (isWord(at - 1) !== isWord(at)) !== assertion.negate;
      }
      case "lookahead":
        return this.alternatives(assertion.alternatives, at, () => true) !== assertion.negate;
      case "lookbehind": {
        // From each place before: the patterns of the project look back a few characters at the most.
        let found = false;
        for (let from = at; from >= Math.max(0, at - 4) && !found; from -= 1) {
          found = this.alternatives(assertion.alternatives, from, (end) => end === at);
        }
        return found !== assertion.negate;
      }
    }
  }

  /** How many code units a piece of the pattern takes at a place, or 0. */
  private single(raw: string): (text: string, at: number) => number {
    let test = this.singles.get(raw);
    if (test === undefined) {
      const pattern = new RegExp(raw, `${this.flags.replace(/[gymd]/g, "")}y`);
      test = (text, at) => {
        pattern.lastIndex = at;
        return pattern.exec(text)?.[0].length ?? 0;
      };
      this.singles.set(raw, test);
    }
    return test;
  }
}

function isSingle(element: AST.Element): boolean {
  return ["Character", "CharacterClass", "CharacterSet", "ExpressionCharacterClass"].includes(element.type);
}

/**
 * How many steps a pattern takes to be looked for in a text, from each place until it is found; nothing is found anew after
 * that.
 * @throws TooManySteps where it takes more than `most`
 */
export function stepsOf({ source, flags }: RegExp, text: string, most: number): { found: boolean; steps: number } {
  const pattern = new RegExpParser().parsePattern(source, 0, source.length, {
    unicode: flags.includes("u"),
    unicodeSets: flags.includes("v"),
  });
  const matcher = new Matcher(flags, text, most);
  for (let at = 0; at <= text.length; at += 1) {
    if (matcher.alternatives(pattern.alternatives, at, () => true)) return { found: true, steps: matcher.steps };
  }
  return { found: false, steps: matcher.steps };
}
