/** How a club's log is to be read where its cells can be read in several ways: days, empty cells, marks, stages. */
import { turnedBack } from "../../../core/log-layout/as-read";
import { isLoggedDay, showsDate, shownAt, valueAt } from "../../../core/log-layout/cell-block";
import type { DateOrder, DateTextForm } from "../../../core/log-layout/date-text";
import type { Corrections } from "../../../core/log-layout/find-layout";
import type { BlankMeaning, LoneMarks } from "../../../core/log-layout/lone-marks";
import type { FilledDownRole, TallyReading, TurnedOrder } from "../../../core/log-layout/mapping";
import type { FoundSums } from "../../../core/log-layout/sum-rows";
import { readTally, tallyNumbers, type TallyFinding } from "../../../core/log-layout/tally-reading";
import { element } from "../../ui/dom";
import type { OwnSheetView } from "./own-sheet-state";
import { texts } from "../../words/texts";

interface ReadingChoices {
  readonly block: HTMLElement;
  show(view: OwnSheetView): void;
  /** The stages that are ticked as practised apart. */
  stagesApart(): readonly string[];
  /** Puts the focus on a question that is open. */
  focus(question: "key" | "blank" | "tally"): void;
}

/** More would be a column of something else. */
const MOST_STAGES = 12;

/** @param correct told what the coach says; the rest is then looked at anew */
export function readingChoices(correct: (corrections: Corrections) => void): ReadingChoices {
  const days = element("div", {});
  const down = element("div", {});
  const key = element("div", {});
  const blank = element("div", {});
  const tally = element("div", {});
  const turned = element("div", {});
  const stages = element("div", {});
  const sums = element("div", {});
  const all = [days, down, key, blank, tally, turned, stages, sums];
  const block = element("fieldset", {}, element("legend", {}, texts.ownSheetReadAs), ...all);

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
      const { loneMarks } = view;
      const { tallies, sums: foundSums } = view.layout;
      const asksForBlank = loneMarks !== null && loneMarks.meanings.length > 0;
      draw(blank, loneMarks, () => (asksForBlank ? [blanks(loneMarks, say)] : []));
      draw(tally, tallies, () => (tallies !== null && asksForTally(tallies) ? [tallyReadings(tallies, say)] : []));
      const turnedTallies = turnedExamples(view);
      draw(turned, turnedTallies, () => (turnedTallies.length === 0 ? [] : [turnedOrders(turnedTallies, say)]));
      draw(sums, foundSums, () => (foundSums === null ? [] : [sumRows(foundSums, say)]));
      for (const radio of blank.querySelectorAll("input")) {
        const { blank: said } = view.corrections;
        radio.checked = said !== undefined && radio.value === meaningValue({ key: mapping.key, blank: said });
      }
      for (const radio of tally.querySelectorAll("input")) {
        radio.checked = !view.open.includes("tally") && radio.value === mapping.tally;
      }
      const order = turned.querySelector("select");
      if (order) order.value = mapping.turned ?? LEAVE;
      for (const box of sums.querySelectorAll("input")) {
        box.checked = mapping.sums?.texts.includes(box.value) === true;
      }
      draw(stages, [mapping.stage, view.stages], () => (view.stages.length === 0 ? [] : [apart(view)]));
      const daySelect = days.querySelector("select");
      if (daySelect) daySelect.value = mapping.dateText === null ? LEAVE : formValue(mapping.dateText);
      for (const box of down.querySelectorAll("input")) {
        box.checked = mapping.filledDown.includes(box.value as FilledDownRole);
      }
      for (const radio of key.querySelectorAll("input")) {
        radio.checked = !view.isKeyOpen && radio.value === (mapping.key ?? USUAL);
      }
      block.hidden = all.every((part) => part.childElementCount === 0);
    },
    stagesApart: () => [...stages.querySelectorAll("input")].filter(({ checked }) => checked).map(({ value }) => value),
    focus: (question) => ({ key, blank, tally })[question].querySelector("input")?.focus(),
  };
}

/* ---- days as text ---- */

const LEAVE = "leave";
const formValue = (form: DateTextForm): string => JSON.stringify(form);

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
      element(
        "option",
        { value: formValue(form) },
        form.places ? texts.ownSheetMonthInWords : formWords()[form.order](form.separator),
      ),
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

/* ---- cells that are empty, tallies, sums ---- */

const meaningValue = ({ key, blank }: BlankMeaning): string => JSON.stringify([key, blank]);

/** A question that is answered by one of several; nothing is chosen for the coach. */
function question(
  name: string,
  legend: string,
  hint: string,
  answers: readonly { readonly value: string; readonly words: string }[],
  choose: (value: string) => void,
): HTMLElement {
  const group = element(
    "fieldset",
    { class: "twirl-choices" },
    element("legend", {}, legend),
    element("p", { class: "twirl-hint" }, hint),
    ...answers.map(({ value, words }) =>
      element(
        "label",
        { class: "twirl-choice" },
        element("input", { type: "radio", name, value }),
        element("span", {}, words),
      ),
    ),
  );
  group.addEventListener("change", () => {
    const chosen = [...group.querySelectorAll("input")].find(({ checked }) => checked);
    if (chosen) choose(chosen.value);
  });
  return group;
}

