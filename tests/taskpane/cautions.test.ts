/** @jest-environment jsdom */
/** Each caution of the pane stands where it matters, in a sentence or two, and nowhere else. */
import { french } from "../../src/taskpane/words/french";
import { handOutPart } from "../../src/taskpane/parts/hand-out/hand-out-part";
import { logSetPart } from "../../src/taskpane/parts/log-set/log-set-part";
import { newSeasonPart } from "../../src/taskpane/parts/new-season/new-season-part";
import { mountParts } from "../../src/taskpane/frame/pane";
import type { Part } from "../../src/taskpane/parts/part";
import { picturesPart } from "../../src/taskpane/parts/pictures/pictures-part";
import { tempoPart } from "../../src/taskpane/parts/tempo/tempo-part";
import { texts } from "../../src/taskpane/words/texts";
import { defaultSettings } from "../../src/workbook/season/season";
import { settingAddress } from "../../src/workbook/season/season-sheet";
import { memoryDrafts } from "./memory-drafts";
import { memoryHost, type MemoryHost } from "./memory-host";
import { withAnswers } from "./season-with-answers";
import { firstDay, smallSeason } from "./small-season";

const cautions: Readonly<Record<string, string>> = {
  bails: texts.bailCaution,
  wall: texts.landingsCaution,
  "ceiling not known": texts.tossFits["ceiling not known"],
  "hits the ceiling": texts.tossFits.hits,
  "close to the ceiling": texts.tossFits.close,
  "travels far": texts.tossFits["travels far"],
  fits: texts.tossFits.fits,
  "before a higher toss": texts.plusMinusMeaning,
  "hand out": texts.handOutCare,
  initials: texts.athletesHint,
};

/** What each speaks of, in both languages. */
const topics: readonly (readonly [
  caution: string,
  english: RegExp,
  french: (words: typeof french) => string,
  said: RegExp,
])[] = [
  [
    texts.bailCaution,
    /stop.*repetitions.*dizzy.*pain.*doctor/i,
    (words) => words.bailCaution,
    /répétitions.*vertige.*douleur.*médecin/i,
  ],
  [texts.landingsCaution, /wall.*under another/i, (words) => words.landingsCaution, /mur.*sous le lancer/i],
  [texts.tossFits.hits, /ceiling/i, (words) => words.tossFits.hits, /plafond/i],
  [texts.tossFits.close, /ceiling or its lights.*lower first/i, (words) => words.tossFits.close, /plafond.*plus bas/i],
  [
    texts.tossFits["ceiling not known"],
    /measure.*lamp or net/i,
    (words) => words.tossFits["ceiling not known"],
    /mesurez.*lampe/i,
  ],
  [texts.tossFits["travels far"], /lane clear/i, (words) => words.tossFits["travels far"], /couloir libre/i],
  [texts.tossFits.fits, /lane clear/i, (words) => words.tossFits.fits, /couloir libre/i],
  [
    texts.plusMinusMeaning,
    /measure the ceiling and its lights/i,
    (words) => words.plusMinusMeaning,
    /mesurez le plafond/i,
  ],
  [texts.handOutCare, /ask the family.*minors/i, (words) => words.handOutCare, /famille.*mineur/i],
  [
    texts.athletesHint,
    /initials.*birth dates.*medical/i,
    (words) => words.athletesHint,
    /initiales.*naissance.*médical/i,
  ],
];

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(() => setTimeout(resolve, 10), 10));
let root: HTMLElement;

async function open(part: Part, host: MemoryHost = memoryHost([smallSeason()])): Promise<void> {
  Element.prototype.scrollIntoView = () => undefined;
  root = document.createElement("main");
  document.body.replaceChildren(root);
  mountParts(root, host, [part], memoryDrafts());
  await settled();
}
/** The cautions that stand on the page, hidden ones left out. */
const shown = (): readonly string[] => {
  const copy = root.cloneNode(true) as HTMLElement;
  for (const hidden of copy.querySelectorAll("[hidden]")) hidden.remove();
  return Object.entries(cautions).flatMap(([name, words]) => (copy.textContent.includes(words) ? [name] : []));
};
const press = (selector: string, times = 1): void => {
  for (let time = 0; time < times; time += 1) root.querySelector<HTMLElement>(selector)?.click();
};

