/** Whatever a file holds: it opens, or one sentence says why it does not. Nothing else is thrown, and nothing hangs. */
import { FileRefused, refusals } from "../../../src/xlsx/package/file-refused";
import { WorkbookFile } from "../../../src/grid/file/workbook-file";
import { hostileFiles } from "./hostile-files";
import { testOptions } from "./parts";

const sentences = new Set<string>(Object.values(refusals));

test("each of the hostile files opens, or is refused in one of the known sentences", () => {
  const files = hostileFiles();
  let refused = 0;
  const wrong: unknown[] = [];
  for (const { what, make } of files) {
    try {
      const { snapshot } = WorkbookFile.open("hostile.xlsx", make(), testOptions);
      if (snapshot.sheetOrder.length === 0) wrong.push({ what, thrown: "no sheet" });
    } catch (thrown) {
      refused += 1;
      if (!(thrown instanceof FileRefused) || !sentences.has(thrown.message))
        wrong.push({ what, thrown: String(thrown) });
    }
  }
  expect(wrong).toEqual([]);
  expect(files.length).toBeGreaterThan(150);
  expect(refused).toBeGreaterThan(100);
  expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
});
