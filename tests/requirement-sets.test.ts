/**
 * The manifest asks the host for every requirement set that the code calls, and for no later one. Source: the notes of
 * the vendor's own type declarations, `@types/office-js`.
 */
import { readFileSync } from "node:fs";
import path from "node:path";
import { DOMParser } from "@xmldom/xmldom";
import { isAtLeast, officeCalls, type OfficeCall } from "./office-calls";

const manifest = readFileSync(path.resolve(__dirname, "../manifest.xml"), "utf8");
const required = new Map(
  Array.from(new DOMParser().parseFromString(manifest, "text/xml").getElementsByTagName("Set")).map((set) => [
    set.getAttribute("Name") ?? "",
    set.getAttribute("MinVersion") ?? "",
  ]),
);

/** Members without a note of a set: what every host that runs add-ins has, and the pane takes as it may be. */
const EVERYWHERE: ReadonlySet<string> = new Set([
  // The ground of every application's own set.
  "run",
  "RequestContext.workbook",
  "ClientRequestContext.sync",
  "ClientObject.isNullObject",
  // Of an event, whose own set is asked for where it is named.
  "EventHandlers.add",
  // The ground of the common library.
  "onReady",
  "host",
  "HostType",
  "HostType.Excel",
  "context",
  "Context.document",
  "Document.url",
  // Supported by the program on the web, on Windows and on Mac, says its note.
  "Context.displayLanguage",
  // "Not in a set": the pane looks whether it is there.
  "Context.officeTheme",
  "OfficeTheme.bodyBackgroundColor",
  // Their one call is in SharedRuntime 1.1.
  "addin",
  "StartupBehavior",
  "StartupBehavior.load",
]);

function uncovered(calls: readonly OfficeCall[]): OfficeCall[] {
  return calls.filter(({ member, set, version, isGuarded }) => {
    if (isGuarded) return false;
    if (set === undefined) return !EVERYWHERE.has(member);
    const asked = required.get(set);
    return asked === undefined || (version !== undefined && !isAtLeast(asked, version));
  });
}

const calls = officeCalls(["src/taskpane/main.ts"]);

test("every call is covered by a set that the manifest requires, or guarded", () => {
  expect(calls.length).toBeGreaterThan(200);
  expect(uncovered(calls)).toEqual([]);
});

test("what is said to be everywhere is called", () => {
  const met = new Set(calls.map(({ member }) => member));
  expect([...EVERYWHERE].filter((member) => !met.has(member))).toEqual([]);
});

test("no set is required in a later version than the calls need", () => {
  const latest = calls
    .filter(({ set, isGuarded }) => set === "ExcelApi" && !isGuarded)
    .map(({ version }) => version ?? "1.1")
    .reduce((one, other) => (isAtLeast(one, other) ? one : other));
  expect(required.get("ExcelApi")).toBe(latest);
  expect(calls.some(({ set }) => set === "SharedRuntime")).toBe(true);
});

const made = (body: string): OfficeCall[] =>
  uncovered(
    officeCalls(["src/made.ts"], {
      "src/made.ts": `export const work = Excel.run(async (context) => {
        const sheet = context.workbook.worksheets.getActiveWorksheet();
        ${body}
      });`,
    }),
  );

test.each([
  ["a call of a later set", 'sheet.tables.getItem("Log").resize("A1:B9");', ["Table.resize", "1.13"]],
  ["a property of a later set", "sheet.tabId;", ["Worksheet.tabId", "1.14"]],
  ["a name in load", 'sheet.load("name, tabId");', ["Worksheet.tabId", "1.14"]],
  ["a name in a list in load", 'const wanted = ["name", "tabId"]; sheet.load(wanted);', ["Worksheet.tabId", "1.14"]],
  ["a name taken apart", "const { tabId } = sheet; tabId;", ["Worksheet.tabId", "1.14"]],
  [
    "a question about an earlier version",
    'if (Office.context.requirements.isSetSupported("ExcelApi", "1.12")) sheet.tables.getItem("Log").resize("A1:B9");',
    ["Table.resize", "1.13"],
  ],
  [
    "a question whose answer was no",
    'if (Office.context.requirements.isSetSupported("ExcelApi", "1.13")) sheet.activate(); else sheet.tables.getItem("Log").resize("A1:B9");',
    ["Table.resize", "1.13"],
  ],
])("the check sees %s", (_what, body, [member, version]) => {
  expect(made(body)).toEqual(expect.arrayContaining([expect.objectContaining({ member, version })]));
});

test("a call that is asked about first is let through", () => {
  const found = made(
    'if (Office.context.requirements.isSetSupported("ExcelApi", "1.13")) sheet.tables.getItem("Log").resize("A1:B9");',
  );
  expect(found.filter(({ set }) => set === "ExcelApi")).toEqual([]);
});
