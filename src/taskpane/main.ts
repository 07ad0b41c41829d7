/** The pane's page in the spreadsheet program: waits for the host and mounts the pane, or says why it cannot. */
import { officeHost } from "./host/office-host";
import { mountPane } from "./frame/pane";
import { texts } from "./words/texts";
import { themeFor } from "./frame/theme";

/** The host answers well within this time; outside it nobody answers at all. */
const patienceMilliseconds = 4000;

function start(root: HTMLElement): void {
  // The host's own library did not come: no spreadsheet program opened this page, or the folder is not complete.
  if (typeof Office === "undefined") return sayOutside(root);

  const giveUp = setTimeout(() => sayOutside(root), patienceMilliseconds);
  void Office.onReady().then(({ host }) => {
    clearTimeout(giveUp);
    if (host !== Office.HostType.Excel) return sayOutside(root);
    takeTheme();
    mountPane(root, officeHost, { preferred: [Office.context.displayLanguage, ...navigator.languages] });
  });
}

function sayOutside(root: HTMLElement): void {
  const words = document.createElement("p");
  words.textContent = texts.outside;
  words.className = "twirl-outside";
  root.classList.add("twirl-pane");
  root.replaceChildren(words);
}

/** Where the host does not tell its colours, the page's style follows the system. */
function takeTheme(): void {
  const colours = Office.context.officeTheme as Office.OfficeTheme | undefined;
  const theme = colours === undefined ? null : themeFor(colours.bodyBackgroundColor);
  if (theme !== null) document.documentElement.dataset["theme"] = theme;
}

const root = document.getElementById("pane");
if (root !== null) start(root);
