/**
 * The packaged folder on a plain web space: https, an address and a path that are not the build's, the headers that the
 * package itself brings, and a browser that opens what the package's own manifest names. In place of the host's library
 * stands the strict workbook of the tests, and in the last test the real copy.
 */
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync } from "node:fs";
import { createServer, type Server } from "node:https";
import type { AddressInfo } from "node:net";
import os from "node:os";
import path from "node:path";
import { DOMParser } from "@xmldom/xmldom";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { makeCertificate } from "../../src/tools/dev/certificate";
import { BYTES_A_QUESTION } from "../../src/tools/traffic";
import { writePackage } from "../../src/tools/package/package";
import { texts } from "../../src/taskpane/words/texts";
import { launchBrowser } from "./browser";
import { bundled } from "./bundle";
import { headersAt, packagedRules } from "./packaged-headers";
import { contentTypes } from "./web-space";

jest.setTimeout(300_000);

const address = "https://tools.example.org/clubs/twirl/";
const folder = mkdtempSync(path.join(os.tmpdir(), "twirl-ledger-"));

let browser: Browser;
let server: Server;
let office: string;

/** What the package's own file has a static host send with a file. */
function packagedHeaders(file: string): Record<string, string> {
  return headersAt(packagedRules(folder), new URL(file, address).pathname);
}

beforeAll(async () => {
  writePackage({ address, forDevelopment: false, officeNetwork: false, out: folder });
  office = await bundled("fake-office-page.ts");
  const { certificate, key } = await makeCertificate(new Date());
  server = createServer({ cert: certificate, key }, (request, response) => {
    const asked = new URL(request.url ?? "/", address);
    const base = new URL(address);
    const host = request.headers.host?.replace(/:\d+$/, "");
    if (host !== base.hostname) {
      // Somebody else's page with the pane in a frame.
      response.writeHead(200, { "Content-Type": "text/html" });
      response.end(`<!doctype html><title>Frame</title><iframe src="${address}taskpane.html"></iframe>`);
      return;
    }
    const sent = packagedHeaders(asked.pathname);
    const file = path.join(folder, asked.pathname.slice(base.pathname.length));
    if (!asked.pathname.startsWith(base.pathname) || !existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404, sent);
      response.end();
      return;
    }
    response.writeHead(200, { ...sent, "Content-Type": contentTypes[path.extname(file)] ?? "text/plain" });
    response.end(readFileSync(file));
  });
  await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  const { port } = server.address() as AddressInfo;
  // Every host is this server; what a page asks of which is looked at in each test.
  browser = await launchBrowser([`--host-resolver-rules=MAP * 127.0.0.1:${port}`], /^https:/);
});

afterAll(async () => {
  await browser.close();
  await new Promise((closed) => {
    server.close(closed);
    server.closeAllConnections();
  });
  rmSync(folder, { recursive: true, force: true });
});

interface Opened {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly asked: string[];
  readonly complaints: string[];
}

/** @param withHost the tests' workbook answers in place of the host's library */
async function open(withHost: boolean): Promise<Opened> {
  const context = await browser.newContext({ ignoreHTTPSErrors: true, viewport: { width: 320, height: 700 } });
  const page = await context.newPage();
  const asked: string[] = [];
  const complaints: string[] = [];
  page.on("request", (request) => asked.push(request.url()));
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  if (withHost) {
    await page.route(`${address}office/office.js`, (route) =>
      route.fulfill({ contentType: "text/javascript", body: office, headers: packagedHeaders("office/office.js") }),
    );
  }
  return { context, page, asked, complaints };
}

/** What the manifest names, by the resource's id. */
function named(id: string): string {
  const manifest = new DOMParser().parseFromString(readFileSync(path.join(folder, "manifest.xml"), "utf8"), "text/xml");
  const found = Array.from(manifest.getElementsByTagName("bt:Url")).find((url) => url.getAttribute("id") === id);
  return found?.getAttribute("DefaultValue") ?? "";
}

test("the pane opens at the manifest's address, a set is logged, and nothing is asked of anybody else", async () => {
  const { context, page, asked, complaints } = await open(true);
  const answer = await page.goto(named("Taskpane.Url"));
  const sent = (await answer?.allHeaders()) ?? {};
  for (const [name, value] of Object.entries(packagedHeaders("taskpane.html")))
    expect(sent[name.toLowerCase()]).toBe(value);
  // What DEVELOPERS.md reckons for a question whether a file is current, and its answer: headers alone.
  const sizes = await answer?.request().sizes();
  const exchanged = (sizes?.requestHeadersSize ?? Infinity) + (sizes?.responseHeadersSize ?? 0);
  expect(exchanged).toBeLessThanOrEqual(BYTES_A_QUESTION);
  await page.getByRole("combobox", { name: texts.athleteLabel, exact: true }).fill("M.K.");
  await page.getByRole("combobox", { name: texts.trickLabel, exact: true }).fill("Double turn");
  await page.keyboard.press("Tab");
  await page.locator(".twirl-badge").getByText("Confirm").waitFor();
  for (const key of "ccd") await page.locator(".twirl-log").press(key);
  await page.getByRole("button", { name: texts.saveSet }).click();
  await page.locator(".twirl-outcome", { hasText: "ccd" }).waitFor();
  // What the pane fetches later comes from the same folder.
  await page.getByRole("tab", { name: texts.functionsTitle }).click();
  await page.getByRole("button", { name: "READINESS", exact: true }).waitFor();
  expect(asked.length).toBeGreaterThanOrEqual(5);
  expect(asked.filter((url) => !url.startsWith(address))).toEqual([]);
  expect(complaints).toEqual([]);
  await context.close();
});

