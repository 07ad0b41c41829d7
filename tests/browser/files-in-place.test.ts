/**
 * Files where they are: a workbook is opened from its place, saved into it, and found again, in a browser that gives a page
 * the way to a file.
 *
 * The dialogs in which a coach chooses a file are the browser's own and outside the page, where nothing drives them. So a
 * test's stand in their place before the page's script is loaded. What they answer are real handles, of files in the
 * browser's private file system: reading, writing, locks, room and comparing are the browser's own. Permissions are always
 * granted there; where one is refused, the two calls that ask for it are the test's. All else goes by keys and mouse.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import axe, { type AxeResults } from "axe-core";
import type { Page } from "playwright-core";

import type {} from "../../src/page/files/file-access";
import { WorkbookPackage } from "../../src/xlsx/package/workbook-package";
import { bookFile, type BookParts } from "../grid/file/parts";
import { isKept } from "./kept-drafts";
import { drive, type DrivenPage, type OpenPage, openTryOutPage, problemsOf, screenshots } from "./page";

jest.setTimeout(300_000);

interface TestWindow {
  /** The file that the next dialog is answered with; none, where the coach leaves it. */
  chosen?: string | undefined;
  /** Lets a writing go on that was held back. */
  goOn?: () => void;
  /** Hands over a file as when the installed page is chosen to open it. */
  launch?: (name: string) => Promise<void>;
}

/** In the page, before its script. */
function standIns(): void {
  const own = window as TestWindow;
  const root = (): Promise<FileSystemDirectoryHandle> => navigator.storage.getDirectory();
  const named = async (create: boolean): Promise<FileSystemFileHandle> => {
    if (!navigator.userActivation.isActive) throw new DOMException("It needs a press.", "SecurityError");
    const { chosen } = own;
    if (chosen === undefined) throw new DOMException("The dialog was left.", "AbortError");
    return (await root()).getFileHandle(chosen, { create });
  };
  window.showOpenFilePicker = async () => [await named(false)];
  // As the real one does, it leaves an empty file where there is to be a new one.
  window.showSaveFilePicker = async () => {
    const handle = await named(true);
    await (await handle.createWritable()).close();
    return handle;
  };
  Object.defineProperty(window, "launchQueue", {
    value: {
      setConsumer: (consumer: (launched: { readonly files: readonly FileSystemHandle[] }) => void) => {
        own.launch = async (name) => consumer({ files: [await (await root()).getFileHandle(name)] });
      },
    },
  });
}

/** A log with a comment on its second sheet, which the page does not show, and a number to tell one file from another. */
function log(mark: string): Uint8Array {
  const parts: BookParts = {
    sheets: [
      { name: "Log", rows: `<row r="1"><c r="A1" t="str"><v>${mark}</v></c></row>` },
      { name: "Notes", rows: '<row r="1"><c r="A1"><v>1</v></c></row>', related: [["comments", "../comments1.xml"]] },
    ],
    parts: { "xl/comments1.xml": "<comments/>" },
  };
  return bookFile(parts);
}

/** Bytes of a moment: a zip tells the time it was made. */
const theirs = log("theirs");

let opened: OpenPage;

beforeAll(async () => {
  opened = await openTryOutPage();
  await opened.page.context().addInitScript(standIns);
  await opened.page.reload();
  await opened.ready();
  // Leaving with changes is asked about by the browser; the tests leave.
  opened.page.on("dialog", (dialog) => void dialog.accept());
});

afterAll(async () => {
  await opened.close();
});

/* ---- the computer's files ---- */

async function put(name: string, bytes: Uint8Array): Promise<void> {
  await opened.page.evaluate(
    async ([file, text]) => {
      const handle = await (await navigator.storage.getDirectory()).getFileHandle(file, { create: true });
      const writing = await handle.createWritable();
      await writing.write(Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0)));
      await writing.close();
    },
    [name, Buffer.from(bytes).toString("base64")] as const,
  );
}

async function contents(name: string): Promise<Uint8Array> {
  const text = await opened.page.evaluate(async (file) => {
    const handle = await (await navigator.storage.getDirectory()).getFileHandle(file);
    const bytes = new Uint8Array(await (await handle.getFile()).arrayBuffer());
    return btoa(bytes.reduce((all, byte) => all + String.fromCharCode(byte), ""));
  }, name);
  return new Uint8Array(Buffer.from(text, "base64"));
}

const sheet = async (name: string, part = 1): Promise<string> =>
  WorkbookPackage.open(await contents(name)).text(`xl/worksheets/sheet${String(part)}.xml`);

