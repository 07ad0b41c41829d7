/** The workbook that the last page had open: the next one opens with it. */
import { claimDraft, type KeptWorkbook, openDrafts } from "./drafts";

/** Undefined where nothing is left, or the browser keeps nothing. What it answers is this page's own from now on. */
export async function lastWorkbook(): Promise<KeptWorkbook | undefined> {
  try {
    const drafts = await openDrafts();
    const left = await drafts.left();
    // A page that is loaded anew goes on with its own, whatever other pages have left since.
    const own = left.filter(({ id }) => id === ownDraft());
    for (const { id } of [...own, ...left]) {
      const kept = await drafts.load(id);
      if (kept !== undefined && (await claimDraft(id))) return kept;
    }
  } catch {
    // Then the page opens as for the first time.
  }
  return undefined;
}

const OWN = "twirl-ledger-own-draft";

function ownDraft(): string | undefined {
  try {
    return sessionStorage.getItem(OWN) ?? undefined;
  } catch {
    return undefined;
  }
}

/** For as long as this tab lives. */
export function rememberOwnDraft(id: string): void {
  try {
    sessionStorage.setItem(OWN, id);
  } catch {
    // Then the latest one is taken for it.
  }
}

const NAME = "twirl-ledger-open-workbook";

/** Its name, before it can be read: what has been counted for it belongs to it from the first moment on. */
export function lastWorkbookName(): string | undefined {
  try {
    return localStorage.getItem(NAME) ?? undefined;
  } catch {
    return undefined;
  }
}

export function rememberWorkbookName(name: string): void {
  try {
    localStorage.setItem(NAME, name);
  } catch {
    // It is known a moment later as well.
  }
}
