/** A part whose code is fetched when it is first opened, so that the pane itself is there at once. */
import { element } from "../ui/dom";
import type { Part } from "./part";
import { texts } from "../words/texts";

/**
 * @param title in the language of the moment
 * @param load answers the part itself, which has the same id and title
 */
export function lazyPart(id: string, title: () => string, load: () => Promise<Part>): Part {
  return {
    id,
    get title() {
      return title();
    },
    mount: (panel, context) => {
      let begun = false;
      context.whenShown(() => {
        if (begun) return;
        begun = true;
        panel.replaceChildren(element("p", { role: "status" }, texts.partComing));
        load().then(
          (part) => {
            panel.replaceChildren();
            // It was told to wait for the opening that has just been.
            part.mount(panel, { ...context, whenShown: (listener) => (context.whenShown(listener), listener()) });
          },
          () => {
            // The next opening asks again.
            begun = false;
            panel.replaceChildren(element("p", { role: "status" }, texts.partMissing));
          },
        );
      });
    },
  };
}