const remove = (name: string): Promise<void> =>
  opened.page.evaluate(async (file) => (await navigator.storage.getDirectory()).removeEntry(file), name);

/* ---- the page ---- */

const says = ({ page }: DrivenPage, words: string): Promise<void> =>
  page.locator("#file-message", { hasText: words }).waitFor();

const choose = ({ page }: DrivenPage, name: string | undefined): Promise<void> =>
  page.evaluate((file) => {
    (window as TestWindow).chosen = file;
  }, name);

async function open(at: DrivenPage, name: string): Promise<void> {
  await choose(at, name);
  await at.page.keyboard.press("Control+o");
  const question = at.page.getByRole("dialog");
  await at.page.locator(`dialog[open], #file-message:has-text("${name} is open.")`).first().waitFor();
  if (await question.isVisible()) await question.getByRole("button", { name: "Open without saving" }).click();
  await says(at, `${name} is open. Save writes into this file.`);
  await at.ready();
}

async function type(at: DrivenPage, cell: string, words: string): Promise<void> {
  await at.goTo("Log", cell);
  await at.page.keyboard.type(words);
  await at.page.keyboard.press("Enter");
  await at.shows("Log", cell, words);
  await at.ready();
}

/** Presses Save, and says yes to what the page names before the first saving of a file with comments. */
async function save(at: DrivenPage): Promise<void> {
  // What was said before is no answer to this.
  await at.page.locator("#file-message").evaluate((message) => (message.textContent = ""));
  await at.page.keyboard.press("Control+s");
  const named = at.page.getByRole("dialog", { name: "Before this is saved" });
  await at.page.waitForFunction(
    () =>
      document.querySelector("dialog[open]") !== null ||
      !["", "Saving…"].includes(document.querySelector("#file-message")?.textContent ?? ""),
  );
  if (await named.isVisible()) await named.getByRole("button", { name: "Save" }).click();
}

const isChanged = ({ page }: DrivenPage): Promise<string | undefined> =>
  page.evaluate(() => document.body.dataset["file"]);

const dialog = (at: DrivenPage, name: string): ReturnType<Page["getByRole"]> => at.page.getByRole("dialog", { name });

async function hasNoFault({ page }: DrivenPage): Promise<void> {
  await page.evaluate(axe.source);
  const results = await page.evaluate(() =>
    (window as unknown as { axe: { run: (context: object, options: object) => Promise<AxeResults> } }).axe.run(
      { include: [["dialog"], [".page-bar"], [".page-strip"]].filter(([one = ""]) => document.querySelector(one)) },
      { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] },
    ),
  );
  expect(results.violations.map(({ id, nodes }) => ({ id, at: nodes.map(({ html }) => html) }))).toEqual([]);
}

describe("a workbook that is opened from its place", () => {
  test("is saved into the same file, with what the page does not show, and nothing is put among the downloads", async () => {
    await put("club log.xlsx", log("first"));
    const downloads: string[] = [];
    const note = (download: { suggestedFilename(): string }): void => void downloads.push(download.suggestedFilename());
    opened.page.on("download", note);
    await open(opened, "club log.xlsx");
    await type(opened, "B1", "ccd");
    expect(await isChanged(opened)).toBe("changed");
    await opened.page.keyboard.press("Control+s");
    const named = dialog(opened, "Before this is saved");
    await named.getByText("comments (Notes)").waitFor();
    expect(await sheet("club log.xlsx")).not.toContain("ccd");
    await named.getByRole("button", { name: "Save" }).click();
    await says(opened, "Saved into club log.xlsx.");
    expect(await isChanged(opened)).toBe("saved");
    expect(await sheet("club log.xlsx")).toContain("ccd");
    expect(WorkbookPackage.open(await contents("club log.xlsx")).text("xl/comments1.xml")).toBe("<comments/>");
    expect(downloads).toEqual([]);
    opened.page.off("download", note);
  });

  test("is not called saved before the file is closed, and what is typed meanwhile is not called saved either", async () => {
    await type(opened, "B2", "cdd");
    await opened.page.evaluate(() => {
      const { close } = FileSystemWritableFileStream.prototype;
      FileSystemWritableFileStream.prototype.close = async function (this: FileSystemWritableFileStream) {
        FileSystemWritableFileStream.prototype.close = close;
        await new Promise<void>((resolve) => ((window as TestWindow).goOn = resolve));
        return close.call(this);
      };
    });
    await opened.page.keyboard.press("Control+s");
    await opened.page.waitForFunction(() => (window as TestWindow).goOn !== undefined);
    expect(await opened.page.locator("#file-message").textContent()).toBe("Saving…");
    expect(await isChanged(opened)).toBe("changed");
    await type(opened, "B3", "ddd");
    await opened.page.evaluate(() => (window as TestWindow).goOn?.());
    await says(opened, "Saved into club log.xlsx. What was typed during the saving is not in it yet: save once more.");
    expect(await isChanged(opened)).toBe("changed");
    expect(await sheet("club log.xlsx")).toContain("cdd");
    expect(await sheet("club log.xlsx")).not.toContain("ddd");
    await save(opened);
    await opened.page.locator("#file-message", { hasText: /^Saved into club log\.xlsx\.$/ }).waitFor();
    expect(await isChanged(opened)).toBe("saved");
    expect(await sheet("club log.xlsx")).toContain("ddd");
  });

  test("knows its file after a reload, with what was not saved, and saves into it", async () => {
    await type(opened, "C1", "after");
    await opened.page.reload();
    await opened.ready();
    await opened.shows("Log", "C1", "after");
    expect(await isChanged(opened)).toBe("changed");
    await save(opened);
    await says(opened, "Saved into club log.xlsx.");
    expect(await sheet("club log.xlsx")).toContain(">after<");
    // The same with nothing to save.
    await opened.page.reload();
    await opened.ready();
    expect(await isChanged(opened)).toBe("saved");
    expect(await opened.page.locator("#save-file").getAttribute("title")).toBe("Ctrl+S: writes into club log.xlsx");
  });
});

