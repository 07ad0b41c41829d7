/** How a club's log is to be read where its cells can be read in several ways: days, empty cells, marks, stages. */
import type { DateOrder, DateTextForm } from "../../../core/log-layout/date-text";
import type { Corrections } from "../../../core/log-layout/find-layout";
import type { FilledDownRole } from "../../../core/log-layout/mapping";
import { element } from "../../ui/dom";
import type { OwnSheetView } from "./own-sheet-state";
import { texts } from "../../words/texts";

export interface ReadingChoices {
  readonly block: HTMLElement;
  show(view: OwnSheetView): void;
  /** The stages that are ticked as practised apart. */
  stagesApart(): readonly string[];
  /** Puts the focus on the marks' meaning. */
  focusKey(): void;
}

/** More would be a column of something else. */
const MOST_STAGES = 12;

/** @param correct told what the coach says; the rest is then looked at anew */
export function readingChoices(correct: (corrections: Corrections) => void): ReadingChoices {
  const days = element("div", {});
  const down = element("div", {});
  const key = element("div", {});
  const stages = element("div", {});
  const block = element("fieldset", {}, element("legend", {}, texts.ownSheetReadAs), days, down, key, stages);

  let known: OwnSheetView | null = null;
  const say = (corrections: Corrections): void => correct({ ...known?.corrections, ...corrections });
  // What is offered is drawn anew only where it has changed: the focus stays where it is.
  const drawn = new Map<HTMLElement, string>();
  const draw = (on: HTMLElement, about: unknown, make: () => readonly HTMLElement[]): void => {
    const key = JSON.stringify(about);
    if (drawn.get(on) === key) return;
    drawn.set(on, key);
    on.replaceChildren(...make());
  };

  return {
    block,
    show: (view) => {
      known = view;
      const { dateTexts, mapping, filledDownOffered } = view.layout;
      draw(days, dateTexts, () => (dateTexts.forms.length === 0 ? [] : [dayForms(view, say)]));
      draw(down, filledDownOffered, () => (filledDownOffered.length === 0 ? [] : [fillDown(view, say)]));
      draw(key, view.suggestion, () => (view.suggestion === null ? [] : [keys(view, say)]));
      draw(stages, [mapping.stage, view.stages], () => (view.stages.length === 0 ? [] : [apart(view)]));
      const daySelect = days.querySelector("select");
      if (daySelect) daySelect.value = mapping.dateText === null ? LEAVE : formValue(mapping.dateText);
      for (const box of down.querySelectorAll("input")) {
        box.checked = mapping.filledDown.includes(box.value as FilledDownRole);
      }
      for (const radio of key.querySelectorAll("input")) {
        radio.checked = !view.isKeyOpen && radio.value === (mapping.key ?? USUAL);
      }
      block.hidden = [days, down, key, stages].every((part) => part.childElementCount === 0);
    },
    stagesApart: () => [...stages.querySelectorAll("input")].filter(({ checked }) => checked).map(({ value }) => value),
    focusKey: () => key.querySelector("input")?.focus(),
  };
}

/* ---- days as text ---- */

const LEAVE = "leave";
const formValue = ({ order, separator }: DateTextForm): string => `${order} ${separator}`;

const formWords = (): Readonly<Record<DateOrder, (separator: string) => string>> => ({
  dmy: texts.ownSheetDayFirst,
  mdy: texts.ownSheetMonthFirst,
  ymd: texts.ownSheetYearFirst,
});

function dayForms({ layout: { dateTexts } }: OwnSheetView, say: (corrections: Corrections) => void): HTMLElement {
  const id = "twirl-own-days";
  const hint = element(
    "p",
    { id: `${id}-hint`, class: "twirl-hint" },
    texts.ownSheetTextDaysHint(dateTexts.count, dateTexts.forms.length > 1 ? dateTexts.readTwoWays : 0),
  );
  const select = element(
    "select",
    { id, "aria-describedby": hint.id },
    element("option", { value: LEAVE }, texts.ownSheetTextDaysLeave),
    ...dateTexts.forms.map((form) =>
      element("option", { value: formValue(form) }, formWords()[form.order](form.separator)),
    ),
  );
  select.addEventListener("change", () => {
    say({ dateText: dateTexts.forms.find((form) => formValue(form) === select.value) ?? null });
  });
  return element("div", { class: "twirl-field" }, element("label", { for: id }, texts.ownSheetTextDays), hint, select);
}

/* ---- cells filled once for several rows ---- */

const roleWords = (): Readonly<Record<FilledDownRole, string>> => ({
  date: texts.ownSheetDate,
  athlete: texts.athleteLabel,
  trick: texts.trickLabel,
});

function fillDown({ layout }: OwnSheetView, say: (corrections: Corrections) => void): HTMLElement {
  const group = checks(
    texts.ownSheetFilledDown,
    layout.filledDownOffered.map((role) => ({ value: role, words: roleWords()[role], checked: false })),
  );
  group.addEventListener("change", () => {
    const ticked = [...group.querySelectorAll("input")].filter(({ checked }) => checked);
    say({ filledDown: ticked.map(({ value }) => value as FilledDownRole) });
  });
  return group;
}

/* ---- marks ---- */

const USUAL = "usual";

function keys({ suggestion }: OwnSheetView, say: (corrections: Corrections) => void): HTMLElement {
  const signs = suggestion?.signs.map(({ sign, count }) => texts.ownSheetSignCount(sign, count)).join(", ") ?? "";
  const offered = (suggestion?.keys ?? []).map((key) => {
    const [caught = "", dropped = "", bailed] = key.split("/");
    const words =
      bailed === undefined ? texts.ownSheetKeyTwo(caught, dropped) : texts.ownSheetKeyThree(caught, dropped, bailed);
    return { value: key, words };
  });
  const group = element(
    "fieldset",
    { class: "twirl-choices" },
    element("legend", {}, texts.ownSheetKey),
    element("p", { class: "twirl-hint" }, texts.ownSheetKeyHint(signs)),
    ...[...offered, { value: USUAL, words: texts.ownSheetKeyUsual }].map(({ value, words }) =>
      element(
        "label",
        { class: "twirl-choice" },
        element("input", { type: "radio", name: "twirl-own-key", value }),
        element("span", {}, words),
      ),
    ),
  );
  group.addEventListener("change", () => {
    const chosen = [...group.querySelectorAll("input")].find(({ checked }) => checked);
    if (chosen) say({ key: chosen.value === USUAL ? null : chosen.value });
  });
  return group;
}

/* ---- stages ---- */

function apart({ stages }: OwnSheetView): HTMLElement {
  return checks(
    texts.ownSheetStagesApart,
    stages.slice(0, MOST_STAGES).map(({ stage, count, soundsApart }) => ({
      value: stage,
      words: texts.ownSheetStageCount(stage, count),
      checked: soundsApart,
    })),
  );
}

function checks(
  legend: string,
  boxes: readonly { readonly value: string; readonly words: string; readonly checked: boolean }[],
): HTMLElement {
  return element(
    "fieldset",
    { class: "twirl-choices" },
    element("legend", {}, legend),
    ...boxes.map(({ value, words, checked }) =>
      element(
        "label",
        { class: "twirl-choice" },
        element("input", { type: "checkbox", value, checked }),
        element("span", {}, words),
      ),
    ),
  );
}
