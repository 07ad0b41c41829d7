/** @jest-environment jsdom */
import { french } from "../../../src/taskpane/words/french";
import { languageFor, languages, speakLanguage } from "../../../src/taskpane/frame/language";
import { mountPane } from "../../../src/taskpane/frame/pane";
import { english, texts } from "../../../src/taskpane/words/texts";
import { memoryDrafts } from "../memory-drafts";
import { memoryHost } from "../memory-host";

let root: HTMLElement;

beforeEach(() => {
  Element.prototype.scrollIntoView = () => undefined;
  window.localStorage.clear();
  root = document.createElement("main");
  document.body.replaceChildren(root);
});

afterEach(() => speakLanguage("en"));

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(() => setTimeout(resolve, 5), 5));
const tabs = (): readonly (string | null)[] =>
  [...root.querySelectorAll('[role="tab"]')].map(({ textContent }) => textContent);
const choice = (): HTMLSelectElement => root.querySelector("#twirl-language") as HTMLSelectElement;
const choose = async (code: string): Promise<void> => {
  choice().value = code;
  choice().dispatchEvent(new Event("change"));
  await settled();
};

test.each([
  [null, ["fr-CA", "en"], "fr"],
  [null, ["de", "fr"], "fr"],
  [null, ["en-US", "fr"], "en"],
  [null, ["de"], "en"],
  [null, [], "en"],
  ["en", ["fr"], "en"],
  ["fr", ["en"], "fr"],
  ["xx", ["fr"], "fr"],
  [7, ["fr"], "fr"],
])("with %p chosen here and %p preferred, the pane speaks %s", (kept, preferred, expected) => {
  const drafts = memoryDrafts();
  if (kept !== null) drafts.keep("language", kept);
  expect(languageFor(drafts, preferred)).toBe(expected);
});

test.each(languages)("$name says all that the pane says", async ({ words }) => {
  const shape = (of: object): readonly string[] =>
    Object.entries(of)
      .flatMap(([key, value]: [string, unknown]) =>
        typeof value === "object" && value !== null
          ? shape(value).map((inner) => `${key}.${inner}`)
          : [`${key} ${typeof value}`],
      )
      .sort();
  expect(shape(await words())).toEqual(shape(english));
});

test("the preferred language is spoken, the page says so, and the choice shows it", async () => {
  mountPane(root, memoryHost(), { preferred: ["fr-FR"] });
  await settled();
  expect(tabs()).toContain(french.logSetTitle);
  expect(document.documentElement.lang).toBe("fr");
  expect(choice().value).toBe("fr");
  expect(choice().getAttribute("aria-label")).toBe(french.languageLabel);
});

test("another choice changes every part at once, is kept, and leaves what was typed", async () => {
  mountPane(root, memoryHost(), { preferred: ["en"] });
  expect(document.documentElement.lang).toBe("en");
  const tab = [...root.querySelectorAll<HTMLElement>('[role="tab"]')].find(
    ({ textContent }) => textContent === english.newSeasonTitle,
  );
  tab?.click();
  await settled();
  const label = root.querySelector("#twirl-season-label") as HTMLInputElement;
  label.value = "2027";
  label.dispatchEvent(new Event("input", { bubbles: true }));
  await choose("fr");
  expect(tabs()).toContain(french.newSeasonTitle);
  expect(tabs()).not.toContain(english.newSeasonTitle);
  expect(document.documentElement.lang).toBe("fr");
  expect(document.activeElement).toBe(choice());
  expect((root.querySelector("#twirl-season-label") as HTMLInputElement).value).toBe("2027");
  expect(root.querySelector('[aria-selected="true"]')?.textContent).toBe(french.newSeasonTitle);
  // The next opening speaks it at once.
  mountPane(root, memoryHost(), { preferred: ["en"] });
  await settled();
  expect(tabs()).toContain(french.newSeasonTitle);
  await choose("en");
  expect(texts.newSeasonTitle).toBe(english.newSeasonTitle);
  expect(tabs()).toContain(english.newSeasonTitle);
});
