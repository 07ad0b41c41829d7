/** Duos and teams in the real page: the box of the form is ticked, exchanges are typed, the team's toss is asked. */
import { mkdirSync } from "node:fs";
import { join } from "node:path";

import { type OpenPage, openTryOutPage, screenshots } from "./page";

jest.setTimeout(300_000);

const LABEL = "2028";
const [EXCHANGES, TEAM] = [`Exchanges ${LABEL}`, `Team ${LABEL}`];

let opened: OpenPage;
beforeAll(async () => {
  opened = await openTryOutPage({ locale: "en-GB" });
  mkdirSync(screenshots, { recursive: true });
});
afterAll(() => opened.close());

const shoot = (name: string) => opened.page.screenshot({ path: join(screenshots, `together-${name}.png`) });

test("the form's box adds the two sheets", async () => {
  const pane = opened.page.locator("#pane");
  await pane.getByRole("tab", { name: "New season" }).click();
  await pane.getByLabel("Season label").fill(LABEL);
  await pane.getByLabel("Athletes, one a line").fill("A.K.\nM.K.\nR.S.");
  await pane.getByLabel("Tricks, one a line").fill("Double spin, 3");
  await pane.getByLabel("With sheets for exchanges and for the team").click();
  await shoot("form");
  await pane.getByRole("button", { name: "Build the season" }).click();
  await opened.page.waitForFunction((name) => window.tryOutPage?.sheetNames().includes(name), TEAM);
  await opened.ready();
  await opened.shows(EXCHANGES, "H5", "Fills itself with the first exchange that is logged.");
});

test("exchanges typed below each other are told by thrower and catcher", async () => {
  await opened.typeRow(EXCHANGES, 6, ["6/9/2027", "Cross toss", "A.K.", "M.K.", "9/10"]);
  await opened.typeRow(EXCHANGES, 7, ["6/9/2027", "Cross toss", "M.K.", "A.K.", "ccccd"]);
  await opened.ready();
  await opened.shows(EXCHANGES, "H2", "All 2 rows count");
  await opened.shows(EXCHANGES, "K6", "90%");
  await opened.shows(EXCHANGES, "L6", "10");
  await opened.shows(EXCHANGES, "I7", "80%");
  await opened.goTo(EXCHANGES, "H3");
  await shoot("exchanges");
});

test("a row half typed is said, and takes nothing away", async () => {
  await opened.typeRow(EXCHANGES, 8, ["6/9/2027", "Circle", "R.S."]);
  await opened.ready();
  await opened.shows(EXCHANGES, "H2", "1 of 3 rows does not count");
  await opened.shows(EXCHANGES, "K6", "90%");
});

test("the team's toss follows the log and who is in", async () => {
  const practice = `Practice ${LABEL}`;
  await opened.typeRow(practice, 5, ["6/9/2027", "A.K.", "Double spin", "Joined", "9/10"]);
  await opened.typeRow(practice, 6, ["6/9/2027", "M.K.", "Double spin", "Joined", "6/10"]);
  await opened.ready();
  await opened.shows(TEAM, "C6", "Somebody who is in has not logged it.");
  await opened.goTo(TEAM, "B12");
  await opened.page.keyboard.type("no");
  await opened.page.keyboard.press("Enter");
  await opened.ready();
  await opened.shows(TEAM, "B6", "54%");
  await opened.shows(TEAM, "F11", "90%");
  await shoot("team");
  expect(opened.problems).toEqual([]);
});