describe("what is not saved", () => {
  test("is there again after going back and forward, with its file", async () => {
    await type(opened, "C2", "back");
    const left = opened.page.waitForEvent("dialog");
    await opened.page.goto(`${opened.url}guide.html`);
    expect((await left).type()).toBe("beforeunload");
    await opened.page.goBack();
    await opened.ready();
    await opened.shows("Log", "C2", "back");
    expect(await isChanged(opened)).toBe("changed");
    await opened.page.goForward();
    await opened.page.goBack();
    await opened.ready();
    await opened.shows("Log", "C2", "back");
    await save(opened);
    await says(opened, "Saved into club log.xlsx.");
    expect(await sheet("club log.xlsx")).toContain(">back<");
  });

  test("is asked about where it stands half typed in a cell, and is there again", async () => {
    await opened.goTo("Log", "C3");
    await opened.page.keyboard.type("half");
    const left = opened.page.waitForEvent("dialog");
    await opened.page.reload();
    expect((await left).type()).toBe("beforeunload");
    await opened.ready();
    await opened.shows("Log", "C3", "half");
  });

  test("is there again after the page has crashed, in the page that is opened next, with its file", async () => {
    const context = opened.page.context();
    const first = drive(await context.newPage());
    await first.page.goto(opened.url);
    await first.ready();
    await put("crash.xlsx", log("crash"));
    await open(first, "crash.xlsx");
    await type(first, "C4", "typed");
    await isKept(opened.page, "crash.xlsx");
    const session = await context.newCDPSession(first.page);
    const dead = new Promise<void>((resolve) => first.page.once("crash", () => resolve()));
    session.send("Page.crash").catch(() => undefined);
    await dead;
    await first.page.close();
    const next = drive(await context.newPage());
    await next.page.goto(opened.url);
    await next.ready();
    await next.shows("Log", "C4", "typed");
    expect(await isChanged(next)).toBe("changed");
    await save(next);
    await says(next, "Saved into crash.xlsx.");
    expect(await sheet("crash.xlsx")).toContain(">typed<");
    await next.page.close();
  });
});

