/** The New season form as typed, and how it becomes settings. Knows nothing of the document. */
import {
  defaultSettings,
  settingLimits,
  type SeasonSettings,
  type SettingsField,
  type SettingsProblem,
  type TrickEntry,
} from "../../../workbook/season/season";
import { numberFromText } from "../../words/number-text";
import { texts } from "../../words/texts";
import { typedDay } from "../../words/typed-day";

/** Each field as it stands in the form. The standard is in per cent there. */
export type FormText = Readonly<Record<SettingsField, string>>;

/** What is wrong, in words, at each field that needs a change. */
export type Problems = Partial<Readonly<Record<SettingsField, string>>>;

/** In the order of the form, so that the first problem is the first field on the page. */
export const formFields: readonly SettingsField[] = [
  "label",
  "contestDate",
  "athletes",
  "tricks",
  "standard",
  "setSize",
  "countsPerMinute",
  "dropCost",
  "unit",
  "ceiling",
  "exchanges",
];

/** What the form starts with. */
export const usualForm: FormText = {
  label: defaultSettings.label,
  contestDate: "",
  athletes: defaultSettings.athletes.join("\n"),
  tricks: "",
  standard: String(Math.round(defaultSettings.standard * 100)),
  setSize: String(defaultSettings.setSize),
  countsPerMinute: String(defaultSettings.countsPerMinute),
  dropCost: String(defaultSettings.dropCost),
  unit: defaultSettings.unit,
  ceiling: "",
  exchanges: "",
};

/** What a ticked box holds. */
export const TICKED = "yes";

/** The form with the lists' empty lines and outer spaces taken out, so that a message's line number fits what is seen. */
export function tidyForm(form: FormText): FormText {
  return { ...form, athletes: lines(form.athletes).join("\n"), tricks: lines(form.tricks).join("\n") };
}

/**
 * The settings that a form says. What is no number becomes NaN, which `checkSeasonSettings` refuses in its own words.
 */
export function settingsFromForm(form: FormText): SeasonSettings {
  return {
    label: form.label.trim(),
    contestDate: form.contestDate.trim() === "" ? null : serialFromText(form.contestDate),
    athletes: lines(form.athletes),
    tricks: lines(form.tricks).map(trickFromLine),
    standard: shareFromPercent(form.standard),
    setSize: numberFromText(form.setSize),
    countsPerMinute: numberFromText(form.countsPerMinute),
    dropCost: numberFromText(form.dropCost),
    unit: form.unit === "ft" ? "ft" : "m",
    ceiling: form.ceiling.trim() === "" ? null : numberFromText(form.ceiling),
    exchanges: form.exchanges === TICKED,
  };
}

/**
 * The settings' problems by field. Only the first one of a field is shown; the standard's is told in per cent, as the form
 * asks for it, and a date that cannot be read with an example of one that can.
 */
export function problemsByField(problems: readonly SettingsProblem[], { contestDate }: FormText = usualForm): Problems {
  const byField: Partial<Record<SettingsField, string>> = {};
  for (const problem of problems) byField[problem.field] ??= texts.settingsProblem(problem);
  if (byField.standard !== undefined) {
    const { least, most } = settingLimits.standard;
    byField.standard = texts.standardProblem(Math.round(least * 100), Math.round(most * 100));
  }
  if (byField.contestDate !== undefined) {
    const read = typedDay(contestDate, { of: "plan" });
    if (read.kind === "wrong") byField.contestDate = read.words;
  }
  return byField;
}

/** A draft from storage as a form, or null where it is none. */
export function formFromDraft(draft: unknown): FormText | null {
  if (typeof draft !== "object" || draft === null) return null;
  // One that was kept before this field was there is still the coach's.
  const found: Partial<Record<SettingsField, unknown>> = { exchanges: usualForm.exchanges, ...draft };
  const entries = formFields.map((field) => [field, found[field]] as const);
  if (!entries.every(([, value]) => typeof value === "string")) return null;
  return Object.fromEntries(entries) as Record<SettingsField, string>;
}

const lines = (text: string): readonly string[] =>
  text
    .split(/\r\n|\r|\n/)
    .map((line) => line.trim())
    .filter((line) => line !== "");

/** `Double turn, 4` is a trick with its body counts. Names may hold commas too: only what follows the last one counts. */
function trickFromLine(line: string): TrickEntry {
  const comma = line.lastIndexOf(",");
  if (comma < 0) return { name: line, bodyCounts: null };
  const after = line.slice(comma + 1).trim();
  return { name: line.slice(0, comma).trim(), bodyCounts: after === "" ? null : numberFromText(after) };
}

/** `80`, `80 %` and `0.8` all mean 0.8: no standard lies under 10 %, so a number below 1 can only be a share. */
function shareFromPercent(text: string): number {
  const number = numberFromText(text.replace(/\s*%\s*$/, ""));
  const saysPercent = text.includes("%");
  return !saysPercent && number > 0 && number < 1 ? number : number / 100;
}

/** NaN for what is no day; a contest that a season works towards comes, where its year is left out. */
function serialFromText(text: string): number {
  const read = typedDay(text, { of: "plan" });
  return read.kind === "day" ? read.serial : Number.NaN;
}