test.each(topics)("%s", (english, says, inFrench, alsoSays) => {
  expect(english).toMatch(says);
  expect(inFrench(french)).toMatch(alsoSays);
  // A sentence or two, never a wall of text.
  for (const words of [english, inFrench(french)]) expect(words.length).toBeLessThan(210);
});

test("in Log a set: none until the second bail", async () => {
  await open(logSetPart);
  expect(shown()).toEqual([]);
  press(".twirl-mark-d", 6);
  press(".twirl-mark-b");
  expect(shown()).toEqual([]);
  press(".twirl-mark-b");
  expect(shown()).toEqual(["bails"]);
  press('[aria-keyshortcuts="U"]');
  expect(shown()).toEqual([]);
});

test("in New season: at the athletes' names", async () => {
  await open(newSeasonPart);
  expect(shown()).toEqual(["initials"]);
  const field = root.querySelector("#twirl-season-athletes");
  const hint = document.getElementById(field?.getAttribute("aria-describedby") ?? "");
  expect(hint?.textContent).toBe(texts.athletesHint);
});

test("in Hand-out: beside the button", async () => {
  await open(handOutPart);
  expect(shown()).toEqual(["hand out"]);
});

test("in Tempo: with the airtime of a toss", async () => {
  await open(tempoPart);
  expect(shown()).toEqual(["before a higher toss"]);
});

describe("in Pictures", () => {
  /** A season with a ceiling in which the toss of 6 counts at 200 a minute rises to 5.5 m above the floor. */
  const withCeiling = (ceiling: number | "", travel = 0): MemoryHost => {
    const host = withAnswers(memoryHost([smallSeason()]));
    const at = settingAddress("ceiling");
    host.cells.set(`Season 2027 ${String(at.row)},${String(at.column)}`, ceiling);
    const tricks = host.table("Tricks_2027");
    const column = tricks.headings.indexOf("Travel");
    tricks.rows = tricks.rows.map((row) => row.map((value, index) => (index === column ? travel : value)));
    return host;
  };
  const look = async (kind: string, host: MemoryHost): Promise<readonly string[]> => {
    await open(picturesPart, host);
    press(`#twirl-picture-${kind}`);
    return shown();
  };

  test.each([
    ["" as const, 0, "ceiling not known"],
    [5, 0, "hits the ceiling"],
    [5.8, 0, "close to the ceiling"],
    [9, 0, "fits"],
    [9, 8, "travels far"],
  ])("under a ceiling of %p with %p of travel: %s", async (ceiling, travel, expected) => {
    expect(defaultSettings.countsPerMinute).toBe(200);
    expect(await look("toss", withCeiling(ceiling, travel))).toEqual([expected]);
  });

  test("none with a record or a routine that give no cause", async () => {
    expect(await look("record", withCeiling(5))).toEqual([]);
    expect(await look("routine", withCeiling(5))).toEqual([]);
  });

  test("the wall where tosses drift forward, and not where they land around the target", async () => {
    const landing = (points: readonly (readonly [number, number])[]): MemoryHost => {
      const host = withCeiling(9);
      const table = host.table("Landings_2027");
      table.rows = points.map(([sideways, forward]) => [firstDay, "A.R.", "Thumb toss", sideways, forward]);
      return host;
    };
    const forward = landing([[0, 1], [0.1, 1.1], [-0.1, 0.9], [0.05, 1], [-0.05, 1.05]]); // prettier-ignore
    expect(await look("landings", forward)).toEqual(["wall"]);
    const around = landing([[0, 0.3], [0.3, 0], [-0.3, 0], [0, -0.3], [0.1, 0.1]]); // prettier-ignore
    expect(await look("landings", around)).toEqual([]);
  });
});
