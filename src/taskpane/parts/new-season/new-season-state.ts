/** What the New season part can be doing, and how it gets from one to the next. Knows nothing of the document. */
import { checkSeasonSettings, seasonPlan } from "../../../workbook/season/season";
import type { WorkbookPlan } from "../../../workbook/plan/schema";
import type { WorkbookHost } from "../../host/host";
import { problemsByField, settingsFromForm, type FormText, type Problems } from "./new-season-form";
import { reasonOf } from "../../words/reason";
import { texts } from "../../words/texts";

export type SeasonState =
  | { readonly kind: "editing" }
  | { readonly kind: "working"; readonly words: string }
  | { readonly kind: "refused"; readonly problems: Problems }
  | { readonly kind: "built"; readonly label: string; readonly sheets: readonly string[] }
  /** `leftBehind` is null where the workbook could not be looked at afterwards. */
  | { readonly kind: "failed"; readonly reason: string; readonly leftBehind: readonly string[] | null };

/**
 * Checks the form, builds the season through the host and tells every state on the way; the last one is told too.
 * Nothing is written while the form has a problem. After a failure the workbook's names are compared with those before:
 * the coach is told that nothing was left behind only where that was seen.
 */
export async function buildSeason(
  form: FormText,
  host: WorkbookHost,
  tell: (state: SeasonState) => void,
): Promise<void> {
  const settings = settingsFromForm(form);

  // The form's own mistakes need no look at the workbook, and are told even where it cannot be read.
  const ownProblems = checkSeasonSettings(settings, { sheets: [], tables: [] });
  if (ownProblems.length > 0) return tell({ kind: "refused", problems: problemsByField(ownProblems, form) });

  tell({ kind: "working", words: texts.checkingNames });
  let before: Awaited<ReturnType<WorkbookHost["namesInUse"]>>;
  let plan: WorkbookPlan;
  try {
    before = await host.namesInUse();
    const problems = checkSeasonSettings(settings, before);
    if (problems.length > 0) return tell({ kind: "refused", problems: problemsByField(problems, form) });
    plan = seasonPlan(settings);
  } catch (cause) {
    return tell({ kind: "failed", reason: reasonOf(cause), leftBehind: [] });
  }

  tell({ kind: "working", words: texts.buildingSeason });
  try {
    await host.addSheets(plan, (sheet, done, of) =>
      tell({ kind: "working", words: texts.buildingSheet(sheet, done, of) }),
    );
    tell({ kind: "built", label: settings.label, sheets: plan.sheets.map((sheet) => sheet.name) });
  } catch (cause) {
    tell({ kind: "failed", reason: reasonOf(cause), leftBehind: await namesAddedSince(before, host) });
  }
}

async function namesAddedSince(
  before: { readonly sheets: readonly string[]; readonly tables: readonly string[] },
  host: WorkbookHost,
): Promise<readonly string[] | null> {
  try {
    const now = await host.namesInUse();
    const known = new Set([...before.sheets, ...before.tables]);
    return [...now.sheets, ...now.tables].filter((name) => !known.has(name));
  } catch {
    return null;
  }
}
