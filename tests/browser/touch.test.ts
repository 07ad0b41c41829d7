/** The try-out page under a finger, on a phone: the pane is the page, and the sheet comes in its place. */
import type { CDPSession } from "playwright-core";

import { type OpenPage, openTryOutPage } from "./page";

jest.setTimeout(300_000);

const BOARD = "Board 2026";
const PRACTICE = "Practice 2026";

interface Point {
  readonly x: number;
  readonly y: number;
}

let opened: OpenPage;
let fingers: CDPSession;

beforeAll(async () => {
  opened = await openTryOutPage({ width: 390, height: 844, touch: true });
  fingers = await opened.page.context().newCDPSession(opened.page);
});

afterAll(async () => {
  expect(opened.problems).toEqual([]);
  await opened.close();
});

async function touch(type: "touchStart" | "touchMove" | "touchEnd", at?: Point): Promise<void> {
  await fingers.send("Input.dispatchTouchEvent", { type, touchPoints: at === undefined ? [] : [at] });
}

/** A finger that goes from one point to another in so many moves, after it was held for a while, and is lifted there. */
async function swipe(from: Point, to: Point, { moves = 12, held = 0 } = {}): Promise<void> {
  await touch("touchStart", from);
  await opened.page.waitForTimeout(held);
  for (let move = 1; move <= moves; move += 1) {
    const part = move / moves;
    await touch("touchMove", { x: from.x + (to.x - from.x) * part, y: from.y + (to.y - from.y) * part });
    await opened.page.waitForTimeout(16);
  }
  await touch("touchEnd");
}

/** The middle of a cell of the sheet in sight, once it stands still. */
async function middle(address: string): Promise<Point> {
  let before: string | undefined;
  for (;;) {
    const place = await opened.page.evaluate((cell) => window.tryOutPage?.place(cell), address);
    if (place && JSON.stringify(place) === before) {
      return { x: (place.left + place.right) / 2, y: (place.top + place.bottom) / 2 };
    }
    before = JSON.stringify(place);
    await opened.page.waitForTimeout(100);
  }
}

async function tap(address: string): Promise<void> {
  const { x, y } = await middle(address);
  await opened.page.touchscreen.tap(x, y);
}

const nameBox = () => opened.page.locator('#grid [data-u-comp="defined-name"] input').inputValue();
const selected = () => opened.page.locator("#selected");
const button = (name: string | RegExp) => opened.page.getByRole("button", { name });

test("the pane is the page, and counting a set brings its fields into sight", async () => {
  const { page } = opened;
  expect(await page.locator("#pane").isVisible()).toBe(true);
  expect(await page.locator("#grid").isVisible()).toBe(false);
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
  await button("Count a set").tap();
  const bar = await page.locator(".page-bar").boundingBox();
  const dock = await page.locator(".twirl-dock").boundingBox();
  for (const id of ["twirl-log-athlete", "twirl-log-trick", "twirl-log-stage"]) {
    const field = await page.locator(`#${id}`).boundingBox();
    expect(field?.y).toBeGreaterThanOrEqual((bar?.y ?? 0) + (bar?.height ?? 0));
    expect((field?.y ?? 0) + (field?.height ?? 0)).toBeLessThanOrEqual(dock?.y ?? 0);
  }
});

test("a set that lacks its athlete leads to the field, and is saved once that is chosen", async () => {
  const { page } = opened;
  for (let attempt = 1; attempt <= 9; attempt += 1) await button(/^Caught/).tap();
  await button(/^Dropped/).tap();
  // Scrolled away from the fields, as one is after a while.
  await page.locator("#pane").evaluate((pane) => pane.scrollTo(0, pane.scrollHeight));
  await button("Save the set").tap();
  const athlete = page.locator("#twirl-log-athlete");
  await page.waitForFunction(() => document.activeElement?.id === "twirl-log-athlete");
  expect(await page.locator("#twirl-log-athlete-problem").textContent()).toBe("Choose an athlete.");
  const seen = await athlete.evaluate((field) => {
    const { left, top, width, height } = field.getBoundingClientRect();
    return field.contains(document.elementFromPoint(left + width / 2, top + height / 2));
  });
  expect(seen).toBe(true);
  const choice = page.locator('[role="listbox"]:visible [role="option"]');
  await athlete.tap();
  await choice.first().tap();
  await page.locator("#twirl-log-trick").tap();
  await choice.nth(1).tap();
  await button("Save the set").tap();
  await page.locator(".twirl-outcome", { hasText: "Saved" }).waitFor();
  await opened.ready();
});

test("the sheet is one press away, and a finger scrolls it without choosing a cell", async () => {
  const { page } = opened;
  const address = page.url();
  await button("Show the sheet").tap();
  expect(await page.locator("#grid").isVisible()).toBe(true);
  expect(await page.locator("#pane").isVisible()).toBe(false);
  const before = await middle("A10");
  await swipe({ x: 200, y: 600 }, { x: 195, y: 400 });
  const after = await middle("A10");
  // By the length of the swipe, and on from there; down alone, since the finger went down.
  expect(before.y - after.y).toBeGreaterThan(230);
  expect(after.x).toBe(before.x);
  await swipe({ x: 350, y: 500 }, { x: 50, y: 505 });
  expect(before.x - (await middle("A10")).x).toBeGreaterThan(290);
  await expect(selected().textContent()).resolves.toMatch(/^Board 2026 A1\b/);
  // Back as far as the sheet goes: no further swipe leads out of the page.
  for (let round = 1; round <= 3; round += 1) await swipe({ x: 20, y: 500 }, { x: 380, y: 500 });
  for (let round = 1; round <= 4; round += 1) await swipe({ x: 200, y: 350 }, { x: 200, y: 750 });
  expect(await middle("A10")).toEqual(before);
  expect(page.url()).toBe(address);
});

test("a finger that rests before it is lifted leaves the sheet where it is", async () => {
  const before = await middle("A10");
  await touch("touchStart", { x: 200, y: 600 });
  for (const y of [580, 560, 540, 520, 500]) await touch("touchMove", { x: 200, y });
  await opened.page.waitForTimeout(200);
  await touch("touchEnd");
  expect(Math.abs(before.y - (await middle("A10")).y - 100)).toBeLessThan(2);
});

test("a tap chooses a cell, a finger held and drawn chooses several, and held alone opens the menu", async () => {
  const { page } = opened;
  await opened.goTo(BOARD, "A1");
  await tap("B8");
  await selected()
    .filter({ hasText: /^Board 2026 B8\b/ })
    .waitFor();
  await swipe(await middle("A8"), await middle("B11"), { held: 700 });
  await selected()
    .filter({ hasText: /^Board 2026 A8\b/ })
    .waitFor();
  expect(await nameBox()).toBe("A8:B11");
  const still = await middle("B9");
  await touch("touchStart", still);
  await page.waitForTimeout(700);
  await touch("touchEnd");
  await page.getByText("Copy Special").waitFor();
  await tap("A14");
  await page.getByText("Copy Special").waitFor({ state: "hidden" });
});

test("two taps open a cell, and what is typed there is counted", async () => {
  const { page } = opened;
  await opened.goTo(PRACTICE, "E5");
  const { x, y } = await middle("E5");
  await page.touchscreen.tap(x, y);
  await page.touchscreen.tap(x, y);
  await page.keyboard.press("Control+A");
  await page.keyboard.type("cccd");
  await page.keyboard.press("Enter");
  await opened.shows(PRACTICE, "E5", "cccd");
  await button("Back to the pane").tap();
  expect(await page.locator("#pane").isVisible()).toBe(true);
});
