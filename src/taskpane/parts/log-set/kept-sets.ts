/** The sets that are not saved yet, as they are kept on this computer: each under a name of its own. */
import type { Drafts } from "../../host/storage";
import { choiceFromDraft, holdsSomething, setFromDraft, type Choice, type SetInHand } from "./set-in-hand";

const setPrefix = "log-set.set.";
const choicePrefix = "log-set.choice.";

export interface KeptSets {
  /** Every kept set, the latest first. */
  all(): readonly SetInHand[];
  /** Keeps the set as it is now, or forgets it where there is nothing in it. False where it could not be kept. */
  keep(set: SetInHand): boolean;
  forget(id: string): void;
  choice(workbook: string): Choice | null;
  keepChoice(workbook: string, choice: Choice): void;
}

export function keptSets(drafts: Drafts): KeptSets {
  return {
    all: () =>
      drafts
        .names()
        .filter((name) => name.startsWith(setPrefix))
        .map((name) => setFromDraft(drafts.read(name)))
        .filter((set): set is SetInHand => set !== null && holdsSomething(set))
        .sort((one, other) => other.changed - one.changed),
    keep: (set) => {
      if (holdsSomething(set)) return drafts.keep(setPrefix + set.id, set);
      drafts.forget(setPrefix + set.id);
      return true;
    },
    forget: (id) => drafts.forget(setPrefix + id),
    choice: (workbook) => choiceFromDraft(drafts.read(choicePrefix + workbook)),
    keepChoice: (workbook, { season, athlete, trick, stage }) =>
      void drafts.keep(choicePrefix + workbook, { season, athlete, trick, stage }),
  };
}
