/** Which rows of the log do not count, and why: the same in every part that shows what the log says. */
import { LOG_HEADINGS } from "../../workbook/season/season";
import { element } from "../ui/dom";
import { texts } from "../words/texts";
import type { SeasonData } from "./season-data";

interface LeftOutNote {
  readonly block: HTMLElement;
  /** Null where no season is read. */
  show(season: Pick<SeasonData, "records" | "cellOf"> | null): void;
}

export function leftOutNote(): LeftOutNote {
  const summary = element("summary", {});
  const list = element("ul", {});
  const block = element("details", { class: "twirl-more twirl-left-out", hidden: true }, summary, list);
  let shown = "";
  return {
    block,
    show: (season) => {
      const lines = season === null ? [] : linesOf(season);
      const words = season === null || lines.length === 0 ? "" : summaryOf(season);
      // Left alone where it says this already: what is being read stays open and in its place.
      const now = [words, ...lines].join("\n");
      if (now === shown) return;
      shown = now;
      block.hidden = lines.length === 0;
      summary.textContent = words;
      list.replaceChildren(...lines.map((line) => element("li", {}, line)));
    },
  };
}

function summaryOf({ records: { reading } }: Pick<SeasonData, "records">): string {
  return texts.rowsNotCounted(reading.leftOut, reading.filled);
}

function linesOf({ records: { reading }, cellOf }: Pick<SeasonData, "records" | "cellOf">): readonly string[] {
  const { told, leftOut } = reading;
  const others = leftOut - told.length;
  return [
    ...told.map(({ row, column, words }) => `${cellOf(row, LOG_HEADINGS[column])} – ${words}`),
    ...(others > 0 ? [texts.moreNotCounted(others)] : []),
  ];
}
