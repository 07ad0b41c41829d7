/** The choices of columns in the Use my sheet part: what was found, and a way to say otherwise. */
import { isError, shownAt, valueAt } from "../../../core/log-layout/cell-block";
import { chosenColumns, type Corrections, type LogLayout } from "../../../core/log-layout/find-layout";
import type { Finding, FoundRole } from "../../../core/log-layout/findings";
import type { NameSource, RecordColumns } from "../../../core/log-layout/mapping";
import { columnLetters } from "../../../core/sheet";
import { element } from "../../ui/dom";
import type { OwnSheetView } from "./own-sheet-state";
import { texts } from "../../words/texts";

interface ColumnChoices {
  readonly block: HTMLElement;
  /** Shows what is known now. */
  show(view: OwnSheetView): void;
  /** Puts the focus on the choice of a role. */
  focus(role: FoundRole): void;
  /** Puts the focus where the coach says that the columns are right. */
  focusConfirm(): void;
}

interface Choice {
  readonly block: HTMLElement;
  readonly select: HTMLSelectElement;
  readonly hint: HTMLElement;
}

type Kind = "marks" | "many" | "caught-attempts" | "caught-dropped" | "attempts-dropped";
const KINDS: readonly (readonly [Kind, string])[] = [
  ["marks", texts.ownSheetMarks],
  ["many", texts.ownSheetManyMarks],
  ["caught-attempts", texts.ownSheetCaughtAttempts],
  ["caught-dropped", texts.ownSheetCaughtDropped],
  ["attempts-dropped", texts.ownSheetAttemptsDropped],
];

const NONE = "";
const ONE_FOR_ALL = "same";
const OVER = "over";

