/** The Pictures part: what would rather be looked at than read, drawn from the season's sheets. */
import { element } from "../../ui/dom";
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
  const season = element("select", { id: "twirl-pictures-season" });
  const athlete = element("select", { id: "twirl-pictures-athlete" });
  const trick = element("select", { id: "twirl-pictures-trick" });
  const [seasonLine, athleteLine, trickLine] = [
    line(season, texts.seasonLabel),
    line(athlete, texts.athleteLabel),
    line(trick, texts.trickLabel),
  ];
  const kinds = PICTURE_KINDS.map((kind) =>
    element("input", { type: "radio", name: "twirl-picture-kind", value: kind, id: `twirl-picture-${kind}` }),
  );
  const choices = element(
    "div",
    { hidden: true },
    element(
      "fieldset",
      { class: "twirl-kinds" },
      element("legend", {}, texts.picturesWhich),
      element(
        "div",
        { class: "twirl-kinds-grid" },
        ...kinds.map((input, index) =>
          element(
            "label",
            { class: "twirl-kind", for: input.id },
            input,
            element("span", {}, texts.pictureNames[PICTURE_KINDS[index] as PictureKind]),
          ),
        ),
      ),
    ),
    element("div", { class: "twirl-pictures-of" }, seasonLine, athleteLine, trickLine),
  );
  const status = element("p", { role: "status", class: "twirl-status" });
  const next = element("button", { type: "button", class: "twirl-button twirl-button-main" });
  const nextLine = element("div", { class: "twirl-actions", hidden: true }, next);
  const frame = element("div", {});
  const leftOut = leftOutNote();
  panel.append(
    element("h2", { class: "twirl-unseen" }, texts.picturesTitle),
    ...[choices, status, nextLine, frame, leftOut.block],
  );

  let data: PictureData | null = null;
  let wanted: PictureChoice = choiceFrom(drafts.read(draftName));
  let width = 0;
  let reading = 0;
  const view = seasonInView(host);

  /** Words instead of a picture, with the way to what is missing where another part has it. */
  const tell = (words: string, partId: "log-set" | "new-season" | null): void => {
    status.textContent = words;
    frame.replaceChildren();
    nextLine.hidden = partId === null;
    if (partId === null) return;
    next.textContent = partId === "log-set" ? texts.logSetTitle : texts.goToNewSeason;
    next.dataset["part"] = partId;
  };

  const show = (): void => {
    if (data === null) return;
    const chosen = settled(data, wanted);
    const offered = choicesFor(data, wanted.kind, chosen?.athlete ?? wanted.athlete);
    for (const input of kinds) input.checked = input.value === wanted.kind;
    fill(athlete, offered.athletes ?? [], chosen?.athlete ?? "");
    fill(trick, offered.tricks ?? [], chosen?.trick ?? "");
    athleteLine.hidden = offered.athletes === null || chosen === null;
    trickLine.hidden = offered.tricks === null || chosen === null;
    if (chosen === null)
      return tell(nothingYet(wanted.kind), wanted.kind === "record" || wanted.kind === "failing" ? "log-set" : null);
    width = widthOf(panel);
    const answer = answerFor(data, chosen, width);
    if ("words" in answer) return tell(answer.words, null);
    nextLine.hidden = true;
    const before = frame.querySelector("details");
    frame.replaceChildren(figureOf(answer.picture, before?.open ?? false));
    // A new picture is told by its title; its facts stand below it.
    if (status.textContent !== answer.picture.title) status.textContent = answer.picture.title;
    status.classList.add("twirl-unseen");
  };

  const choose = (changes: Partial<PictureChoice>): void => {
    wanted = { ...(data === null ? wanted : (settled(data, { ...wanted, ...changes }) ?? wanted)), ...changes };
    drafts.keep(draftName, wanted);
    status.classList.remove("twirl-unseen");
    show();
  };

  const look = async (key?: SeasonKey): Promise<void> => {
    const mine = ++reading;
    if (data === null) tell(texts.picturesReading, null);
    try {
      const { tables } = await host.namesInUse();
      const keys = seasonsAmong(tables);
      const turned = await view.turnedTo(keys);
      const asked = key ?? turned ?? data?.season.key;
      const first = keys.find((one) => one === asked) ?? keys[0];
      const read = first === undefined ? null : await readPictures(host, first);
      // Drawn anew only where something has changed: what is just being pressed must not be taken from under the finger.
      if (mine !== reading || (read !== null && key === undefined && same(read, data))) return;
      data = read;
      leftOut.show(read?.season ?? null);
      choices.hidden = read === null;
      if (read === null) return tell(texts.picturesNoSeason, "new-season");
      fill(season, keys, read.season.key, (one) => one.replaceAll("_", " "));
      seasonLine.hidden = keys.length < 2;
      status.classList.remove("twirl-unseen");
      show();
    } catch (cause) {
      if (mine !== reading) return;
      data = null;
      leftOut.show(null);
      tell(texts.picturesNotRead(reasonOf(cause)), null);
    }
  };

  for (const input of kinds) input.addEventListener("change", () => choose({ kind: input.value as PictureKind }));
  season.addEventListener("change", () => void look(season.value));
  athlete.addEventListener("change", () => choose({ athlete: athlete.value }));
  trick.addEventListener("change", () => choose({ trick: trick.value }));
  next.addEventListener("click", () => open(next.dataset["part"] ?? ""));
  whenShown(() => void look());
  whenChanged(() => look());
  // The coach comes back from the sheet, where rows may have changed.
  panel.addEventListener("focusin", (event) => {
    if (!(event.relatedTarget instanceof Node) || !panel.contains(event.relatedTarget)) void look();
  });
  if (typeof ResizeObserver !== "undefined") {
    new ResizeObserver(() => {
      if (panel.clientWidth > 0 && Math.abs(widthOf(panel) - width) >= WIDTH_STEP) show();
    }).observe(panel);
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

/** Left alone where it holds this already: a list that is open would close. */
function fill(
  select: HTMLSelectElement,
  values: readonly string[],
  chosen: string,
  words: (value: string) => string = (value) => value,
): void {
  const present = [...select.options].map(({ value }) => value);
  if (present.length !== values.length || values.some((value, index) => value !== present[index])) {
    select.replaceChildren(...values.map((value) => element("option", { value }, words(value))));
  }
  select.value = chosen;
}

function choiceFrom(draft: unknown): PictureChoice {
  const found = (typeof draft === "object" && draft !== null ? draft : {}) as Partial<
    Record<keyof PictureChoice, unknown>
  >;
  const kind = PICTURE_KINDS.find((one) => one === found.kind) ?? "record";
  const word = (value: unknown): string => (typeof value === "string" ? value : "");
  return { kind, athlete: word(found.athlete), trick: word(found.trick) };
}
