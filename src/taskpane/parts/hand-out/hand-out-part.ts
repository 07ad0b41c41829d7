/** The Hand-out part: one athlete's page for the wall or for the family, on a sheet of its own. */
import { comparable } from "../../../core/text";
import { freeSheetName, sheetNames, tableNames } from "../../../workbook/season/season";
import { athletePages } from "../../../workbook/season/athlete-page";
import { element, say, setOptions } from "../../ui/dom";
import { oneAtATime } from "../../ui/working";
import { leftOutNote } from "../../season/left-out-note";
import { listed, readSeason, seasonsAmong, type SeasonData } from "../../season/season-data";
import type { WorkbookHost } from "../../host/host";
import type { Part, PartContext } from "../part";
import { reasonOf } from "../../words/reason";
import { seasonInView } from "../../season/season-in-view";
import { texts } from "../../words/texts";
import { gymSection } from "./gym-section";

export const handOutPart: Part = {
  id: "hand-out",
  get title() {
    return texts.handOutTitle;
  },
  mount,
};

interface Choice {
  readonly label: string;
  readonly season: SeasonData;
  readonly athlete: string;
}

function handOutView() {
  const select = element("select", { id: "twirl-hand-out-athlete", "aria-describedby": "twirl-hand-out-hint" });
  const make = element("button", { type: "submit", class: "twirl-button twirl-button-main" }, texts.handOutMake);
  const makeAll = element("button", { type: "button", class: "twirl-button" }, texts.handOutMakeAll);
  const form = element(
    "form",
    { hidden: true },
    element(
      "div",
      { class: "twirl-field" },
      element("label", { for: "twirl-hand-out-athlete" }, texts.handOutAthlete),
      element("p", { id: "twirl-hand-out-hint", class: "twirl-hint" }, texts.handOutAthleteHint),
      select,
    ),
    element("div", { class: "twirl-actions" }, make, makeAll),
  );
  const print = element("button", { type: "button", class: "twirl-button", hidden: true });
  const printHint = element("p", { class: "twirl-quiet", hidden: true }, texts.handOutPrintAllHint);
  const empty = element("p", { class: "twirl-quiet", hidden: true });
  const status = element("p", { role: "status", class: "twirl-status" });
  return { select, make, makeAll, form, print, printHint, empty, status };
}

function mount(panel: HTMLElement, { host, whenShown, whenChanged }: PartContext): void {
  const { select, make, makeAll, form, print, printHint, empty, status } = handOutView();
  const tell = (words: string): void => say(status, words);
  const leftOut = leftOutNote();
  const gym = gymSection(host);
  const offerPrint = printOffer(host, print, printHint, tell);
  panel.append(
    element("h2", {}, texts.handOutTitle),
    element("p", { class: "twirl-quiet" }, texts.handOutIntro),
    form,
    empty,
    status,
    element("div", { class: "twirl-actions" }, print),
    printHint,
    leftOut.block,
    element("p", { class: "twirl-quiet twirl-field" }, texts.handOutCare),
    gym.block,
  );

  let choices: readonly Choice[] = [];
  const start = oneAtATime();
  let sheetsNow: readonly string[] = [];
  const view = seasonInView(host);

  /** @param turned the season that the coach looks at now, where it is another one than before */
  const showChoices = (found: readonly Choice[], words: string, turned?: string): void => {
    const chosen = choices[Number(select.value)];
    choices = found;
    const several = new Set(found.map(({ label }) => label)).size > 1;
    const names = found.map(({ athlete, label }) => (several ? texts.handOutOf(athlete, label) : athlete));
    const inSight = turned === undefined ? found : found.filter(({ season }) => season.key === turned);
    const again =
      inSight.find((one) => one.athlete === chosen?.athlete && one.label === chosen.label) ??
      inSight.find((one) => one.athlete === chosen?.athlete) ??
      inSight[0] ??
      found[0];
    const options = names.map((words, index) => ({ value: String(index), words }));
    setOptions(select, options, String(again === undefined ? 0 : found.indexOf(again)));
    form.hidden = found.length === 0;
    empty.hidden = found.length > 0;
    empty.textContent = words;
    showChosen();
  };
  const showChosen = (): void => {
    leftOut.show(choices[Number(select.value)]?.season ?? null);
    gym.show(choices[Number(select.value)], sheetsNow);
  };
  select.addEventListener("change", showChosen);

  const look = async (): Promise<void> => {
    try {
      const { sheets, tables } = await host.namesInUse();
      sheetsNow = sheets;
      const keys = seasonsAmong(tables);
      const turned = await view.turnedTo(keys);
      const seasons = await Promise.all(keys.map((key) => readSeason(host, key)));
      showChoices(
        seasons.flatMap((season) => {
          const label = labelOf(season, sheets);
          return label === undefined ? [] : season.athletes.map((athlete) => ({ label, season, athlete }));
        }),
        texts.handOutNothing,
        turned,
      );
    } catch (cause) {
      showChoices([], texts.handOutNotRead(reasonOf(cause)));
    }
  };

  const buildOne = async ({ label, season, athlete }: Choice): Promise<void> => {
    const { sheets, tables } = await host.namesInUse();
    const sheetName = freeSheetName(athlete, label, [...sheets, ...tables]);
    await host.addSheets(
      athletePages(label, [{ athlete, tricks: tricksOf(season, athlete), sheetName }], hasCalendar(label, tables)),
    );
    offerPrint([sheetName]);
    tell(texts.handOutMade(sheetName));
  };

  /** A page follows the log: one that is there is as good as new. */
  const buildAll = async ({ label, season }: Choice): Promise<void> => {
    const { sheets, tables } = await host.namesInUse();
    const { all, lacking } = pagesOf(season, label, sheets, tables);
    if (lacking.length > 0) await host.addSheets(athletePages(label, lacking, hasCalendar(label, tables)));
    offerPrint(all);
    tell(texts.handOutMadeAll(lacking.length, all.length - lacking.length));
  };

  const run = (button: HTMLElement, work: (choice: Choice) => Promise<void>): void => {
    const choice = choices[Number(select.value)];
    if (choice === undefined) return;
    start(button, async () => {
      status.textContent = texts.handOutMaking;
      await work(choice).catch((cause: unknown) => tell(texts.handOutFailed(reasonOf(cause))));
    });
  };
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    run(make, buildOne);
  });
  makeAll.addEventListener("click", () => run(makeAll, buildAll));
  whenShown(() => void look());
  whenChanged(() => look());
}

