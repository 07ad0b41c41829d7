/** The Pictures part: what would rather be looked at than read, drawn from the season's sheets. */
import { element, setOptions } from "../../ui/dom";
import { leftOutNote } from "../../season/left-out-note";
import { seasonsAmong, type SeasonKey } from "../../season/season-data";
import type { Part, PartContext } from "../part";
import { reasonOf } from "../../words/reason";
import { seasonInView } from "../../season/season-in-view";
import { texts } from "../../words/texts";
import { answerFor, nothingYet } from "./picture-answers";
import { choicesFor, PICTURE_KINDS, settled, type PictureChoice, type PictureKind } from "./picture-choices";
import { readPictures, type PictureData } from "./picture-data";
import { figureOf } from "./picture";

export const picturesPart: Part = {
  id: "pictures",
  get title() {
    return texts.picturesTitle;
  },
  mount,
};

const draftName = "pictures";
const NARROWEST = 240;
const WIDEST = 640;
/** A scroll bar that comes and goes is no new width. */
const WIDTH_STEP = 20;

function mount(panel: HTMLElement, { host, drafts, open, whenShown, whenChanged }: PartContext): void {
  const controls = drawn();
  const { kinds, season, athlete, trick, next } = controls;
  panel.append(element("h2", { class: "twirl-unseen" }, texts.picturesTitle), ...controls.blocks);
  const pictures = new Pictures(controls, { panel, host, drafts });

  for (const input of kinds) {
    input.addEventListener("change", () => pictures.choose({ kind: input.value as PictureKind }));
  }
  season.addEventListener("change", () => void pictures.look(season.value));
  athlete.addEventListener("change", () => pictures.choose({ athlete: athlete.value }));
  trick.addEventListener("change", () => pictures.choose({ trick: trick.value }));
  next.addEventListener("click", () => open(next.dataset["part"] ?? ""));
  whenShown(() => void pictures.look());
  whenChanged(() => pictures.look());
  // The coach comes back from the sheet, where rows may have changed.
  panel.addEventListener("focusin", (event) => {
    if (!(event.relatedTarget instanceof Node) || !panel.contains(event.relatedTarget)) void pictures.look();
  });
  if (typeof ResizeObserver !== "undefined") new ResizeObserver(() => pictures.fit()).observe(panel);
}

interface Controls {
  readonly season: HTMLSelectElement;
  readonly athlete: HTMLSelectElement;
  readonly trick: HTMLSelectElement;
  /** Each choice with its label. */
  readonly lines: Readonly<Record<"season" | "athlete" | "trick", HTMLElement>>;
  readonly kinds: readonly HTMLInputElement[];
  readonly choices: HTMLElement;
  readonly status: HTMLElement;
  readonly next: HTMLButtonElement;
  readonly nextLine: HTMLElement;
  readonly frame: HTMLElement;
  readonly leftOut: ReturnType<typeof leftOutNote>;
  /** All of it, in the order in which it stands. */
  readonly blocks: readonly HTMLElement[];
}

function drawn(): Controls {
  const season = element("select", { id: "twirl-pictures-season" });
  const athlete = element("select", { id: "twirl-pictures-athlete" });
  const trick = element("select", { id: "twirl-pictures-trick" });
  const lines = {
    season: line(season, texts.seasonLabel),
    athlete: line(athlete, texts.athleteLabel),
    trick: line(trick, texts.trickLabel),
  };
  const kinds = PICTURE_KINDS.map((kind) =>
    element("input", { type: "radio", name: "twirl-picture-kind", value: kind, id: `twirl-picture-${kind}` }),
  );
  const choices = element(
    "div",
    { hidden: true },
    kindChoice(kinds),
    element("div", { class: "twirl-pictures-of" }, lines.season, lines.athlete, lines.trick),
  );
  const status = element("p", { role: "status", class: "twirl-status" });
  const next = element("button", { type: "button", class: "twirl-button twirl-button-main" });
  const nextLine = element("div", { class: "twirl-actions", hidden: true }, next);
  const frame = element("div", {});
  const leftOut = leftOutNote();
  const blocks = [choices, status, nextLine, frame, leftOut.block];
  return { season, athlete, trick, lines, kinds, choices, status, next, nextLine, frame, leftOut, blocks };
}

function kindChoice(kinds: readonly HTMLInputElement[]): HTMLElement {
  const labels = kinds.map((input, index) =>
    element(
      "label",
      { class: "twirl-kind", for: input.id },
      input,
      element("span", {}, texts.pictureNames[PICTURE_KINDS[index] as PictureKind]),
    ),
  );
  return element(
    "fieldset",
    { class: "twirl-kinds" },
    element("legend", {}, texts.picturesWhich),
    element("div", { class: "twirl-kinds-grid" }, ...labels),
  );
}

/** Which picture is shown, and what it is made of. */
class Pictures {
  private data: PictureData | null = null;
  private wanted: PictureChoice;
  private width = 0;
  private readings = 0;
  private readonly view: ReturnType<typeof seasonInView>;

  constructor(
    private readonly controls: Controls,
    private readonly around: Pick<PartContext, "host" | "drafts"> & { readonly panel: HTMLElement },
  ) {
    this.wanted = choiceFrom(around.drafts.read(draftName));
    this.view = seasonInView(around.host);
  }

