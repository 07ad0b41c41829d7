/** The line of the page that says which rows stand below a table without being counted, and takes them in when asked. */
import type { Injector } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";

import { button } from "./button";
import { byId } from "./page-state";
import { type RowsBelow, rowsBelowTables, takeIn } from "../grid/adapter/rows-below-tables";

interface RowsBelowNotice {
  /** Says anew what is true now. */
  refresh(): void;
}

const words = {
  stand: ({ sheetName, rows }: RowsBelow) => {
    const [first, last] = [(rows[0] ?? 0) + 1, (rows.at(-1) ?? 0) + 1].map(String);
    return first === last
      ? `${sheetName}: row ${String(first)} stands below the table and is not counted.`
      : `${sheetName}: rows ${String(first)} to ${String(last)} stand below the table and are not counted.`;
  },
  takeIn: "Count them in",
  leave: "Leave them out",
} as const;

export function rowsBelowNotice(api: FUniver, injector: Injector): RowsBelowNotice {
  const strip = byId("rows-below");
  const left = new Set<string>();
  let said = "";

  const refresh = (): void => {
    const found = rowsBelowTables(api).filter((below) => !left.has(keyOf(below)));
    const key = found.map(keyOf).join();
    if (key === said) return;
    said = key;
    const wasHidden = strip.hidden;
    strip.hidden = found.length === 0;
    strip.replaceChildren(...found.map(line));
    // The grid fits itself to the window when it is told that the window's size has changed.
    if (wasHidden !== strip.hidden) window.dispatchEvent(new Event("resize"));
  };

  const line = (below: RowsBelow): HTMLElement => {
    const sentence = words.stand(below);
    const paragraph = document.createElement("p");
    paragraph.append(
      sentence,
      " ",
      button(words.takeIn, `${words.takeIn}: ${sentence}`, () => void takeIn(api, injector, below).then(refresh)),
      " ",
      button(words.leave, `${words.leave}: ${sentence}`, () => {
        left.add(keyOf(below));
        refresh();
      }),
    );
    return paragraph;
  };

  return { refresh };
}

function keyOf({ tableId, rows }: RowsBelow): string {
  return `${tableId} ${rows.join(" ")}`;
}
