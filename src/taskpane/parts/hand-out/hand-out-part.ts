/** The Hand-out part: one athlete's page for the wall or for the family, on a sheet of its own. */
import { comparable } from "../../../core/text";
import { sheetNames, tableNames } from "../../../workbook/season/season";
import { athletePage, athletePageName } from "../../../workbook/season/athlete-page";
import { element, say, setAttribute } from "../../ui/dom";
import { leftOutNote } from "../../season/left-out-note";
import { listed, readSeason, seasonsAmong, type SeasonData } from "../../season/season-data";
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

function mount(panel: HTMLElement, { host, whenShown, whenChanged }: PartContext): void {
  const select = element("select", { id: "twirl-hand-out-athlete", "aria-describedby": "twirl-hand-out-hint" });
  const make = element("button", { type: "submit", class: "twirl-button twirl-button-main" }, texts.handOutMake);
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
    element("div", { class: "twirl-actions" }, make),
  );
  const empty = element("p", { class: "twirl-quiet", hidden: true });
  const status = element("p", { role: "status", class: "twirl-status" });
  const leftOut = leftOutNote();
  const gym = gymSection(host);
  panel.append(
    element("h2", {}, texts.handOutTitle),
    element("p", { class: "twirl-quiet" }, texts.handOutIntro),
    form,
    empty,
    status,
    leftOut.block,
    element("p", { class: "twirl-quiet twirl-field" }, texts.handOutCare),
    gym.block,
  );

  let choices: readonly Choice[] = [];
  let working = false;
  let sheetsNow: readonly string[] = [];
  const view = seasonInView(host);

  /** @param turned the season that the coach looks at now, where it is another one than before */
  const showChoices = (found: readonly Choice[], words: string, turned?: string): void => {
    const chosen = choices[Number(select.value)];
    choices = found;
    const several = new Set(found.map(({ label }) => label)).size > 1;
    const names = found.map(({ athlete, label }) => (several ? texts.handOutOf(athlete, label) : athlete));
    // Left alone where it holds these already: a list that is open would close.
    if (JSON.stringify(names) !== JSON.stringify([...select.options].map(({ text }) => text))) {
      select.replaceChildren(...names.map((name, index) => element("option", { value: index }, name)));
    }
    const inSight = turned === undefined ? found : found.filter(({ season }) => season.key === turned);
    const again =
      inSight.find((one) => one.athlete === chosen?.athlete && one.label === chosen.label) ??
      inSight.find((one) => one.athlete === chosen?.athlete) ??
      inSight[0] ??
      found[0];
    select.value = String(again === undefined ? 0 : found.indexOf(again));
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

  const build = async ({ label, season, athlete }: Choice): Promise<void> => {
    const { sheets, tables } = await host.namesInUse();
    const sheetName = athletePageName(athlete, label, [...sheets, ...tables]);
    await host.addSheets(athletePage({ label, athlete, tricks: tricksOf(season, athlete), sheetName }));
    say(status, texts.handOutMade(sheetName));
  };

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const choice = choices[Number(select.value)];
    if (working || choice === undefined) return;
    working = true;
    setAttribute(make, "aria-disabled", "true");
    status.textContent = texts.handOutMaking;
    build(choice)
      .catch((cause: unknown) => say(status, texts.handOutFailed(reasonOf(cause))))
      .finally(() => {
        working = false;
        setAttribute(make, "aria-disabled", null);
      });
  });
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

/** The tricks that the athlete has practised as a whole, the latest first; all of the season's where there are none. */
function tricksOf({ tricks, records }: SeasonData, athlete: string): readonly string[] {
  const own = records.practised.filter((one) => comparable(one.athlete) === comparable(athlete));
  const spelled = own.flatMap(({ trick }) => listed(tricks, trick) ?? []);
  return spelled.length === 0 ? tricks : spelled;
}