  choose(changes: Partial<PictureChoice>): void {
    const { data, wanted } = this;
    this.wanted = { ...(data === null ? wanted : (settled(data, { ...wanted, ...changes }) ?? wanted)), ...changes };
    this.around.drafts.keep(draftName, this.wanted);
    this.controls.status.classList.remove("twirl-unseen");
    this.show();
  }

  /** Reads the sheets again; of the season in sight, or of one that was chosen. */
  async look(key?: SeasonKey): Promise<void> {
    const mine = ++this.readings;
    if (this.data === null) this.tell(texts.picturesReading, null);
    try {
      const { tables } = await this.around.host.namesInUse();
      const keys = seasonsAmong(tables);
      const turned = await this.view.turnedTo(keys);
      const asked = key ?? turned ?? this.data?.season.key;
      const first = keys.find((one) => one === asked) ?? keys[0];
      const read = first === undefined ? null : await readPictures(this.around.host, first);
      // Drawn anew only where something has changed: what is just being pressed must not be taken from under the finger.
      if (mine !== this.readings || (read !== null && key === undefined && same(read, this.data))) return;
      this.take(read, keys);
    } catch (cause) {
      if (mine !== this.readings) return;
      this.data = null;
      this.controls.leftOut.show(null);
      this.tell(texts.picturesNotRead(reasonOf(cause)), null);
    }
  }

  /** Draws anew where the pane has become wider or narrower. */
  fit(): void {
    const { panel } = this.around;
    if (panel.clientWidth > 0 && Math.abs(widthOf(panel) - this.width) >= WIDTH_STEP) this.show();
  }

  private take(read: PictureData | null, keys: readonly SeasonKey[]): void {
    const { leftOut, choices, season, lines, status } = this.controls;
    this.data = read;
    leftOut.show(read?.season ?? null);
    choices.hidden = read === null;
    if (read === null) return this.tell(texts.picturesNoSeason, "new-season");
    setOptions(
      season,
      keys.map((value) => ({ value, words: value.replaceAll("_", " ") })),
      read.season.key,
    );
    lines.season.hidden = keys.length < 2;
    status.classList.remove("twirl-unseen");
    this.show();
  }

  private show(): void {
    const { data, wanted } = this;
    if (data === null) return;
    const chosen = settled(data, wanted);
    this.showChoices(data, chosen);
    if (chosen === null) {
      const isLogged = wanted.kind === "record" || wanted.kind === "failing";
      return this.tell(nothingYet(wanted.kind), isLogged ? "log-set" : null);
    }
    this.width = widthOf(this.around.panel);
    const answer = answerFor(data, chosen, this.width);
    if ("words" in answer) return this.tell(answer.words, null);
    const { status, nextLine, frame } = this.controls;
    nextLine.hidden = true;
    const before = frame.querySelector("details");
    frame.replaceChildren(figureOf(answer.picture, before?.open ?? false));
    // A new picture is told by its title; its facts stand below it.
    if (status.textContent !== answer.picture.title) status.textContent = answer.picture.title;
    status.classList.add("twirl-unseen");
  }

  private showChoices(data: PictureData, chosen: PictureChoice | null): void {
    const { kinds, athlete, trick, lines } = this.controls;
    const { kind, athlete: wantedAthlete } = this.wanted;
    const offered = choicesFor(data, kind, chosen?.athlete ?? wantedAthlete);
    for (const input of kinds) input.checked = input.value === kind;
    setOptions(athlete, asOptions(offered.athletes), chosen?.athlete ?? "");
    setOptions(trick, asOptions(offered.tricks), chosen?.trick ?? "");
    lines.athlete.hidden = offered.athletes === null || chosen === null;
    lines.trick.hidden = offered.tricks === null || chosen === null;
  }

  /** Words instead of a picture, with the way to what is missing where another part has it. */
  private tell(words: string, partId: "log-set" | "new-season" | null): void {
    const { status, frame, next, nextLine } = this.controls;
    status.textContent = words;
    frame.replaceChildren();
    nextLine.hidden = partId === null;
    if (partId === null) return;
    next.textContent = partId === "log-set" ? texts.logSetTitle : texts.goToNewSeason;
    next.dataset["part"] = partId;
  }
}

function same(one: PictureData, other: PictureData | null): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

function widthOf(panel: HTMLElement): number {
  return Math.min(WIDEST, Math.max(NARROWEST, panel.clientWidth));
}

function line(control: HTMLSelectElement, label: string): HTMLElement {
  return element("div", { class: "twirl-field", hidden: true }, element("label", { for: control.id }, label), control);
}

function asOptions(names: readonly string[] | null): { value: string; words: string }[] {
  return (names ?? []).map((name) => ({ value: name, words: name }));
}

function choiceFrom(draft: unknown): PictureChoice {
  const found = (typeof draft === "object" && draft !== null ? draft : {}) as Partial<
    Record<keyof PictureChoice, unknown>
  >;
  const kind = PICTURE_KINDS.find((one) => one === found.kind) ?? "record";
  const word = (value: unknown): string => (typeof value === "string" ? value : "");
  return { kind, athlete: word(found.athlete), trick: word(found.trick) };
}
