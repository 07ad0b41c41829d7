/** What the coach says about a season, and what is wrong with it before anything is built. */
import { USUAL_COUNTS_PER_MINUTE, USUAL_DROP_COST, USUAL_SET_SIZE, USUAL_STANDARD } from "../../trade/usual";
import { sheetNames, tableNames } from "./names";

export interface TrickEntry {
  readonly name: string;
  /** Counts of the body move under the toss; `null` when the coach has not said. */
  readonly bodyCounts: number | null;
}

export interface SeasonSettings {
  /** 1 to 12 letters, digits, spaces and hyphens: it ends every sheet's name. */
  readonly label: string;
  /** Whole sheet serial number of the day, or `null`. */
  readonly contestDate: number | null;
  readonly athletes: readonly string[];
  readonly tricks: readonly TrickEntry[];
  /** Share of catches, 0.1 to 0.99, that makes a trick good enough. */
  readonly standard: number;
  /** Attempts in a set. */
  readonly setSize: number;
  /** Speed of the counts as the athlete says them. */
  readonly countsPerMinute: number;
  /** Height of the ceiling in `unit`, or `null` for outdoors or not known. */
  readonly ceiling: number | null;
  readonly unit: "m" | "ft";
  /** Points lost for a drop. */
  readonly dropCost: number;
  /** Whether it has the sheets for duos and teams. */
  readonly exchanges: boolean;
}

export type SettingsField = keyof SeasonSettings;

/** What a problem is, for those who say it in words of their own. */
type SettingsProblemKind =
  | "no label"
  | "long label"
  | "strange label"
  | "empty label"
  | "label in use"
  | "contest date"
  | "no names"
  | "many names"
  | "empty line"
  | "control sign"
  | "long name"
  | "name twice"
  | "body counts"
  | "standard"
  | "set size"
  | "counts per minute"
  | "ceiling"
  | "unit"
  | "drop cost";

export interface SettingsProblem {
  readonly field: SettingsField;
  readonly kind: SettingsProblemKind;
  /** What the message names, in its order. */
  readonly values: readonly (string | number)[];
  /** For the coach: what is wrong and what is accepted. */
  readonly message: string;
}

/** Names of sheets and tables that the workbook holds already. */
export interface NamesInUse {
  readonly sheets: readonly string[];
  readonly tables: readonly string[];
}

/** What the form starts with. The label, athletes and tricks are the coach's. */
export const defaultSettings: SeasonSettings = {
  label: "",
  contestDate: null,
  athletes: [],
  tricks: [],
  standard: USUAL_STANDARD,
  setSize: USUAL_SET_SIZE,
  countsPerMinute: USUAL_COUNTS_PER_MINUTE,
  ceiling: null,
  unit: "m",
  dropCost: USUAL_DROP_COST,
  exchanges: false,
};

/** The range of each number, for the form, for the sheet's own validation and for the check below. */
export const settingLimits = {
  standard: { least: 0.1, most: 0.99 },
  setSize: { least: 3, most: 50 },
  countsPerMinute: { least: 30, most: 400 },
  ceiling: { m: { least: 2, most: 60 }, ft: { least: 7, most: 200 } },
  dropCost: { least: 0, most: 100 },
  bodyCounts: { least: 0, most: 40 },
  /** 1 January 2000 to 31 December 2099. */
  contestDate: { least: 36526, most: 73050 },
  athletes: { most: 60, longestName: 40 },
  tricks: { most: 200, longestName: 60 },
  label: { longest: 12 },
} as const;

/** Sheets and tables of duos and teams, built only where they are asked for. */
const TOGETHER: ReadonlySet<string> = new Set<keyof ReturnType<typeof sheetNames>>(["exchanges", "team"]);

/** Two names are the same when they differ in case, outer spaces or the way an accent is stored only. */
function sameNameKey(name: string): string {
  return name.normalize("NFC").trim().toLocaleLowerCase("en");
}

/**
 * What stands against building this season; nothing when it can be built.
 * @param settings what the coach typed
 * @param namesInUse sheets and tables that the workbook has already
 */
export function checkSeasonSettings(settings: SeasonSettings, namesInUse: NamesInUse): readonly SettingsProblem[] {
  return [
    ...checkLabel(settings, namesInUse),
    ...checkContestDate(settings.contestDate),
    ...checkNames("athletes", settings.athletes, "athlete"),
    ...checkNames(
      "tricks",
      settings.tricks.map((trick) => trick.name),
      "trick",
    ),
    ...checkBodyCounts(settings.tricks),
    ...checkStandard(settings.standard),
    ...checkSetSize(settings.setSize),
    ...checkCountsPerMinute(settings.countsPerMinute),
    ...checkCeiling(settings.ceiling, settings.unit),
    ...checkUnit(settings.unit),
    ...checkDropCost(settings.dropCost),
  ];
}

function problem(
  field: SettingsField,
  kind: SettingsProblemKind,
  message: string,
  ...values: readonly (string | number)[]
): readonly SettingsProblem[] {
  return [{ field, kind, values, message }];
}

function within(value: number, limits: { readonly least: number; readonly most: number }): boolean {
  // Written so that NaN, the form's answer for a field that is no number, is outside.
  return value >= limits.least && value <= limits.most;
}