describe("a file that cannot simply be written", () => {
  test("has been changed by another program: that is told on coming back, and asked about before it is replaced", async () => {
    await type(opened, "D1", "mine");
    await put("club log.xlsx", theirs);
    // A test's page is always in sight: only the browser's word of coming back is the test's.
    await opened.page.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
    await opened.page.locator("#file-changed", { hasText: "club log.xlsx has been changed by another" }).waitFor();
    await save(opened);
    const question = dialog(opened, "club log.xlsx has been changed since it was opened here");
    await question.waitFor();
    await hasNoFault(opened);
    await opened.page.screenshot({ path: join(screenshots, "file-changed-by-others.png") });
    await opened.page.keyboard.press("Escape");
    await question.waitFor({ state: "detached" });
    expect(await isChanged(opened)).toBe("changed");
    expect(await contents("club log.xlsx")).toEqual(theirs);

    // The first choice is no overwriting: the other program's file stays, and the work goes into another.
    await choose(opened, "club log 2.xlsx");
    await save(opened);
    await question.waitFor();
    await opened.page.keyboard.press("Enter");
    await says(opened, "Saved into club log 2.xlsx.");
    expect(await contents("club log.xlsx")).toEqual(theirs);
    expect(await sheet("club log 2.xlsx")).toContain(">mine<");
    expect(await opened.page.locator("#file-name").textContent()).toBe("club log 2.xlsx");
    expect(await opened.page.locator("#file-changed").isHidden()).toBe(true);

    await type(opened, "D2", "again");
    await put("club log 2.xlsx", theirs);
    await save(opened);
    const second = dialog(opened, "club log 2.xlsx has been changed since it was opened here");
    await second.getByRole("button", { name: "Replace what was changed" }).click();
    await says(opened, "Saved into club log 2.xlsx.");
    expect(await sheet("club log 2.xlsx")).toContain(">again<");
  });

  test("may not be written: a copy goes among the downloads, and the workbook still counts as not saved", async () => {
    await type(opened, "D3", "refused");
    const before = await contents("club log 2.xlsx");
    await opened.page.evaluate(() => {
      FileSystemHandle.prototype.queryPermission = () => Promise.resolve("prompt");
      FileSystemHandle.prototype.requestPermission = () => Promise.resolve("denied");
    });
    await save(opened);
    const told = dialog(opened, "club log 2.xlsx was not saved");
    await told.getByText("The browser was not allowed to write into club log 2.xlsx.").waitFor();
    await opened.page.screenshot({ path: join(screenshots, "file-not-written.png") });
    const [download] = await Promise.all([
      opened.page.waitForEvent("download"),
      told.getByRole("button", { name: "Put a copy among your downloads" }).click(),
    ]);
    expect(download.suggestedFilename()).toBe("club log 2.xlsx");
    const copy = WorkbookPackage.open(new Uint8Array(readFileSync(await download.path())));
    expect(copy.text("xl/worksheets/sheet1.xml")).toContain(">refused<");
    await says(opened, "A copy is among your downloads as club log 2.xlsx. The file itself was not written");
    expect(await isChanged(opened)).toBe("changed");
    expect(await contents("club log 2.xlsx")).toEqual(before);
    // As soon as it is allowed it goes where it belongs.
    await opened.page.evaluate(() => {
      FileSystemHandle.prototype.requestPermission = () =>
        navigator.userActivation.isActive
          ? Promise.resolve("granted")
          : Promise.reject(new DOMException("It needs a press.", "SecurityError"));
    });
    await save(opened);
    await says(opened, "Saved into club log 2.xlsx.");
    expect(await sheet("club log 2.xlsx")).toContain(">refused<");
  });

  test("is held by another program", async () => {
    const other = await opened.page.context().newPage();
    await other.goto(`${opened.url}icons/icon-32.png`);
    await other.evaluate(async () => {
      const handle = await (await navigator.storage.getDirectory()).getFileHandle("club log 2.xlsx");
      await handle.createWritable({ mode: "exclusive" });
    });
    await type(opened, "D4", "held");
    await save(opened);
    const told = dialog(opened, "club log 2.xlsx was not saved");
    await told.getByText("Another program or another tab holds club log 2.xlsx just now").waitFor();
    await told.getByRole("button", { name: "Not now" }).click();
    await other.close();
    expect(await sheet("club log 2.xlsx")).not.toContain(">held<");
    await save(opened);
    await says(opened, "Saved into club log 2.xlsx.");
    expect(await sheet("club log 2.xlsx")).toContain(">held<");
  });

  test("finds no room on a full disk, and stays as it was", async () => {
    await type(opened, "D5", "full");
    const before = await contents("club log 2.xlsx");
    const browser = await opened.page.context().newCDPSession(opened.page);
    const { origin } = new URL(opened.url);
    await browser.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: 1 });
    await save(opened);
    const told = dialog(opened, "club log 2.xlsx was not saved");
    await told.getByText("There is not enough room for it on the disk.").waitFor();
    await told.getByRole("button", { name: "Not now" }).click();
    expect(await contents("club log 2.xlsx")).toEqual(before);
    expect(await isChanged(opened)).toBe("changed");
    await browser.send("Storage.overrideQuotaForOrigin", { origin });
    await save(opened);
    await says(opened, "Saved into club log 2.xlsx.");
  });

  test("is gone: the work goes into another file, and only under a name that other programs open", async () => {
    await type(opened, "D6", "gone");
    await remove("club log 2.xlsx");
    await choose(opened, "club log 3.txt");
    await save(opened);
    const told = dialog(opened, "club log 2.xlsx was not saved");
    await told.getByText("club log 2.xlsx is no longer where it was").waitFor();
    await told.getByRole("button", { name: "Save as another file…" }).click();
    await says(opened, "Nothing was saved: club log 3.txt does not end in .xlsx");
    expect(await isChanged(opened)).toBe("changed");
    await choose(opened, undefined);
    await opened.page.locator("#save-as").click();
    await says(opened, "Nothing was saved: no file was chosen.");
    await choose(opened, "club log 3.xlsx");
    await opened.page.keyboard.press("Control+Shift+s");
    await says(opened, "Saved into club log 3.xlsx.");
    expect(await sheet("club log 3.xlsx")).toContain(">gone<");
    expect(await isChanged(opened)).toBe("saved");
  });
});