function blanks(marks: LoneMarks, say: (corrections: Corrections) => void): HTMLElement {
  const answers = marks.meanings.map((meaning) => ({
    value: meaningValue(meaning),
    words: blankWords(marks, meaning),
  }));
  const hint =
    marks.sign === null
      ? texts.ownSheetBlankHint(marks.marked, marks.empty)
      : texts.ownSheetLoneHint(marks.sign, marks.marked, marks.empty);
  return question("twirl-own-blank", texts.ownSheetBlank, hint, answers, (value) => {
    const chosen = marks.meanings.find((meaning) => meaningValue(meaning) === value);
    if (chosen) say({ key: chosen.key, blank: chosen.blank });
  });
}

function blankWords({ sign, meanings, width }: LoneMarks, { key, blank }: BlankMeaning): string {
  const empty = {
    caught: texts.ownSheetEmptyCaught(width),
    dropped: texts.ownSheetEmptyDropped(width),
    none: texts.ownSheetEmptyNone,
  }[blank ?? "none"];
  // Where the sign itself could be either, each answer says what it is.
  const isEither = sign !== null && new Set(meanings.map((one) => one.key)).size > 1;
  if (!isEither) return empty;
  const caught = key === null || key.split("/")[0] === sign.toLowerCase();
  return `${caught ? texts.ownSheetSignCaught(sign) : texts.ownSheetSignDropped(sign)}, ${empty}`;
}

/** Where the heading says it, the coach need not be asked; where it turns the tallies round, she may see it. */
const asksForTally = ({ sure, readings }: TallyFinding): boolean => !sure || readings[0] !== "caught/attempts";

function tallyReadings({ readings, examples }: TallyFinding, say: (corrections: Corrections) => void): HTMLElement {
  const [example = "8/10"] = examples;
  const numbers = tallyNumbers(example);
  const answers = readings.map((reading) => {
    const read = numbers === null ? null : readTally(numbers, reading);
    const words = read === null ? "" : texts.ownSheetTallyRead(example, read.caught, read.attempts);
    return { value: reading, words: [partWords(reading), words].filter(Boolean).join(": ") };
  });
  return question(
    "twirl-own-tally",
    texts.ownSheetTally,
    texts.ownSheetTallyHint(examples.join(", ")),
    answers,
    (tally) => say({ tally: tally as TallyReading }),
  );
}

function partWords(reading: TallyReading): string {
  const words = {
    caught: texts.ownSheetPartCaught,
    attempts: texts.ownSheetPartTried,
    dropped: texts.ownSheetPartDropped,
  };
  const [one, other] = reading.split("/") as [keyof typeof words, keyof typeof words];
  return `${words[one]}/${words[other]}`;
}

const TURNED_SHOWN = 3;

/** The first tallies that the spreadsheet has taken for days, as it shows them, and the numbers of each. */
function turnedExamples({ log: { block }, layout: { mapping } }: OwnSheetView): readonly {
  readonly shown: string;
  readonly day: number;
}[] {
  const found: { readonly shown: string; readonly day: number }[] = [];
  if (mapping.record?.kind !== "marks") return found;
  for (let row = mapping.firstRow; row <= mapping.lastRow && found.length < TURNED_SHOWN; row += 1) {
    for (let column = mapping.record.first; column <= mapping.record.last; column += 1) {
      const value = valueAt(block, row, column);
      if (!isLoggedDay(value) || showsDate(block, row, column) === false) continue;
      found.push({ shown: shownAt(block, row, column) ?? String(value), day: value });
    }
  }
  return found;
}

function turnedOrders(
  examples: ReturnType<typeof turnedExamples>,
  say: (corrections: Corrections) => void,
): HTMLElement {
  const id = "twirl-own-turned";
  const read = (order: TurnedOrder): string =>
    examples.map(({ shown, day }) => texts.ownSheetTurnedRead(shown, turnedBack(day, order))).join(", ");
  const select = element(
    "select",
    { id },
    element("option", { value: LEAVE }, texts.ownSheetTextDaysLeave),
    element("option", { value: "day/month" }, read("day/month")),
    element("option", { value: "month/day" }, read("month/day")),
  );
  select.addEventListener("change", () => {
    say({ turned: select.value === LEAVE ? null : (select.value as TurnedOrder) });
  });
  return element("div", { class: "twirl-field" }, element("label", { for: id }, texts.ownSheetTurnedTallies), select);
}

function sumRows({ texts: found }: FoundSums, say: (corrections: Corrections) => void): HTMLElement {
  const group = checks(
    texts.ownSheetSums,
    found.map(({ text, count }) => ({ value: text, words: texts.ownSheetStageCount(text, count), checked: true })),
  );
  group.addEventListener("change", () => {
    const ticked = [...group.querySelectorAll("input")].filter(({ checked }) => checked);
    say({ sums: ticked.map(({ value }) => value) });
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
