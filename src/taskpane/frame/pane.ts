/** The pane: a heading with the choice of language, the first steps, a tab for each part, and the part that is open. */
import type { ChangeListener } from "../host/calm-changes";
import { element, setAttribute } from "../ui/dom";
import { firstSteps } from "./first-steps";
import type { WorkbookHost } from "../host/host";
import { icon } from "./icons";
import { keepLanguage, languageFor, languages, speakLanguage, type Language } from "./language";
import { parts } from "../parts/list";
import type { Milestone, Part } from "../parts/part";
import { browserDrafts, type Drafts } from "../host/storage";
import { texts } from "../words/texts";

const openPartDraft = "open-part";

interface PaneOptions {
  /** Codes of languages such as `fr-CA`, the dearest first; the browser's own where left out. */
  readonly preferred?: readonly string[];
}

/** Puts the pane into `root`, in place of whatever stood there, in the language that was chosen or is preferred. */
export function mountPane(
  root: HTMLElement,
  host: WorkbookHost,
  { preferred = navigator.languages }: PaneOptions = {},
): void {
  const drafts = browserDrafts();
  const show = (language: Language): void => mountParts(root, host, parts, drafts, { language, welcome: true });
  const language = languageFor(drafts, preferred);
  // English is here already: the pane is there in the same moment.
  if (language === "en") show("en");
  else speakLanguage(language).then(() => show(language), () => show("en")); // prettier-ignore
}

interface PartsOptions {
  /** The one that is spoken now. */
  readonly language?: Language;
  /** Whether the first steps are shown to whoever has not seen them through. */
  readonly welcome?: boolean;
}

/** By the pane's element: the way to hear no more of the workbook. */
const stopHearing = new WeakMap<HTMLElement, () => void>();

/** The same with given parts and drafts. */
export function mountParts(
  root: HTMLElement,
  host: WorkbookHost,
  shown: readonly Part[],
  drafts: Drafts,
  { language = "en", welcome = false }: PartsOptions = {},
): void {
  document.documentElement.lang = language;
  const tabs = shown.map((part) =>
    element(
      "button",
      { type: "button", role: "tab", id: tabId(part), "aria-controls": panelId(part), class: "twirl-tab" },
      icon(part.id),
      element("span", {}, part.title),
    ),
  );
  const panels = shown.map((part) =>
    element("section", { role: "tabpanel", id: panelId(part), "aria-labelledby": tabId(part), class: "twirl-panel" }),
  );

  const listeners = new Map<string, () => void>();
  const changeListeners = new Map<string, ChangeListener>();
  let openId = "";

  const open = (index: number): void => {
    tabs.forEach((tab, at) => {
      setAttribute(tab, "aria-selected", at === index ? "true" : "false");
      // One stop in the tab order for the whole list; the arrow keys move inside it.
      tab.tabIndex = at === index ? 0 : -1;
    });
    panels.forEach((panel, at) => {
      panel.hidden = at !== index;
    });
    const part = shown[index];
    if (!part) return;
    openId = part.id;
    drafts.keep(openPartDraft, part.id);
    listeners.get(part.id)?.();
  };

  const openPart = (partId: string): void => {
    const index = shown.findIndex((part) => part.id === partId);
    if (index < 0) return;
    open(index);
    tabs[index]?.focus();
    // What was pressed may stand far above the part that it opens.
    tabList.scrollIntoView({ block: "start" });
  };

  tabs.forEach((tab, index) => {
    tab.addEventListener("click", () => open(index));
    tab.addEventListener("keydown", (event) => {
      const next = nextTab(event.key, index, tabs.length);
      if (next === null) return;
      event.preventDefault();
      open(next);
      tabs[next]?.focus();
    });
  });

  const steps = firstSteps({ host, drafts, open: openPart }, welcome);
  const reachedListeners: ((milestone: Milestone) => void)[] = [steps.reached];
  const reached = (milestone: Milestone): void => reachedListeners.forEach((listener) => listener(milestone));
  const whenReached = (listener: (milestone: Milestone) => void): void => void reachedListeners.push(listener);
  const changeLanguage = (chosen: Language): void => {
    speakLanguage(chosen).then(
      () => {
        keepLanguage(drafts, chosen);
        mountParts(root, host, shown, drafts, { language: chosen, welcome });
        root.querySelector<HTMLElement>("#twirl-language")?.focus();
      },
      () => {
        choice.value = language;
        choice.setCustomValidity(texts.languageMissing);
        choice.reportValidity();
      },
    );
  };
  const choice = languageChoice(language, changeLanguage);

  const tabList = element("div", { role: "tablist", "aria-label": texts.partsLabel, class: "twirl-tabs" }, ...tabs);
  root.classList.add("twirl-pane");
  root.replaceChildren(
    element(
      "header",
      { class: "twirl-header" },
      element("h1", {}, texts.product),
      element("div", { class: "twirl-header-tools" }, steps.button, choice),
    ),
    steps.block,
    tabList,
    ...panels,
  );
  shown.forEach((part, index) => {
    const panel = panels[index];
    const whenShown = (listener: () => void): void => void listeners.set(part.id, listener);
    const whenChanged = (listener: ChangeListener): void => void changeListeners.set(part.id, listener);
    if (panel) part.mount(panel, { host, drafts, open: openPart, whenShown, whenChanged, reached, whenReached });
  });
  // A pane in another language takes the place of the one before.
  stopHearing.get(root)?.();
  stopHearing.set(
    root,
    host.whenChanged(() => changeListeners.get(openId)?.()),
  );

  const last = shown.findIndex((part) => part.id === drafts.read(openPartDraft));
  open(Math.max(0, last));
}

function languageChoice(language: Language, choose: (chosen: Language) => void): HTMLSelectElement {
  const select = element(
    "select",
    { id: "twirl-language", class: "twirl-language", "aria-label": texts.languageLabel },
    ...languages.map(({ code, name }) => element("option", { value: code, lang: code }, name)),
  );
  select.value = language;
  select.addEventListener("change", () => {
    const chosen = languages.find(({ code }) => code === select.value);
    if (chosen) choose(chosen.code);
  });
  return select;
}

const tabId = (part: Part): string => `twirl-tab-${part.id}`;
const panelId = (part: Part): string => `twirl-panel-${part.id}`;

/** Where a key leads from the tab at `index`, or null where the key does not belong to the list. */
function nextTab(key: string, index: number, count: number): number | null {
  switch (key) {
    case "ArrowRight":
    case "ArrowDown":
      return (index + 1) % count;
    case "ArrowLeft":
    case "ArrowUp":
      return (index - 1 + count) % count;
    case "Home":
      return 0;
    case "End":
      return count - 1;
    default:
      return null;
  }
}