function checkLabel({ label, exchanges }: SeasonSettings, namesInUse: NamesInUse): readonly SettingsProblem[] {
  const trimmed = label.normalize("NFC").trim();
  if (trimmed === "") return problem("label", "no label", "Give the season a label, such as 2027.");
  if (trimmed.length > settingLimits.label.longest) {
    const { longest } = settingLimits.label;
    const message = `The label has ${trimmed.length} characters; at most ${longest} fit.`;
    return problem("label", "long label", message, trimmed.length, longest);
  }
  const stranger = [...trimmed].find((character) => !/[\p{L}0-9 -]/u.test(character));
  if (stranger !== undefined) {
    const message = `The label holds "${stranger}". Use letters, digits, spaces and hyphens only.`;
    return problem("label", "strange label", message, stranger);
  }
  if (!/[\p{L}0-9]/u.test(trimmed))
    return problem("label", "empty label", "The label needs at least one letter or digit.");

  const taken = new Set([...namesInUse.sheets, ...namesInUse.tables].map(sameNameKey));
  const clash = [sheetNames(trimmed), tableNames(trimmed)]
    .flatMap((names) => Object.entries(names))
    .find(([of, name]) => (exchanges || !TOGETHER.has(of)) && taken.has(sameNameKey(name)))?.[1];
  if (clash !== undefined) {
    const message = `This workbook has "${clash}" already. Choose another label; nothing is overwritten.`;
    return problem("label", "label in use", message, clash);
  }
  return [];
}

function checkContestDate(serial: number | null): readonly SettingsProblem[] {
  if (serial === null) return [];
  if (!Number.isInteger(serial) || !within(serial, settingLimits.contestDate)) {
    return problem("contestDate", "contest date", "The contest date is a day from 2000 to 2099, or empty.");
  }
  return [];
}

function checkNames(
  field: "athletes" | "tricks",
  names: readonly string[],
  word: "athlete" | "trick",
): readonly SettingsProblem[] {
  const limits = settingLimits[field];
  if (names.length === 0) return problem(field, "no names", `List at least one ${word}, one a line.`, word);
  if (names.length > limits.most) {
    const message = `There are ${names.length} ${word}s; at most ${limits.most} fit.`;
    return problem(field, "many names", message, word, names.length, limits.most);
  }
  const problems: SettingsProblem[] = [];
  const firstLine = new Map<string, number>();
  names.forEach((name, index) => {
    const line = index + 1;
    const key = sameNameKey(name);
    if (key === "") {
      const message = `Line ${line} is empty: give the ${word} a name or take the line out.`;
      problems.push(...problem(field, "empty line", message, word, line));
      return;
    }
    if (/\p{Cc}/u.test(name)) {
      problems.push(...problem(field, "control sign", `Line ${line} holds a line break or tab inside the name.`, line));
    }
    if (name.trim().length > limits.longestName) {
      const message = `Line ${line} has more than ${limits.longestName} characters.`;
      problems.push(...problem(field, "long name", message, line, limits.longestName));
    }
    const earlier = firstLine.get(key);
    if (earlier === undefined) firstLine.set(key, line);
    else {
      const message = `"${name.trim()}" stands in line ${earlier} and again in line ${line}.`;
      problems.push(...problem(field, "name twice", message, name.trim(), earlier, line));
    }
  });
  return problems;
}

function checkBodyCounts(tricks: readonly TrickEntry[]): readonly SettingsProblem[] {
  const { least, most } = settingLimits.bodyCounts;
  return tricks.flatMap((trick, index) =>
    trick.bodyCounts === null || within(trick.bodyCounts, settingLimits.bodyCounts)
      ? []
      : problem(
          "tricks",
          "body counts",
          `Line ${index + 1}: body counts are a number from ${least} to ${most}, or left out.`,
          index + 1,
          least,
          most,
        ),
  );
}

function checkStandard(standard: number): readonly SettingsProblem[] {
  if (within(standard, settingLimits.standard)) return [];
  return problem(
    "standard",
    "standard",
    standard > 1
      ? "The catch standard is a share: 80 % is 0.8."
      : "The catch standard lies between 10 % and 99 %. No number of catches proves 100 %.",
  );
}

function checkSetSize(setSize: number): readonly SettingsProblem[] {
  const { least, most } = settingLimits.setSize;
  if (Number.isInteger(setSize) && within(setSize, settingLimits.setSize)) return [];
  return problem("setSize", "set size", `A set is a whole number of attempts from ${least} to ${most}.`, least, most);
}

function checkCountsPerMinute(countsPerMinute: number): readonly SettingsProblem[] {
  const { least, most } = settingLimits.countsPerMinute;
  if (within(countsPerMinute, settingLimits.countsPerMinute)) return [];
  const message = `Counts per minute is a number from ${least} to ${most}.`;
  return problem("countsPerMinute", "counts per minute", message, least, most);
}

function checkCeiling(ceiling: number | null, unit: "m" | "ft"): readonly SettingsProblem[] {
  const limits = settingLimits.ceiling[unit === "ft" ? "ft" : "m"];
  if (ceiling === null || within(ceiling, limits)) return [];
  const { least, most } = limits;
  const message = `The ceiling height is a number from ${least} to ${most} ${unit}, or empty.`;
  return problem("ceiling", "ceiling", message, least, most, unit);
}

function checkUnit(unit: string): readonly SettingsProblem[] {
  return unit === "m" || unit === "ft" ? [] : problem("unit", "unit", "The unit is m or ft.");
}

function checkDropCost(dropCost: number): readonly SettingsProblem[] {
  const { least, most } = settingLimits.dropCost;
  if (within(dropCost, settingLimits.dropCost)) return [];
  const message = `The points lost for a drop are a number from ${least} to ${most}.`;
  return problem("dropCost", "drop cost", message, least, most);
}
