/** @jest-environment jsdom */
import { mountParts } from "../../../../src/taskpane/frame/pane";
import { tempoPart } from "../../../../src/taskpane/parts/tempo/tempo-part";
import { texts } from "../../../../src/taskpane/words/texts";
import { memoryDrafts } from "../../memory-drafts";
import { memoryHost, type MemoryHost } from "../../memory-host";

let root: HTMLElement;
let host: MemoryHost;

beforeEach(() => {
  // Not in the document of the tests: which finger keeps to which button.
  Element.prototype.setPointerCapture = () => undefined;
  root = document.createElement("main");
  document.body.replaceChildren(root);
  host = memoryHost();
  mount();
});

const drafts = memoryDrafts();
function mount(): void {
  mountParts(root, host, [tempoPart], drafts);
}

/** Twice: on a busy machine what is begun in a later turn would else come after the wait for it. */
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(() => setTimeout(resolve, 5), 5));

const sectionOf = (title: string): HTMLElement => {
  const heading = [...root.querySelectorAll("h3")].find((each) => each.textContent === title);
  if (!heading?.parentElement) throw new Error(`No section ${title}`);
  return heading.parentElement;
};
const result = (title: string): string => sectionOf(title).querySelector(".twirl-result")?.textContent ?? "";
const status = (title: string): string => sectionOf(title).querySelector(".twirl-status")?.textContent ?? "";
const button = (title: string, name: string): HTMLButtonElement => {
  const found = [...sectionOf(title).querySelectorAll("button")].find((each) => each.textContent === name);
  if (!found) throw new Error(`No button ${name}`);
  return found;
};
const press = (title: string): HTMLButtonElement => sectionOf(title).querySelector(".twirl-press") as HTMLButtonElement;

/** An event at a moment of our choosing. */
function at<Kind extends Event>(seconds: number, event: Kind): Kind {
  Object.defineProperty(event, "timeStamp", { value: seconds * 1000 });
  return event;
}
const pointer = (on: Element, type: string, seconds: number): boolean =>
  on.dispatchEvent(at(seconds, new MouseEvent(type, { bubbles: true, cancelable: true, button: 0 })));
const key = (on: Element, type: string, seconds: number, name: string, repeat = false): boolean =>
  on.dispatchEvent(at(seconds, new KeyboardEvent(type, { key: name, bubbles: true, cancelable: true, repeat })));
const click = (on: Element, seconds: number): boolean =>
  on.dispatchEvent(at(seconds, new MouseEvent("click", { bubbles: true })));

/** A finger's press with the click that follows it. */
function tapAt(on: Element, seconds: number): void {
  pointer(on, "pointerdown", seconds);
  pointer(on, "pointerup", seconds + 0.05);
  click(on, seconds + 0.05);
}

describe("counts per minute", () => {
  const title = texts.countsTitle;

  test("from taps of a finger, each counted once", () => {
    expect(result(title)).toBe(texts.tapHint);
    [10, 10.3, 10.6].forEach((seconds) => tapAt(press(title), seconds));
    expect(result(title)).toBe(texts.tapOn(3));
    [10.9, 11.2].forEach((seconds) => tapAt(press(title), seconds));
    expect(result(title)).toBe(texts.tempoIs("200.0 ± 0.0", 4, 0));
  });

  test.each([" ", "Enter"])("from presses of the key “%s”; one that is held is one tap", (name) => {
    for (const seconds of [1, 1.5, 2, 2.5]) {
      key(press(title), "keydown", seconds, name);
      key(press(title), "keydown", seconds + 0.1, name, true);
      key(press(title), "keyup", seconds + 0.2, name);
    }
    expect(result(title)).toBe(texts.tempoIs("120.0 ± 0.0", 3, 0));
  });

  test("from clicks alone, as a screen reader makes them", () => {
    [5, 5.6, 6.2, 6.8].forEach((seconds) => click(press(title), seconds));
    expect(result(title)).toBe(texts.tempoIs("100.0 ± 0.0", 3, 0));
  });

  test("with a missed tap left aside, and told", () => {
    [1, 1.3, 1.6, 2.2, 2.5, 2.8].forEach((seconds) => tapAt(press(title), seconds));
    expect(result(title)).toBe(texts.tempoIs("200.0 ± 0.0", 4, 1));
  });

  test("go into the selected cell as they are shown", async () => {
    button(title, texts.insertCounts).click();
    await settled();
    expect([host.inserted, status(title)]).toEqual([[], texts.nothingMeasured]);
    expect(button(title, texts.insertCounts).getAttribute("aria-disabled")).toBe("true");
    [1, 1.29, 1.59, 1.9, 2.2].forEach((seconds) => tapAt(press(title), seconds));
    button(title, texts.insertCounts).click();
    await settled();
    expect(host.inserted).toEqual([200]);
    expect(status(title)).toBe(texts.countsInserted("200.0", "Sheet1!B2"));
  });

  test("start again from nothing", () => {
    [1, 1.3, 1.6, 1.9].forEach((seconds) => tapAt(press(title), seconds));
    button(title, texts.startAgain).click();
    expect(result(title)).toBe(texts.tapHint);
    expect(document.activeElement).toBe(press(title));
  });
});

