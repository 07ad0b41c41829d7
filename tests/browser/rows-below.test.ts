/** What is typed and pasted below the log, in the real page: it counts, or the page says that it does not. */
import { type OpenPage, openTryOutPage } from "./page";

jest.setTimeout(600_000);

const LOG = "Practice 2026";
const BOARD = "Board 2026";

describe("below the log", () => {
  let opened: OpenPage;
  let last = 5;

  /** The line of the board with this trick: attempts and the latest set. */
  const onBoard = (trick: string): Promise<unknown[] | null> =>
    opened.page.evaluate(
      ([sheet, name]) => {
        for (let row = 5; row < 120; row += 1) {
          if (window.tryOutPage?.read(sheet, `B${String(row)}`) !== name) continue;
          return ["C", "D"].map((column) => String(window.tryOutPage?.read(sheet, column + String(row))));
        }
        return null;
      },
      [BOARD, trick] as const,
    );
  const counts = async (trick: string, expected: unknown[] | null): Promise<void> => {
    for (let round = 0; round < 300; round += 1) {
      if (JSON.stringify(await onBoard(trick)) === JSON.stringify(expected)) return;
      await opened.page.evaluate(() => new Promise((resolve) => requestAnimationFrame(resolve)));
    }
    expect(await onBoard(trick)).toEqual(expected);
  };
  const notice = () => opened.page.locator("#rows-below");

  async function paste(address: string, rows: readonly (readonly string[])[]): Promise<void> {
    const text = rows.map((row) => row.join("\t")).join("\n");
    await opened.goTo(LOG, address);
    await opened.page.evaluate((words) => navigator.clipboard.writeText(words), text);
    await opened.page.keyboard.press("Control+v");
  }

  beforeAll(async () => {
    opened = await openTryOutPage();
    await opened.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    while ((await opened.read(LOG, `A${String(last + 1)}`)) ?? "") last += 200;
    while (!((await opened.read(LOG, `A${String(last)}`)) ?? "")) last -= 1;
  });

  afterAll(async () => {
    await opened.close();
  });

  test("nothing is said of a log that is whole", async () => {
    expect(await notice().isHidden()).toBe(true);
  });

  test("fifty rows of plain text count, and their marks stay as they were written", async () => {
    const rows = Array.from({ length: 50 }, (_, index) => [
      `2027-04-${String(1 + (index % 28)).padStart(2, "0")}`,
      "A.R.",
      "Pasted trick",
      "Joined",
      index % 2 === 0 ? "0110110111" : "8/10",
      "5",
    ]);
    await paste(`A${String(last + 1)}`, rows);
    await opened.shows(LOG, `E${String(last + 50)}`, "8/10");
    await counts("Pasted trick", ["500", "8/10"]);
    expect(await opened.read(LOG, `E${String(last + 1)}`)).toBe("0110110111");
    expect(await opened.read(LOG, `E${String(last + 49)}`)).toBe("0110110111");
    expect(await notice().isHidden()).toBe(true);

    // The log gives them back first, and says so; then they go.
    await opened.page.keyboard.press("Control+z");
    await notice()
      .getByText(`${LOG}: rows ${String(last + 1)} to ${String(last + 50)} stand below`)
      .waitFor();
    await counts("Pasted trick", null);
    await opened.page.keyboard.press("Control+z");
    await notice().waitFor({ state: "hidden" });
    expect((await opened.read(LOG, `E${String(last + 1)}`)) ?? "").toBe("");
    await opened.page.keyboard.press("Control+y");
    await counts("Pasted trick", ["500", "8/10"]);
    await opened.page.keyboard.press("Control+z");
    await notice().getByText("stand below").waitFor();
    await opened.page.keyboard.press("Control+z");
    await notice().waitFor({ state: "hidden" });
  });

  test("a row after an empty line is told, and counted in by the button", async () => {
    const row = last + 2;
    await opened.typeRow(LOG, row, ["2027-04-02", "A.R.", "After a gap", "Joined", "0110110111"]);
    await notice()
      .getByText(`${LOG}: row ${String(row)} stands below the table and is not counted.`)
      .waitFor();
    await counts("After a gap", null);
    await notice().getByRole("button", { name: "Count them in" }).click();
    await notice().waitFor({ state: "hidden" });
    await counts("After a gap", ["10", "7/10"]);
    // What is typed under it goes on from there.
    await opened.typeRow(LOG, row + 1, ["2027-04-03", "A.R.", "After a gap", "Joined", "ccccc ccccc"]);
    await counts("After a gap", ["20", "10/10"]);
  });

  test("what was left out on purpose is not told again", async () => {
    const row = last + 6;
    await opened.typeRow(LOG, row, ["2027-04-02", "A.R."]);
    await notice().getByRole("button", { name: "Leave them out" }).click();
    await notice().waitFor({ state: "hidden" });
    await opened.page.evaluate(([sheet]) => window.tryOutPage?.write(sheet, "G5", "A note"), [LOG] as const);
    await opened.ready();
    expect(await notice().isHidden()).toBe(true);
  });
});