/** @param correct told what the coach says; the rest is then looked at anew */
export function columnChoices(correct: (corrections: Corrections) => void): ColumnChoices {
  const date = choice("date", texts.ownSheetDate);
  const athlete = choice("athlete", texts.athleteLabel);
  const trick = choice("trick", texts.trickLabel);
  const stage = choice("stage", texts.stageLabel, true);
  const kind = choice("kind", texts.ownSheetAttempts);
  const marks = choice("marks", texts.ownSheetMarksColumn);
  const first = choice("first", texts.ownSheetFirstMarks);
  const last = choice("last", texts.ownSheetLastMarks);
  const caught = choice("caught", texts.ownSheetCaught);
  const tried = choice("tried", texts.ownSheetTried);
  const dropped = choice("dropped", texts.ownSheetDropped);
  const bailed = choice("bailed", texts.ownSheetBailed, true);
  const confirm = confirmation();
  const athleteName = nameForAll("athlete-name", texts.ownSheetAthleteForAll);
  const trickName = nameForAll("trick-name", texts.ownSheetTrickForAll);
  const columnSelects = [date, athlete, trick, stage, marks, first, last, caught, tried, dropped, bailed];

  kind.select.append(...KINDS.map(([value, words]) => element("option", { value }, words)));
  const block = element(
    "fieldset",
    {},
    element("legend", {}, texts.ownSheetColumns),
    date.block,
    athlete.block,
    athleteName.block,
    trick.block,
    trickName.block,
    stage.block,
    kind.block,
    marks.block,
    first.block,
    last.block,
    caught.block,
    tried.block,
    dropped.block,
    bailed.block,
    confirm.block,
  );

  let known: OwnSheetView | null = null;
  const say = (corrections: Corrections): void => correct({ ...known?.corrections, ...corrections });
  const chosenColumn = ({ select }: Choice): number | null => (select.value === NONE ? null : Number(select.value));

  date.select.addEventListener("change", () => say({ date: chosenColumn(date) }));
  stage.select.addEventListener("change", () => say({ stage: chosenColumn(stage) }));
  const sayName = (role: "athlete" | "trick", of: Choice, name: HTMLInputElement): void => {
    const source: NameSource | null =
      of.select.value === ONE_FOR_ALL
        ? { name: name.value.trim() }
        : of.select.value === NONE
          ? null
          : of.select.value.startsWith(OVER)
            ? { over: Number(of.select.value.slice(OVER.length)) }
            : { column: Number(of.select.value) };
    say({ [role]: source });
  };
  for (const [role, of, { input }] of [
    ["athlete", athlete, athleteName],
    ["trick", trick, trickName],
  ] as const) {
    of.select.addEventListener("change", () => {
      sayName(role, of, input);
      if (of.select.value === ONE_FOR_ALL) input.focus();
    });
    input.addEventListener("input", () => sayName(role, of, input));
  }
  const sayRecord = (): void => {
    const record = recordOf(kind.select.value as Kind, {
      marks: chosenColumn(marks),
      first: chosenColumn(first),
      last: chosenColumn(last),
      caught: chosenColumn(caught),
      attempts: chosenColumn(tried),
      dropped: chosenColumn(dropped),
      bailed: chosenColumn(bailed),
    });
    // What was said of other marks does not hold for these.
    correct({ ...without(known?.corrections ?? {}, ["key", "blank", "tally"]), record });
  };
  for (const { select } of [kind, marks, first, last, caught, tried, dropped, bailed]) {
    select.addEventListener("change", sayRecord);
  }

  confirm.box.addEventListener("change", () => {
    if (known && confirm.box.checked) say({ confirmed: chosenColumns(known.layout.mapping) });
    else if (known) {
      correct(without(known.corrections, ["confirmed"]));
    }
  });

  const showRecord = (view: OwnSheetView): void => {
    const { record } = view.layout.mapping;
    // Another log begins without the choice that was made for the one before.
    if (known?.log !== view.log && record === null && view.corrections.record === undefined)
      kind.select.value = "marks";
    if (record !== null) kind.select.value = kindOf(record);
    const shown = kind.select.value as Kind;
    const numbers = (part: string): boolean => shown.includes("-") && shown.split("-").includes(part);
    marks.block.hidden = shown !== "marks";
    first.block.hidden = last.block.hidden = shown !== "many";
    caught.block.hidden = !numbers("caught");
    tried.block.hidden = !numbers("attempts");
    dropped.block.hidden = bailed.block.hidden = !numbers("dropped");
    if (record?.kind === "marks") {
      choose(marks, record.first);
      choose(first, record.first);
      choose(last, record.last);
    } else if (record) {
      if ("caught" in record) choose(caught, record.caught);
      if ("attempts" in record) choose(tried, record.attempts);
      if ("dropped" in record) choose(dropped, record.dropped);
      choose(bailed, "bailed" in record ? (record.bailed ?? null) : null);
    }
    kind.hint.textContent = findingWords(view.layout.findings.record, record !== null);
  };

  return {
    block,
    focusConfirm: () => confirm.box.focus(),
    focus: (role) => ({ date, athlete, trick, stage, record: kind })[role].select.focus(),
    show: (view) => {
      const { mapping, findings } = view.layout;
      if (known?.log !== view.log || headingsOf(known.layout) !== headingsOf(view.layout)) {
        const columns = view.layout.columns.map(({ column }) => [String(column), columnWords(view, column)] as const);
        for (const { select } of columnSelects) {
          const none =
            select === stage.select || select === bailed.select ? texts.ownSheetNoColumn : texts.ownSheetChoose;
          const more =
            select === athlete.select || select === trick.select
              ? [...namesOverChoice(view), [ONE_FOR_ALL, texts.ownSheetOneForAll] as const]
              : [];
          fill(select, [[NONE, none], ...columns, ...more]);
        }
      }
      showRecord(view);
      known = view;
      choose(date, mapping.date);
      choose(stage, mapping.stage);
      date.hint.textContent = findingWords(findings.date, mapping.date !== null);
      stage.hint.textContent = mapping.stage === null ? "" : findingWords(findings.stage, true);
      for (const [source, of, name] of [
        [mapping.athlete, athlete, athleteName],
        [mapping.trick, trick, trickName],
      ] as const) {
        const forAll = source !== null && "name" in source;
        of.select.value = valueOf(source);
        name.block.hidden = !forAll;
        if (forAll && name.input.value.trim() !== source.name) name.input.value = source.name;
      }
      athlete.hint.textContent = findingWords(findings.athlete, mapping.athlete !== null);
      trick.hint.textContent = findingWords(findings.trick, mapping.trick !== null);
      confirm.show(view);
    },
  };
}

/** What the coach has said, without some of it. */
function without(corrections: Corrections, names: readonly (keyof Corrections)[]): Corrections {
  return Object.fromEntries(
    Object.entries(corrections).filter(([name]) => !names.includes(name as keyof Corrections)),
  ) as Corrections;
}

/* ---- controls ---- */

/** What a name's choice has as its value. */
function valueOf(source: NameSource | null): string {
  if (source === null) return NONE;
  if ("name" in source) return ONE_FOR_ALL;
  return "over" in source ? `${OVER}${String(source.over)}` : String(source.column);
}

const NAMES_SHOWN = 3;

function namesOverChoice({ layout }: OwnSheetView): readonly (readonly [value: string, words: string])[] {
  const { namesOver } = layout;
  if (namesOver === null) return [];
  const names = namesOver.names.slice(0, NAMES_SHOWN).join(", ");
  return [[`${OVER}${String(namesOver.column)}`, texts.ownSheetNamesOver(names)]];
}

/** A tick by which the coach calls the columns right that could as well be others. */
function confirmation(): {
  readonly block: HTMLElement;
  readonly box: HTMLInputElement;
  show(view: OwnSheetView): void;
} {
  const box = element("input", { type: "checkbox", id: "twirl-own-confirm" });
  const why = element("p", { class: "twirl-note" });
  const block = element(
    "div",
    { hidden: true },
    why,
    element("label", { class: "twirl-choice" }, box, element("span", {}, texts.ownSheetConfirm)),
  );
  return {
    block,
    box,
    show: ({ layout, corrections }) => {
      const { unsure, mapping } = layout;
      const isConfirmed = corrections.confirmed === chosenColumns(mapping);
      block.hidden = unsure.length === 0 && !isConfirmed;
      box.checked = isConfirmed;
      if (unsure.length > 0) {
        why.textContent = texts.ownSheetUnsureColumns(unsure.map((role) => roleWords()[role]).join(", "));
      }
    },
  };
}

