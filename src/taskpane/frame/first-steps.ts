/**
 * The first steps of somebody new, above the parts: shown until they are done or skipped, and again when they are asked
 * for. Their code is fetched when they are shown.
 */
import { element } from "../ui/dom";
import type { Milestone } from "../parts/part";
import type { StepsContext } from "./first-steps/steps";
import { texts } from "../words/texts";

const draftName = "first-steps";
const OVER = "over";

interface FirstSteps {
  /** Opens them again. */
  readonly button: HTMLElement;
  readonly block: HTMLElement;
  readonly reached: (milestone: Milestone) => void;
}

/** @param welcome whether they are shown by themselves to whoever has not seen them through */
export function firstSteps(context: Omit<StepsContext, "over">, welcome: boolean): FirstSteps {
  const block = element("section", { class: "twirl-steps", "aria-label": texts.firstSteps, hidden: true });
  const button = element(
    "button",
    {
      type: "button",
      class: "twirl-plain",
      "aria-expanded": "false",
      "aria-label": texts.firstSteps,
      title: texts.firstSteps,
    },
    "?",
  );
  let tell: (milestone: Milestone) => void = () => undefined;

  const close = (): void => {
    context.drafts.keep(draftName, OVER);
    tell = () => undefined;
    block.hidden = true;
    block.replaceChildren();
    button.setAttribute("aria-expanded", "false");
  };
  const show = async (asked: boolean): Promise<void> => {
    button.setAttribute("aria-expanded", "true");
    const { mountSteps } = await import(/* webpackChunkName: "first-steps" */ "./first-steps/steps");
    block.replaceChildren();
    block.hidden = false;
    tell = mountSteps(block, {
      ...context,
      over: () => {
        close();
        button.focus();
      },
    });
    if (asked) block.querySelector<HTMLElement>("h2")?.focus();
  };
  // Without their code the parts work all the same.
  const begin = (asked: boolean): void => void show(asked).catch(close);

  button.addEventListener("click", () => {
    if (block.hidden) begin(true);
    else close();
  });
  if (welcome && context.drafts.read(draftName) !== OVER) begin(false);
  return { button, block, reached: (milestone) => tell(milestone) };
}
