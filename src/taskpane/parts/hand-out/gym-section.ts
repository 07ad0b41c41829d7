/** A practice without a computer: the blank log to print, and what was pencilled into it back into the log. */
import { comparable } from "../../../core/text";
import { gymSheet, gymSheetName } from "../../../workbook/season/gym-sheet";
import { ROUTINE } from "../../../workbook/season/routine-sheet";
import { tableNames } from "../../../workbook/season/season";
import type { WorkbookHost } from "../../host/host";
import { readSeason, type SeasonData } from "../../season/season-data";
import { element, say, setOptions } from "../../ui/dom";
import { oneAtATime } from "../../ui/working";
import { serialOfDay } from "../../words/day";
import { reasonOf } from "../../words/reason";
import { texts } from "../../words/texts";
import { notLogged, readGymSheet, rowOf } from "./gym-entry";
import { gymAthletes } from "./gym-plan";
import { DAY_MINUTES } from "../../../trade/limits";

interface Season {
  readonly label: string;
  readonly season: SeasonData;
}

interface GymSection {
  readonly block: HTMLElement;
  /** The season that is meant, and the workbook's sheets. */
  show(season: Season | undefined, sheets: readonly string[]): void;
}

const USUAL_MINUTES = 60;
/** More would not be read in the pane. */
const MOST_FAULTS = 20;

function gymView() {
  const minutes = element("input", {
    ...{ id: "twirl-gym-minutes", type: "number", inputmode: "numeric", required: true },
    ...{ min: 1, max: DAY_MINUTES, step: 1, value: USUAL_MINUTES, "aria-describedby": "twirl-gym-hint" },
  });
  const make = element("button", { type: "submit", class: "twirl-button twirl-button-main" }, texts.gymMake);
  const making = element(
    "form",
    {},
    element(
      "div",
      { class: "twirl-field" },
      element("label", { for: "twirl-gym-minutes" }, texts.gymMinutes),
      element("p", { id: "twirl-gym-hint", class: "twirl-hint" }, texts.gymMinutesHint),
      minutes,
    ),
    element("div", { class: "twirl-actions" }, make),
  );
  const which = element("select", { id: "twirl-gym-sheet" });
  const take = element("button", { type: "submit", class: "twirl-button" }, texts.gymTake);
  const taking = element(
    "form",
    { hidden: true },
    element("div", { class: "twirl-field" }, element("label", { for: "twirl-gym-sheet" }, texts.gymSheet), which),
    element("div", { class: "twirl-actions" }, take),
  );
  const status = element("p", { role: "status", class: "twirl-status" });
  const faults = element("ul", { class: "twirl-quiet", hidden: true });
  const block = element(
    "section",
    { "aria-labelledby": "twirl-gym-title", hidden: true },
    element("h3", { id: "twirl-gym-title" }, texts.gymTitle),
    element("p", { class: "twirl-quiet" }, texts.gymIntro),
    ...[making, taking, status, faults],
  );
  return { block, making, make, minutes, taking, take, which, status, faults };
}

export function gymSection(host: WorkbookHost): GymSection {
  const { block, making, make, minutes, taking, take, which, status, faults } = gymView();
  let shown: Season | undefined;
  const start = oneAtATime();

  const run = (
    button: HTMLElement,
    work: (season: Season) => Promise<string>,
    failed: (reason: string) => string,
  ): void => {
    const season = shown;
    if (season === undefined) return;
    start(button, async () => {
      status.textContent = texts.partComing;
      tellFaults([]);
      await work(season).then(
        (words) => say(status, words),
        (cause: unknown) => say(status, failed(reasonOf(cause))),
      );
    });
  };
  const tellFaults = (found: readonly string[]): void => {
    const more = found.length - MOST_FAULTS;
    const told = [...found.slice(0, MOST_FAULTS), ...(more > 0 ? [texts.gymMoreFaults(more)] : [])];
    faults.replaceChildren(...told.map((words) => element("li", {}, words)));
    faults.hidden = told.length === 0;
  };

  const build = async ({ label, season }: Season): Promise<string> => {
    const { sheets, tables } = await host.namesInUse();
    const sheetName = gymSheetName(label, [...sheets, ...tables]);
    const athletes = gymAthletes(season, await routineOf(host, season.key, tables), Number(minutes.value));
    await host.addSheets(
      gymSheet({ label, day: serialOfDay(new Date()), setSize: season.setSize, athletes, sheetName }),
    );
    return texts.gymMade(sheetName);
  };

  const enter = async ({ season }: Season): Promise<string> => {
    const sheet = which.value;
    const { sets, faults: found } = await readGymSheet(host, sheet);
    if (found.length > 0) {
      tellFaults(found);
      return texts.gymFaults(found.length);
    }
    if (sets.length === 0) return texts.gymNothing(sheet);
    const { log } = await readSeason(host, season.key);
    const missing = notLogged(sets, log);
    // One after the other: each goes below the one before.
    for (const [index, set] of missing.entries()) {
      try {
        await host.appendRow(season.table, rowOf(set));
      } catch (cause) {
        // What is in the log already is passed over when the button is pressed again.
        throw new Error(texts.gymStopped(index, missing.length, reasonOf(cause)), { cause });
      }
    }
    return texts.gymTaken(missing.length, sets.length - missing.length);
  };

  making.addEventListener("submit", (event) => {
    event.preventDefault();
    run(make, build, texts.gymNotMade);
  });
  taking.addEventListener("submit", (event) => {
    event.preventDefault();
    run(take, enter, texts.gymNotTaken);
  });

  return {
    block,
    show: (season, sheets) => {
      shown = season;
      block.hidden = season === undefined;
      const start = gymSheetName(season?.label ?? "", []);
      const present = sheets.filter((name) => name === start || name.startsWith(`${start} (`));
      const chosen = present.includes(which.value) ? which.value : (present.at(-1) ?? "");
      setOptions(
        which,
        present.map((name) => ({ value: name, words: name })),
        chosen,
      );
      taking.hidden = present.length === 0;
    },
  };
}

/** The tricks of the routine, as the board counts them; none where the table is gone. */
async function routineOf(host: WorkbookHost, key: string, tables: readonly string[]): Promise<readonly string[]> {
  const name = tableNames(key).routine;
  if (!tables.some((one) => comparable(one) === comparable(name))) return [];
  const [routine] = await host.readTables([name]);
  const at = routine?.headings.indexOf(ROUTINE.trick) ?? -1;
  return routine?.rows.map((row) => String(row[at] ?? "").trim()).filter((trick) => trick !== "") ?? [];
}