const roleWords = (): Readonly<Record<FoundRole, string>> => ({
  date: texts.ownSheetDate,
  athlete: texts.athleteLabel,
  trick: texts.trickLabel,
  stage: texts.stageLabel,
  record: texts.ownSheetAttempts,
});

function choice(name: string, label: string, optional = false): Choice {
  const id = `twirl-own-${name}`;
  const hint = element("p", { id: `${id}-hint`, class: "twirl-hint" });
  const select = element("select", { id, "aria-describedby": hint.id });
  const block = element(
    "div",
    { class: "twirl-field" },
    element(
      "label",
      { for: id },
      label,
      optional ? element("span", { class: "twirl-optional" }, ` (${texts.optional})`) : null,
    ),
    select,
    hint,
  );
  return { block, select, hint };
}

function nameForAll(name: string, label: string): { readonly block: HTMLElement; readonly input: HTMLInputElement } {
  const id = `twirl-own-${name}`;
  const input = element("input", { type: "text", id, maxlength: 60, autocomplete: "off" });
  const block = element("div", { class: "twirl-field", hidden: true }, element("label", { for: id }, label), input);
  return { block, input };
}

function choose({ select }: Choice, column: number | null): void {
  select.value = column === null ? NONE : String(column);
}

function fill(select: HTMLSelectElement, options: readonly (readonly [value: string, words: string])[]): void {
  select.replaceChildren(...options.map(([value, words]) => element("option", { value }, words)));
}

/* ---- words ---- */

const headingsOf = ({ headingRows, columns }: LogLayout): string => JSON.stringify([headingRows, columns]);

const FIRST_VALUES = 3;
const LONGEST_VALUE = 14;
const ROWS_LOOKED_AT = 60;

/** `C Move: 3 spin, Illusion, Flat`: its letter, its heading and the first different things in it. */
function columnWords({ log: { block }, layout }: OwnSheetView, column: number): string {
  const heading = layout.columns.find((one) => one.column === column)?.heading ?? "";
  const values = new Set<string>();
  const end = Math.min(layout.mapping.lastRow, layout.mapping.firstRow + ROWS_LOOKED_AT);
  for (let row = layout.mapping.firstRow; row <= end && values.size < FIRST_VALUES; row += 1) {
    const value = valueAt(block, row, column);
    if (value === null || isError(value)) continue;
    const shown = shownAt(block, row, column) ?? "";
    const words = (shown === "" ? String(value) : shown).trim();
    values.add(words.length > LONGEST_VALUE ? `${words.slice(0, LONGEST_VALUE)}…` : words);
  }
  const name = [columnLetters(column), heading].filter((part) => part !== "").join(" ");
  return values.size === 0 ? name : `${name}: ${[...values].join(", ")}`;
}

/** Below this the coach is asked to look. */
const SURE = 0.6;

function findingWords(finding: Finding | undefined, found: boolean): string {
  if (!found || finding === undefined) return found ? "" : texts.ownSheetNotFound;
  const how = {
    heading: texts.ownSheetByHeading,
    values: texts.ownSheetByValues,
    both: texts.ownSheetByBoth,
    corrected: texts.ownSheetCorrected,
  }[finding.why];
  return finding.confidence < SURE ? `${how} ${texts.ownSheetUnsure}` : how;
}

/* ---- the attempts' columns ---- */

function kindOf(record: RecordColumns): Kind {
  if (record.kind === "marks") return record.first === record.last ? "marks" : "many";
  if (!("dropped" in record)) return "caught-attempts";
  return "caught" in record ? "caught-dropped" : "attempts-dropped";
}

type Columns = Readonly<
  Record<"marks" | "first" | "last" | "caught" | "attempts" | "dropped" | "bailed", number | null>
>;

/** Null while a column of the kind is not chosen. */
function recordOf(
  kind: Kind,
  { marks, first, last, caught, attempts, dropped, bailed }: Columns,
): RecordColumns | null {
  const bails = bailed === null ? {} : { bailed };
  switch (kind) {
    case "marks":
      return marks === null ? null : { kind: "marks", first: marks, last: marks };
    case "many":
      if (first === null || last === null) return null;
      return { kind: "marks", first: Math.min(first, last), last: Math.max(first, last) };
    case "caught-attempts":
      return caught === null || attempts === null ? null : { kind: "tally", caught, attempts };
    case "caught-dropped":
      return caught === null || dropped === null ? null : { kind: "tally", caught, dropped, ...bails };
    case "attempts-dropped":
      return attempts === null || dropped === null ? null : { kind: "tally", attempts, dropped, ...bails };
    default:
      throw new TypeError(`Unknown kind: ${String(kind)}`);
  }
}
