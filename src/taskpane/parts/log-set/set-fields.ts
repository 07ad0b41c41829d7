/** What the set is of: season, athlete, trick and stage, and folded away what is noted beside its marks. */
import { comparable } from "../../../core/text";
import { STAGES } from "../../../trade/stages";
import { PRACTICE } from "../../../workbook/season/season";
import type { SeasonData } from "../../season/season-data";
import { combobox } from "../../ui/combobox";
import { element, setAttribute, setText } from "../../ui/dom";
import { texts } from "../../words/texts";
import type { Field, FieldProblems, LogSet, LogSetState } from "./log-set";
import type { SetInHand } from "./set-in-hand";

/** How the set was done: folded away, since it is noted while something is tried out only. */
const WAY_FIELDS = ["entrance", "exit", "condition"] as const;
type WayField = (typeof WAY_FIELDS)[number];

const MOST_SUGGESTIONS = 12;

/**
 * What was noted there last, this athlete's this trick first, then the trick's, then all; of conditions the season's list
 * as well.
 */
function lastWords({ log, conditions }: SeasonData, { athlete, trick }: SetInHand, name: WayField): readonly string[] {
  const noted = log.filter((row) => row[name] !== "").reverse();
  const ofTrick = noted.filter((row) => comparable(row.trick) === comparable(trick));
  const own = ofTrick.filter((row) => comparable(row.athlete) === comparable(athlete));
  const found = new Map<string, string>();
  const words = [...own, ...ofTrick, ...noted].map((row) => row[name]);
  for (const one of [...words, ...(name === "condition" ? conditions : [])]) {
    if (found.size === MOST_SUGGESTIONS) break;
    if (!found.has(comparable(one))) found.set(comparable(one), one);
  }
  return [...found.values()];
}

/** Those that are folded away, in their order. */
const FOLDED = ["dayTyped", "minutes", ...WAY_FIELDS] as const;

export class SetFields {
  readonly blocks: readonly HTMLElement[];
  private readonly season = element("select", { id: "twirl-log-season" });
  private readonly stage = element(
    "select",
    { id: "twirl-log-stage" },
    ...STAGES.map((name) => element("option", { value: name }, name)),
  );
  private readonly minutes = textField("twirl-log-minutes", { inputmode: "decimal" });
  private readonly note = textField("twirl-log-note");
  private readonly day = textField("twirl-log-day");
  private readonly athlete: ReturnType<typeof combobox>;
  private readonly trick: ReturnType<typeof combobox>;
  private readonly ways: readonly { readonly name: WayField; readonly box: ReturnType<typeof combobox> }[];
  private readonly plain = {
    season: field(this.season, texts.seasonLabel),
    stage: field(this.stage, texts.stageLabel),
    minutes: field(this.minutes, texts.minutesLabel),
    dayTyped: field(this.day, texts.dayLabel),
    note: field(this.note, texts.noteLabel),
  };
  private readonly lacking: HTMLElement;
  private readonly more: HTMLDetailsElement;
  /** The field to which the last order to save has led. */
  private asked: Field | null = null;

  constructor(log: LogSet) {
    const { season, stage, minutes, note, day, plain } = this;
    const names = (name: "athlete" | "trick", label: string): ReturnType<typeof combobox> =>
      combobox({ id: `twirl-log-${name}`, label, chosen: (value) => log.choose({ [name]: value }) });
    this.athlete = names("athlete", texts.athleteLabel);
    this.trick = names("trick", texts.trickLabel);
    this.ways = WAY_FIELDS.map((name) => ({
      name,
      box: combobox({
        id: `twirl-log-${name}`,
        label: texts.wayLabels[name],
        chosen: (value) => log.write({ [name]: value }),
      }),
    }));
    this.lacking = lackingColumns(() => void log.addColumns());
    this.more = element(
      "details",
      { class: "twirl-more" },
      element("summary", {}, texts.minutesAndNote),
      plain.dayTyped.block,
      plain.minutes.block,
      ...this.ways.map(({ box }) => box.block),
      this.lacking,
      plain.note.block,
    );
    this.blocks = [plain.season.block, this.athlete.block, this.trick.block, plain.stage.block, this.more];
    season.addEventListener("change", () => log.choose({ season: season.value }));
    stage.addEventListener("change", () => log.choose({ stage: stage.value }));
    minutes.addEventListener("input", () => log.write({ minutes: minutes.value }));
    note.addEventListener("input", () => log.write({ note: note.value }));
    day.addEventListener("input", () => log.write({ dayTyped: day.value }));
  }

