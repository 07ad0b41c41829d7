/** Repair formulas: one button, and what came of it. */
import { element } from "../../ui/dom";
import { oneAtATime } from "../../ui/working";
import type { WorkbookHost } from "../../host/host";
import type { Repairs } from "../../host/own-sheet-host";
import { reasonOf } from "../../words/reason";
import { texts } from "../../words/texts";

export function repairSection(host: WorkbookHost): HTMLElement {
  const button = element("button", { type: "button", class: "twirl-button" }, texts.repairButton);
  const outcome = element("div", { role: "status", class: "twirl-status" });
  const start = oneAtATime();
  button.addEventListener("click", () =>
    start(button, async () => {
      sentences(outcome, [texts.repairWorking]);
      await host.repairFormulas().then(
        (repairs) => sentences(outcome, wordsFor(repairs)),
        (cause: unknown) => sentences(outcome, [texts.repairFailed(reasonOf(cause))]),
      );
    }),
  );
  return element(
    "section",
    { class: "twirl-section" },
    element("h3", {}, texts.repairTitle),
    element("p", { class: "twirl-quiet" }, texts.repairIntro),
    element("div", { class: "twirl-actions" }, button),
    outcome,
  );
}

function wordsFor({ repaired, stillUnknown, refused, protectedSheets }: Repairs): readonly string[] {
  const words = [
    ...(repaired > 0 ? [texts.repairDone(repaired)] : []),
    ...(stillUnknown > 0 ? [texts.repairUnknown(stillUnknown)] : []),
    ...(refused > 0 ? [texts.repairRefused(refused)] : []),
    ...protectedSheets.map(({ sheet, cells }) => texts.repairProtected(sheet, cells)),
  ];
  return words.length > 0 ? words : [texts.repairNone];
}

function sentences(outcome: HTMLElement, words: readonly string[]): void {
  outcome.replaceChildren(...words.map((sentence) => element("p", {}, sentence)));
}
