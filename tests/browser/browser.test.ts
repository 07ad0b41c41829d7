import { launchBrowser } from "./browser";

jest.setTimeout(300_000);

test.each([
  ["a page", (browser: Awaited<ReturnType<typeof launchBrowser>>) => browser.newPage()],
  ["a page in a context", async (browser: Awaited<ReturnType<typeof launchBrowser>>) => (await browser.newContext()).newPage()], // prettier-ignore
])("%s that asks something of others is found out when the browser is closed", async (_, open) => {
  const browser = await launchBrowser();
  const page = await open(browser);
  await page.route("**/*", (route) => route.fulfill({ contentType: "text/html", body: "<p>Here</p>" }));
  await page.goto("http://pane.test/");
  await page.evaluate(() => fetch("http://elsewhere.test/count?club=1").catch(() => undefined));
  await expect(browser.close()).rejects.toThrow("http://elsewhere.test/count?club=1");
});

test("a page that keeps to itself is not", async () => {
  const browser = await launchBrowser();
  const page = await browser.newPage();
  await page.route("**/*", (route) => route.fulfill({ contentType: "text/html", body: "<img src='data:image/gif;base64,R0lGODlhAQABAAAAACw='>" })); // prettier-ignore
  await page.goto("http://pane.test/");
  await expect(browser.close()).resolves.toBeUndefined();
});
