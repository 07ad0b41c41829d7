/**
 * In place of the host's library: the strict workbook of the tests behind Office.js, with a season in it. The built pane
 * runs over it as it would in the spreadsheet program.
 */
import { writeWithOffice } from "../../src/workbook/office/office-writer";
import { fakeContext, FakeWorkbook, type FakeValue } from "../taskpane/fake-office";
import { smallSeason } from "../taskpane/small-season";

declare global {
  interface Window {
    fakeCell?: (sheet: string, address: string) => FakeValue | null;
    /** Ids of the functions that the page has registered. */
    fakeAssociated?: string[];
  }
}

const workbook = new FakeWorkbook();
const associated: string[] = [];
const built = writeWithOffice(fakeContext(workbook).context, smallSeason());

Object.assign(globalThis, {
  CustomFunctions: { associate: (id: string) => associated.push(id) },
  Excel: {
    run: <Answer>(work: (context: Excel.RequestContext) => Promise<Answer>) => work(fakeContext(workbook).context),
  },
  Office: {
    HostType: { Excel: "Excel" },
    StartupBehavior: { load: "load" },
    addin: { setStartupBehavior: () => Promise.resolve() },
    context: { document: { url: "https://club.example/Larkfield.xlsx" } },
    onReady: () => built.then(() => ({ host: "Excel" })),
  },
});
window.fakeCell = (sheet, address) => workbook.cell(sheet, address).value;
window.fakeAssociated = associated;