test("functions.json is read from the spreadsheet program's own page, and functions.js has all that it names", async () => {
  const { context, page } = await open(true);
  await page.goto("https://host.officeapps.live.com/");
  const ids = await page.evaluate(async (url) => {
    const answer = await fetch(url);
    const { functions } = (await answer.json()) as { functions: { id: string }[] };
    return functions.map(({ id }) => id).sort();
  }, named("Functions.Metadata.Url"));
  expect(ids.length).toBeGreaterThan(30);
  await page.goto(named("Taskpane.Url"));
  await page.getByRole("tablist").waitFor();
  expect((await page.evaluate(() => window.fakeAssociated?.slice().sort())) ?? []).toEqual(ids);
  await context.close();
});

test("the pane may be framed by the spreadsheet program's pages and by nobody else's", async () => {
  for (const [host, shown] of [
    ["host.officeapps.live.com", true],
    ["club.sharepoint.com", true],
    ["excel.cloud.microsoft", true],
    ["elsewhere.example", false],
  ] as const) {
    const { context, page } = await open(true);
    const refused = shown
      ? undefined
      : page.waitForEvent("console", (words) => words.text().includes("frame-ancestors"));
    await page.goto(`https://${host}/`);
    const frame = page.frameLocator("iframe");
    if (shown) await frame.getByRole("tablist").waitFor();
    await refused;
    expect({ host, tabs: await frame.getByRole("tablist").count() }).toEqual({ host, tabs: shown ? 1 : 0 });
    await context.close();
  }
});

test("the policy holds: no inline script runs, no other address is asked", async () => {
  const { context, page, asked } = await open(true);
  await page.goto(named("Taskpane.Url"));
  await page.getByRole("tablist").waitFor();
  const outcome = await page.evaluate(async () => {
    const script = document.createElement("script");
    script.textContent = "window.ran = true";
    document.head.append(script);
    const reached = await fetch("https://elsewhere.example/").then(
      () => true,
      () => false,
    );
    return { ran: "ran" in window, reached };
  });
  expect(outcome).toEqual({ ran: false, reached: false });
  expect(asked.filter((url) => !url.startsWith(address))).toEqual([]);
  await context.close();
});

test("with the real copy of the host's library, outside the program, the page says so and reaches nobody", async () => {
  const { context, page, asked } = await open(false);
  const reached: string[] = [];
  page.on("response", (response) => reached.push(response.url()));
  await page.goto(named("Taskpane.Url"));
  await page.getByText(texts.outside).waitFor();
  expect(asked).toContain(`${address}office/office.js`);
  expect(reached.filter((url) => !url.startsWith(address))).toEqual([]);
  await context.close();
});

test("the real copy, told that it is in the program in another language, finds all it needs in the folder", async () => {
  const { context, page, asked, complaints } = await open(false);
  // What the program on the web puts behind the pane's address; the rest of the talk needs the program.
  const host = "Excel$Web$16.01$fr-FR$00000000-0000-0000-0000-000000000000$$$0";
  await page.goto(`${named("Taskpane.Url")}?_host_Info=${host}`);
  await page.waitForFunction("typeof Excel === 'object' && typeof Strings === 'object'");
  expect(asked).toContain(`${address}office/excel-web-16.00.js`);
  // Words in the coach's language are not in the folder: those in English are taken.
  expect(asked).toContain(`${address}office/en-us/office_strings.js`);
  expect(asked.filter((url) => !url.startsWith(address))).toEqual([]);
  expect(complaints.filter((words) => words.includes("Content Security Policy"))).toEqual([]);
  await context.close();
});

test("the pages for people open without a complaint", async () => {
  for (const file of ["help.html", "guide.html", "INSTALL.html"]) {
    const { context, page, asked, complaints } = await open(true);
    await page.goto(address + file);
    await page.getByRole("heading", { level: 1 }).waitFor();
    expect({ file, complaints: complaints.filter((words) => !words.includes("favicon")) }).toEqual({
      file,
      complaints: [],
    });
    expect(asked.filter((url) => !url.startsWith(address) && !url.endsWith("/favicon.ico"))).toEqual([]);
    await context.close();
  }
});