describe("recent files", () => {
  const entries = (): Promise<string[]> => opened.page.locator("#recent-files li button:first-child").allTextContents();
  const unfold = async (): Promise<void> => {
    await opened.page.locator("#recent-files summary").focus();
    await opened.page.keyboard.press("Enter");
    await opened.page.locator("#recent-files ul button").first().waitFor();
  };
  const day = new Date().toLocaleDateString("en-US", { day: "numeric", month: "long" });

  test("five of them, the latest first, with their names and days alone", async () => {
    for (const name of ["one", "two", "three", "four"]) {
      await put(`${name}.xlsx`, log(name));
      await open(opened, `${name}.xlsx`);
    }
    await unfold();
    expect(await entries()).toEqual(
      ["four", "three", "two", "one", "club log 3"].map((name) => `${name}.xlsx, ${day}`),
    );
    await hasNoFault(opened);
    await opened.page.screenshot({ path: join(screenshots, "recent-files.png") });
    const kept = await opened.page.evaluate(
      () =>
        new Promise<string[][]>((resolve) => {
          const request = indexedDB.open("twirl-ledger-recent-files");
          request.onsuccess = () => {
            const reading = request.result.transaction("files").objectStore("files").getAll();
            reading.onsuccess = () => {
              request.result.close();
              resolve((reading.result as object[]).map((one) => Object.keys(one).sort()));
            };
          };
        }),
    );
    expect(kept).toEqual(Array.from({ length: 5 }, () => ["day", "handle", "name"]));
    await opened.page.keyboard.press("Escape");
    expect(await opened.page.evaluate(() => document.activeElement?.textContent)).toBe("Recent");
  });

  test("one is opened by keys after a reload, and comes first", async () => {
    await opened.page.reload();
    await opened.ready();
    await unfold();
    for (let stop = 0; stop < 5; stop += 1) await opened.page.keyboard.press("Tab");
    await opened.page.keyboard.press("Enter");
    await says(opened, "two.xlsx is open. Save writes into this file.");
    expect(await opened.page.evaluate(() => document.activeElement?.textContent)).toBe("Recent");
    await opened.shows("Log", "A1", "two");
    await unfold();
    expect((await entries()).map((words) => words.split(".")[0])).toEqual([
      "two",
      "four",
      "three",
      "one",
      "club log 3",
    ]);
  });

  test("what is gone is told and taken out, what is refused stays, and what is forgotten is out of the list alone", async () => {
    await remove("four.xlsx");
    await opened.page.getByRole("button", { name: `four.xlsx, ${day}`, exact: true }).click();
    await says(opened, "four.xlsx was not opened. four.xlsx is no longer where it was");
    await opened.shows("Log", "A1", "two");
    await unfold();
    expect((await entries()).map((words) => words.split(".")[0])).toEqual(["two", "three", "one", "club log 3"]);

    await opened.page.evaluate(() => {
      FileSystemHandle.prototype.queryPermission = () => Promise.resolve("prompt");
      FileSystemHandle.prototype.requestPermission = () => Promise.resolve("denied");
    });
    await opened.page.getByRole("button", { name: `three.xlsx, ${day}`, exact: true }).click();
    await says(opened, "The browser was not allowed to read three.xlsx.");
    await opened.page.reload();
    await opened.ready();

    await unfold();
    for (const name of ["two.xlsx", "three.xlsx", "one.xlsx"]) {
      await opened.page.getByRole("button", { name: `Forget: ${name}` }).press("Enter");
      await says(opened, `${name} is no longer in the list. The file itself stays where it is.`);
    }
    expect(await opened.page.evaluate(() => document.activeElement?.getAttribute("aria-label"))).toBe(
      "Forget: club log 3.xlsx",
    );
    await opened.page.keyboard.press("Enter");
    await opened.page.locator("#recent-files").waitFor({ state: "hidden" });
    expect(await opened.page.evaluate(() => document.activeElement?.id)).toBe("open-file");
    expect(await sheet("three.xlsx")).toContain("three");
  });
});

