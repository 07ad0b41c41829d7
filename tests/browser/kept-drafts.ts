/** What the browser keeps of workbooks that are not saved. */
import type { Page } from "playwright-core";

/** Waits until the changes of this workbook are kept. Asked over and over: `waitForFunction` takes a promise for an answer. */
export async function isKept(page: Page, name: string): Promise<void> {
  const looked = (wanted: string): Promise<boolean> =>
    new Promise<boolean>((resolve) => {
      const request = indexedDB.open("twirl-ledger-unsaved", 1);
      request.onsuccess = () => {
        const reading = request.result.transaction("headings").objectStore("headings").getAll();
        reading.onsuccess = () => {
          request.result.close();
          const headings = reading.result as { readonly name: string; readonly isChanged: boolean }[];
          resolve(headings.some((one) => one.name === wanted && one.isChanged));
        };
      };
    });
  while (!(await page.evaluate(looked, name)));
}
