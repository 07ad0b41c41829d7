/** The first steps on the page: from an empty workbook to the first status, with the parts that do it day by day. */
import { statusWordLooks } from "../../../workbook/plan/looks";
import { element, setAttribute } from "../../ui/dom";
import type { WorkbookHost } from "../../host/host";
import { STATUSES } from "../../../trade/statuses";
import { seasonsAmong } from "../../season/season-data";
import type { Milestone } from "../../parts/part";
import type { Drafts } from "../../host/storage";
import { texts } from "../../words/texts";

export interface StepsContext {
  readonly host: WorkbookHost;
  readonly drafts: Drafts;
  readonly open: (partId: string) => void;
  /** Told when they are done or skipped. */
  readonly over: () => void;
}

type Step = 0 | 1 | 2;

/** Fills the block, and answers whom to tell what has been reached. */
export function mountSteps(block: HTMLElement, { host, open, over }: StepsContext): (milestone: Milestone) => void {
  const heading = element("h2", { tabindex: "-1" }, texts.firstSteps);
  const skip = element("button", { type: "button", class: "twirl-plain-words" }, texts.firstStepsSkip);
  skip.addEventListener("click", over);
  const items = texts.firstStepNames.map((name) =>
    element("li", {}, element("span", {}, name), element("span", { class: "twirl-unseen" })),
  );
  const words = element("div", { role: "status" });
  const actions = element("div", { class: "twirl-actions" });
  block.append(
    element("div", { class: "twirl-steps-head" }, heading, skip),
    element("ol", {}, ...items),
    words,
    actions,
    wordsOfTheBoard(),
  );

  const button = (name: string, main: boolean, press: () => void): HTMLButtonElement => {
    const made = element("button", { type: "button", class: `twirl-button${main ? " twirl-button-main" : ""}` }, name);
    made.addEventListener("click", press);
    return made;
  };
  /** Once one has gone to a part, that part needs the room. */
  const goTo = (partId: string): void => {
    actions.hidden = true;
    open(partId);
  };
  const sentence = (text: string): HTMLElement => element("p", {}, text);

  const stand = (step: Step, said: readonly HTMLElement[], ...buttons: readonly HTMLElement[]): void => {
    items.forEach((item, index) => {
      setAttribute(item, "aria-current", index === step ? "step" : null);
      item.dataset["done"] = index < step ? "true" : "false";
      const done = item.lastElementChild;
      if (done) done.textContent = index < step ? ` (${texts.firstStepDone})` : "";
    });
    words.replaceChildren(...said);
    actions.replaceChildren(...buttons);
    actions.hidden = false;
  };
  const build = (): void =>
    stand(
      0,
      [sentence(texts.firstStepsBuild)],
      button(texts.firstStepsBuildGo, true, () => goTo("new-season")),
    );
  const count = (season: string | null): void =>
    stand(
      1,
      [...(season === null ? [] : [sentence(texts.firstStepsLogHere(season))]), sentence(texts.firstStepsLog)],
      button(texts.firstStepsLogGo, true, () => goTo("log-set")),
      ...(season === null
        ? []
        : [
            button(texts.firstStepsOwn, false, () => {
              build();
              goTo("new-season");
            }),
          ]),
    );
  const read = ({ athlete, trick, judged }: Extract<Milestone, { kind: "set saved" }>): void =>
    stand(
      2,
      judged === undefined
        ? [sentence(texts.firstStepsUnread)]
        : [
            element(
              "p",
              {},
              `${texts.firstStepsStatus(athlete, trick)} `,
              element("span", { class: "twirl-badge", "data-look": statusWordLooks[judged.status] }, judged.status),
              ` (${texts.reasonInWords(judged)})`,
            ),
            sentence(texts.statusMeanings[judged.status]),
            sentence(texts.firstStepsAfter),
          ],
      button(texts.firstStepsPicture, false, () => open("pictures")),
      button(texts.firstStepsEnd, true, over),
    );

  let begun = false;
  build();
  host.namesInUse().then(
    ({ tables }) => {
      const [season] = seasonsAmong(tables);
      if (!begun && season !== undefined) count(season.replaceAll("_", " "));
    },
    // A workbook that cannot be read now: the form says so when it is filled in.
    () => undefined,
  );
  return (milestone) => {
    begun = true;
    if (milestone.kind === "season built") count(null);
    else read(milestone);
  };
}

/** What each word of the board means, folded away: it is looked up from here at any time. */
function wordsOfTheBoard(): HTMLElement {
  const words = element("details", { class: "twirl-more" }, element("summary", {}, texts.wordsOfTheBoard));
  const show = (): void => {
    const meanings = STATUSES.map((status) =>
      element(
        "p",
        {},
        element("span", { class: "twirl-badge", "data-look": statusWordLooks[status] }, status),
        ` ${texts.statusMeanings[status]}`,
      ),
    );
    words.append(...meanings);
  };
  words.addEventListener("toggle", show, { once: true });
  return words;
}