  show({ book, set }: LogSetState): void {
    const data = book.kind === "ready" ? book.data : null;
    this.showSeasons(book.kind === "ready" ? book.seasons : [], set.season);
    if (data !== null) {
      this.athlete.setOptions(data.athletes);
      this.trick.setOptions(data.tricks);
    }
    this.athlete.setValue(set.athlete);
    this.trick.setValue(set.trick);
    this.stage.value = set.stage;
    this.showWays(data, set);
    for (const [control, value] of [
      [this.minutes, set.minutes],
      [this.note, set.note],
      [this.day, set.dayTyped],
    ] as const) {
      if (control.value !== value) control.value = value;
    }
    const typed = [set.minutes, set.note, set.dayTyped, ...WAY_FIELDS.map((name) => set[name])];
    if (typed.some((words) => words !== "")) this.more.open = true;
  }

  showProblems(problems: FieldProblems): void {
    const { plain } = this;
    this.athlete.setProblem(problems.athlete ?? null);
    this.trick.setProblem(problems.trick ?? null);
    for (const name of ["season", "stage", "minutes", "dayTyped"] as const)
      plain[name].setProblem(problems[name] ?? null);
    for (const { name, box } of this.ways) box.setProblem(problems[name] ?? null);
    if (FOLDED.some((name) => problems[name] !== undefined)) this.more.open = true;
    const first = (["season", "athlete", "trick", "stage", ...FOLDED] as const).find((name) => problems[name]);
    // Once for each order to save, not at every change while the message stands.
    if (first !== undefined && first !== this.asked) this.controlOf(first).focus();
    this.asked = first ?? null;
  }

  private showSeasons(seasons: readonly string[], chosen: string): void {
    const named = chosen === "" || seasons.includes(chosen) ? seasons : [...seasons, chosen];
    this.plain.season.block.hidden = named.length < 2;
    replaceOptions(this.season, named, (key) => key.replaceAll("_", " "));
    this.season.value = chosen;
  }

  private showWays(data: SeasonData | null, set: SetInHand): void {
    const lacking: readonly string[] = data?.lackingColumns ?? [];
    this.lacking.hidden = lacking.length === 0;
    for (const { name, box } of this.ways) {
      if (data !== null) box.setOptions(lastWords(data, set, name));
      box.setValue(set[name]);
      // What is typed already stays in sight where the log has no column for it.
      box.block.hidden = set[name] === "" && lacking.includes(PRACTICE[name]);
    }
  }

  private controlOf(name: "season" | "athlete" | "trick" | "stage" | (typeof FOLDED)[number]): HTMLElement {
    const { season, stage, minutes, day } = this;
    const plain = { season, athlete: this.athlete.input, trick: this.trick.input, stage, minutes, dayTyped: day };
    const way = this.ways.find((one) => one.name === name)?.box.input;
    return way ?? plain[name as keyof typeof plain];
  }
}

function textField(id: string, more: Readonly<Record<string, string>> = {}): HTMLInputElement {
  return element("input", { id, type: "text", ...more, autocomplete: "off" });
}

/** Says that the log has no columns for what is noted here, with a button that adds them. */
function lackingColumns(add: () => void): HTMLElement {
  const button = element("button", { type: "button", class: "twirl-button" }, texts.addColumns);
  button.addEventListener("click", add);
  return element(
    "div",
    { class: "twirl-line", hidden: true },
    element("p", { class: "twirl-quiet" }, texts.columnsLacking),
    element("div", { class: "twirl-actions" }, button),
  );
}

interface PlainField {
  readonly block: HTMLElement;
  setProblem(words: string | null): void;
}

function field(control: HTMLInputElement | HTMLSelectElement, label: string): PlainField {
  const problemId = `${control.id}-problem`;
  const problem = element("p", { id: problemId, class: "twirl-problem" });
  return {
    block: element("div", { class: "twirl-line" }, element("label", { for: control.id }, label), control, problem),
    setProblem: (words) => {
      setText(problem, words ?? "");
      setAttribute(control, "aria-invalid", words === null ? null : "true");
      setAttribute(control, "aria-describedby", words === null ? null : problemId);
    },
  };
}

function replaceOptions(select: HTMLSelectElement, values: readonly string[], words: (value: string) => string): void {
  const present = [...select.options].map(({ value }) => value);
  if (present.length === values.length && values.every((value, index) => value === present[index])) return;
  select.replaceChildren(...values.map((value) => element("option", { value }, words(value))));
}