describe("airtime by hand", () => {
  const title = texts.handTitle;

  function hold(from: number, to: number): void {
    pointer(press(title), "pointerdown", from);
    pointer(press(title), "pointerup", to);
    click(press(title), to);
  }

  test("from a finger that holds, with the rise and the spread of a hand", () => {
    pointer(press(title), "pointerdown", 3);
    expect(press(title).textContent).toBe(texts.inTheAir);
    expect(press(title).getAttribute("aria-pressed")).toBe("true");
    pointer(press(title), "pointerup", 5);
    click(press(title), 5);
    // gT²/8 = 4.903 m, gT/4 × 0.1 s = 0.490 m.
    expect(result(title)).toBe(`${texts.airtimeIs("2.00 ± 0.10", "4.90 ± 0.49", "m")} ${texts.holdsTaken("2.00", 1)}`);
    expect(press(title).getAttribute("aria-pressed")).toBe("false");
  });

  test("from the space bar, which repeats while it is held", () => {
    key(press(title), "keydown", 1, " ");
    key(press(title), "keydown", 1.5, " ", true);
    key(press(title), "keyup", 2.8, " ");
    expect(result(title)).toContain("1.80 ± 0.10");
  });

  test("from two clicks of a screen reader", () => {
    click(press(title), 1);
    expect(press(title).textContent).toBe(texts.inTheAir);
    click(press(title), 3);
    expect(result(title)).toContain("2.00 ± 0.10");
  });

  test("as the mean of several tosses; the last can be taken back", () => {
    hold(1, 3);
    hold(11, 13.2);
    hold(21, 23.1);
    hold(31, 33.1);
    // The mean of 2.0, 2.2, 2.1, 2.1, and 0.1/√4.
    expect(result(title)).toContain("2.100 ± 0.050");
    expect(result(title)).toContain(texts.holdsTaken("2.10", 4));
    button(title, texts.takeBack).click();
    button(title, texts.takeBack).click();
    button(title, texts.takeBack).click();
    expect(result(title)).toContain("2.00 ± 0.10");
    button(title, texts.takeBack).click();
    button(title, texts.takeBack).click();
    expect(result(title)).toBe(texts.holdHint);
  });

  test("a slip of the finger is no toss", () => {
    hold(1, 1.1);
    expect(result(title)).toBe(texts.notAToss);
    hold(2, 4);
    hold(5, 5.1);
    expect(result(title)).toContain("2.00 ± 0.10");
    expect(result(title)).toContain(texts.notAToss);
  });

  test.each(["pointercancel", "blur"])("a press that ends in %s is no toss", (end) => {
    pointer(press(title), "pointerdown", 1);
    press(title).dispatchEvent(new Event(end));
    pointer(press(title), "pointerup", 3);
    expect(result(title)).toBe(texts.holdAbandoned);
  });

  test("airtime and height go into cells", async () => {
    hold(1, 3);
    button(title, texts.insertAirtime).click();
    await settled();
    expect(status(title)).toBe(texts.airtimeInserted("2.00", "Sheet1!B2"));
    button(title, texts.insertRise).click();
    await settled();
    expect(status(title)).toBe(texts.riseInserted("4.90", "Sheet1!B2"));
    expect(host.inserted).toEqual([2, 4.9]);
  });

  test("a cell that is not empty is left alone, and that is told", async () => {
    host.insertValue = () => Promise.reject(new Error(texts.cellNotEmpty("Sheet1!B2")));
    hold(1, 3);
    button(title, texts.insertAirtime).click();
    await settled();
    expect(status(title)).toBe(texts.functionNotInserted(texts.cellNotEmpty("Sheet1!B2")));
  });
});

describe("airtime from film", () => {
  const title = texts.filmTitle;
  const field = (label: string): HTMLInputElement => {
    const found = [...sectionOf(title).querySelectorAll("label")].find((each) => each.textContent === label);
    return document.getElementById(found?.htmlFor ?? "") as HTMLInputElement;
  };
  const fill = (label: string, text: string): void => {
    field(label).value = text;
    field(label).dispatchEvent(new Event("change"));
  };

  test("with its uncertainty and the rise; the film's speed is kept for the next time", async () => {
    fill(texts.releaseFrameLabel, "112");
    expect(result(title)).toBe(texts.filmHint);
    fill(texts.catchFrameLabel, "178");
    // 66/30 s, 1/(√6·30) = 0.0136 s; 9.80665·2.2²/8 = 5.933 m, 9.80665·2.2·0.0136/4 = 0.073 m.
    expect(result(title)).toBe(texts.airtimeIs("2.200 ± 0.014", "5.93 ± 0.07", "m"));
    fill(texts.frameRateLabel, "60");
    expect(result(title)).toContain("1.100 ± 0.007");
    button(title, texts.insertAirtime).click();
    await settled();
    expect(host.inserted).toEqual([1.1]);
    mount();
    expect(field(texts.frameRateLabel).value).toBe("60");
  });

  test("a mistake is told at its field", () => {
    fill(texts.releaseFrameLabel, "200");
    fill(texts.catchFrameLabel, "100");
    const caught = field(texts.catchFrameLabel);
    expect(caught.getAttribute("aria-invalid")).toBe("true");
    expect(document.getElementById(caught.getAttribute("aria-describedby") ?? "")?.textContent).toBe(
      texts.catchAfterRelease,
    );
    expect(result(title)).toBe(texts.problemsFound(1));
    expect(button(title, texts.insertAirtime).getAttribute("aria-disabled")).toBe("true");
    fill(texts.catchFrameLabel, "260");
    expect(caught.hasAttribute("aria-invalid")).toBe(false);
  });
});

test("heights are in metres or feet, for all results, and the choice is kept", () => {
  const unit = document.getElementById("twirl-tempo-unit") as HTMLSelectElement;
  expect(unit.value).toBe("m");
  pointer(press(texts.handTitle), "pointerdown", 1);
  pointer(press(texts.handTitle), "pointerup", 3);
  unit.value = "ft";
  unit.dispatchEvent(new Event("change"));
  expect(result(texts.handTitle)).toContain("16.1 ± 1.6 ft");
  mount();
  expect((document.getElementById("twirl-tempo-unit") as HTMLSelectElement).value).toBe("ft");
});
