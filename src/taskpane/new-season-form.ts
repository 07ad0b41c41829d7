/** The New season form as typed, and how it becomes settings. Knows nothing of the document. */
import {
  defaultSettings,
  settingLimits,
  type SeasonSettings,
  type SettingsField,
  type SettingsProblem,
  type TrickEntry,
} from "../workbook/season";
import { numberFromText } from "./number-text";
import { texts } from "./texts";

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
};

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
    contestDate: form.contestDate === "" ? null : serialFromDay(form.contestDate),
    athletes: lines(form.athletes),
    tricks: lines(form.tricks).map(trickFromLine),
    standard: shareFromPercent(form.standard),
    setSize: numberFromText(form.setSize),
    countsPerMinute: numberFromText(form.countsPerMinute),
    dropCost: numberFromText(form.dropCost),
    unit: form.unit === "ft" ? "ft" : "m",
    ceiling: form.ceiling.trim() === "" ? null : numberFromText(form.ceiling),
  };
}

/**
 * The settings' problems by field. Only the first one of a field is shown; and the standard's is told in per cent, as
 * the form asks for it.
 */
export function problemsByField(problems: readonly SettingsProblem[]): Problems {
  const byField: Partial<Record<SettingsField, string>> = {};
  for (const problem of problems) byField[problem.field] ??= texts.settingsProblem(problem);
  if (byField.standard !== undefined) {
    const { least, most } = settingLimits.standard;
    byField.standard = texts.standardProblem(Math.round(least * 100), Math.round(most * 100));
  }
  return byField;
}

/** A draft from storage as a form, or null where it is none. */
export function formFromDraft(draft: unknown): FormText | null {
  if (typeof draft !== "object" || draft === null) return null;
  const found = draft as Partial<Record<SettingsField, unknown>>;
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

const millisecondsInDay = 86_400_000;
/** Day 0 of the 1900 date system as it counts from March 1900 on. */
const serialDayZero = Date.UTC(1899, 11, 30);

/** The sheet serial of a day written as the browser's date field does, `2027-06-05`; NaN for anything else. */
function serialFromDay(text: string): number {
  const parts = /^(\d{4,6})-(\d{2})-(\d{2})$/.exec(text);
  if (!parts) return Number.NaN;
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  const time = Date.UTC(year, month - 1, day);
  const back = new Date(time);
  // 31 February would roll over into March.
  if (back.getUTCFullYear() !== year || back.getUTCMonth() !== month - 1 || back.getUTCDate() !== day)
    return Number.NaN;
  return (time - serialDayZero) / millisecondsInDay;
}