describe("other ways to the page", () => {
  test("a file that is dropped is saved into its place", async () => {
    await put("dropped.xlsx", log("dropped"));
    const transfer = await opened.page.evaluateHandle(() => {
      // A drop that is made by a script has no file of the computer's behind it.
      DataTransferItem.prototype.getAsFileSystemHandle = async () =>
        (await navigator.storage.getDirectory()).getFileHandle("dropped.xlsx");
      const data = new DataTransfer();
      data.items.add(new File(["x"], "dropped.xlsx"));
      return data;
    });
    await opened.page.dispatchEvent("#grid", "drop", { dataTransfer: transfer });
    await says(opened, "dropped.xlsx is open. Save writes into this file.");
    await type(opened, "B1", "into it");
    await save(opened);
    await says(opened, "Saved into dropped.xlsx.");
    expect(await sheet("dropped.xlsx")).toContain(">into it<");
  });

  test("the installed page opens what it was chosen for, and asks where there are changes", async () => {
    const launch = (name: string): Promise<void> =>
      opened.page.evaluate((file) => (window as TestWindow).launch?.(file), name);
    await put("launched.xlsx", log("launched"));
    await launch("launched.xlsx");
    await says(opened, "launched.xlsx is open. Save writes into this file.");
    await opened.shows("Log", "A1", "launched");
    await type(opened, "B1", "unsaved");
    await launch("launched.xlsx");
    await says(opened, "launched.xlsx is open here already, with changes that are not saved yet.");
    await opened.shows("Log", "B1", "unsaved");
    await launch("dropped.xlsx");
    await dialog(opened, "The open workbook has changes that are not saved")
      .getByRole("button", { name: "Cancel" })
      .click();
    await opened.shows("Log", "B1", "unsaved");
  });
});

describe("two tabs with one file", () => {
  const SHARED = "launched.xlsx is open in another tab or window as well.";
  const warning = ({ page }: DrivenPage): ReturnType<Page["locator"]> => page.locator("#same-file");
  let other: DrivenPage & { readonly problems: readonly string[] };

  beforeAll(async () => {
    const page = await opened.page.context().newPage();
    const problems = problemsOf(page);
    other = Object.assign(drive(page), { problems });
    await page.goto(opened.url);
    await other.ready();
  });

  test("both say so, and the later saving asks before it replaces the earlier one", async () => {
    expect(await warning(opened).isHidden()).toBe(true);
    await open(other, "launched.xlsx");
    await warning(other).getByText(SHARED).waitFor();
    await warning(opened).getByText(SHARED).waitFor();
    await hasNoFault(opened);
    await opened.page.screenshot({ path: join(screenshots, "two-tabs-one-file.png") });
    await type(other, "C1", "theirs");
    await save(other);
    await says(other, "Saved into launched.xlsx.");
    await save(opened);
    const question = dialog(opened, "launched.xlsx has been changed since it was opened here");
    await question.getByRole("button", { name: "Cancel" }).click();
    expect(await sheet("launched.xlsx")).toContain(">theirs<");
    expect(await sheet("launched.xlsx")).not.toContain(">unsaved<");
  });

  test("the warning goes where the other opens another file, comes with it again, and goes with its end", async () => {
    await open(other, "dropped.xlsx");
    await warning(opened).waitFor({ state: "hidden" });
    await warning(other).waitFor({ state: "hidden" });
    await open(other, "launched.xlsx");
    await warning(opened).getByText(SHARED).waitFor();
    expect(other.problems).toEqual([]);
    const session = await other.page.context().newCDPSession(other.page);
    session.send("Page.crash").catch(() => undefined);
    await warning(opened).waitFor({ state: "hidden" });
    await other.page.close();
  });
});

test("nothing is asked of another host, and nothing is complained about", () => {
  expect(
    opened.requests.filter((request) => !request.startsWith(opened.url) && !/^(data|blob):/.test(request)),
  ).toEqual([]);
  expect(opened.problems).toEqual([]);
});