/** The label of a season by its board sheet, which the page reads; undefined where that is gone or renamed. */
function labelOf(season: SeasonData, sheets: readonly string[]): string | undefined {
  const start = sheetNames("").board;
  return sheets
    .filter((name) => name.startsWith(start))
    .map((name) => name.slice(start.length))
    .find((label) => tableNames(label).practice === season.table && sheets.includes(sheetNames(label).season));
}

/** Answers what to call with the sheets that can be printed together now. */
function printOffer(
  host: WorkbookHost,
  print: HTMLElement,
  hint: HTMLElement,
  tell: (words: string) => void,
): (sheets: readonly string[]) => void {
  let pages: readonly string[] = [];
  print.addEventListener("click", () => {
    host.printSheets?.(pages).catch((cause: unknown) => tell(texts.handOutNotPrinted(reasonOf(cause))));
  });
  return (sheets) => {
    pages = sheets;
    print.hidden = sheets.length === 0 || host.printSheets === undefined;
    hint.hidden = sheets.length < 2 || host.printSheets !== undefined;
    print.textContent = texts.handOutPrintAll(sheets.length);
  };
}

/** A season from before has one contest's day and no list of them. */
function hasCalendar(label: string, tables: readonly string[]): boolean {
  return tables.some((name) => comparable(name) === comparable(tableNames(label).calendar));
}

/** Everybody's pages: all in the athletes' order, and what is still to be made. */
function pagesOf(season: SeasonData, label: string, sheets: readonly string[], tables: readonly string[]) {
  const taken = [...sheets, ...tables];
  const all: string[] = [];
  const lacking = season.athletes.flatMap((athlete) => {
    const own = freeSheetName(athlete, label, []);
    // Two names may come to the same sheet's name: the second of them has no page yet.
    const isThere = sheets.some((sheet) => comparable(sheet) === comparable(own)) && !all.includes(own);
    const sheetName = isThere ? own : freeSheetName(athlete, label, taken);
    all.push(sheetName);
    if (isThere) return [];
    taken.push(sheetName);
    return [{ athlete, tricks: tricksOf(season, athlete), sheetName }];
  });
  return { all, lacking };
}

/** The tricks that the athlete has practised as a whole, the latest first; all of the season's where there are none. */
function tricksOf({ tricks, records }: SeasonData, athlete: string): readonly string[] {
  const own = records.practised.filter((one) => comparable(one.athlete) === comparable(athlete));
  const spelled = own.flatMap(({ trick }) => listed(tricks, trick) ?? []);
  return spelled.length === 0 ? tricks : spelled;
}
