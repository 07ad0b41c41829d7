/** Finds a browser for the tests that need a real one, and installs one where that takes a single command. */
import { execFileSync } from "node:child_process";
import { accessSync, constants, existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { type Browser, chromium } from "playwright-core";

const commands = ["google-chrome", "google-chrome-stable", "chromium", "chromium-browser", "microsoft-edge"];

const usualPlaces = [
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
  ...["PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA"].flatMap((name) => {
    const folder = process.env[name];
    return folder === undefined
      ? []
      : ["Google/Chrome/Application/chrome.exe", "Microsoft/Edge/Application/msedge.exe"].map((part) =>
          join(folder, part),
        );
  }),
];

/** The path of a Chrome, Chromium or Edge. Throws, in one sentence, if there is none and none can be installed. */
export function findBrowser(): string {
  const chosen = process.env["CHROME_PATH"];
  if (chosen !== undefined && chosen !== "") {
    if (!mayRun(chosen)) throw new Error(`CHROME_PATH names ${chosen}, which is no program that can be run.`);
    return chosen;
  }
  const found = onPath(commands) ?? usualPlaces.find(mayRun);
  if (found !== undefined) return found;
  if (mayInstall()) {
    execFileSync("apt-get", ["update"], { stdio: "ignore" });
    execFileSync("apt-get", ["install", "--yes", "--no-install-recommends", "chromium"], {
      stdio: "ignore",
      env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
    });
    const installed = onPath(commands);
    if (installed !== undefined) return installed;
  }
  throw new Error("The browser tests need Chrome, Chromium or Edge: install one, or name it in CHROME_PATH.");
}

function onPath(names: readonly string[]): string | undefined {
  const folders = (process.env["PATH"] ?? "").split(delimiter).filter((folder) => folder !== "");
  return names.flatMap((name) => folders.map((folder) => join(folder, name))).find(mayRun);
}

function mayRun(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function mayInstall(): boolean {
  return process.platform === "linux" && process.getuid?.() === 0 && existsSync("/usr/bin/apt-get");
}

/** What a page of ours may ask: itself, where the tests serve it, and what it holds already. */
const own = /^(data:|blob:|about:|https?:\/\/(127\.0\.0\.1|localhost|pane\.test)(:\d+)?\/)/;

/**
 * A browser that asks nothing of anybody on its own. Every request of every page in it is recorded: where one left the
 * page's own origin, closing the browser fails, and with it the test.
 * @param further words of the browser's command line
 * @param served addresses that are the test's own as well, where it has every host led to its own server
 */
export async function launchBrowser(further: readonly string[] = [], served = own): Promise<Browser> {
  const browser = await launch(further);
  const strangers: string[] = [];
  const newContext = browser.newContext.bind(browser);
  // Pages without a context of their own get one here as well.
  browser.newContext = async (options) => {
    const context = await newContext(options);
    await context.addInitScript(withoutPickers);
    context.on("request", (request) => {
      if (!own.test(request.url()) && !served.test(request.url())) strangers.push(request.url());
    });
    return context;
  };
  const close = browser.close.bind(browser);
  browser.close = async (options) => {
    await close(options);
    if (strangers.length > 0) throw new Error(`A page asked something of others: ${strangers.join(", ")}`);
  };
  return browser;
}

/**
 * The browser's own dialogs for a file in its place lie outside the page, where nothing drives them. So the tests' pages
 * are those of a browser that has none, unless a test puts something in their place.
 */
function withoutPickers(): void {
  for (const name of ["showOpenFilePicker", "showSaveFilePicker"]) Reflect.deleteProperty(window, name);
}

function launch(further: readonly string[]): Promise<Browser> {
  return chromium.launch({
    executablePath: findBrowser(),
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      ...further,
    ],
  });
}
