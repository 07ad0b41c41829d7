import { setAttribute } from "./dom";

/**
 * Answers what to start work with: one at a time, while its button says that it takes no press. The button stays where the
 * focus is. The work tells itself what comes of it.
 */
export function oneAtATime(): (button: HTMLElement, work: () => Promise<void>) => void {
  let working = false;
  return (button, work) => {
    if (working) return;
    working = true;
    setAttribute(button, "aria-disabled", "true");
    void work().finally(() => {
      working = false;
      setAttribute(button, "aria-disabled", null);
    });
  };
}
