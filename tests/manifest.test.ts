/**
 * The manifest against the vendor's published schema and rules, which no tool checks without asking the vendor's server.
 * Sources: OfficeAppManifestV1_1.xsd, TaskPaneAppVersionOverridesV1_0.xsd and OfficeAppBasicTypesV1_0.xsd, and "How to
 * find the proper order of manifest elements" in the vendor's documentation.
 */
import { existsSync, readFileSync } from "node:fs";
import path from "node:path";
import { DOMParser, type Document, type Element } from "@xmldom/xmldom";
import { PNG } from "pngjs";

const root = path.resolve(__dirname, "..");
const base = "https://localhost:3000/";
const typeOf = "http://www.w3.org/2001/XMLSchema-instance";

const source = readFileSync(path.join(root, "manifest.xml"), "utf8");
const manifest: Document = parse(source);

/** Throws on anything that is not well-formed, warnings included. */
function parse(xml: string): Document {
  return new DOMParser({
    onError: (level, message) => {
      throw new Error(`${level}: ${message}`);
    },
  }).parseFromString(xml, "text/xml");
}

const childrenOf = (element: Element): Element[] =>
  Array.from(element.childNodes).filter((node) => node.nodeType === node.ELEMENT_NODE) as Element[];

const top = manifest.documentElement as Element;

const all = (name: string): Element[] => Array.from(top.getElementsByTagName(name));

const one = (name: string, from: Element = top): Element => {
  const found = Array.from(from.getElementsByTagName(name));
  expect(found).toHaveLength(1);
  return found[0] as Element;
};

/**
 * What may stand under an element, in the schema's order; `!` marks what must. An element that is not in this table
 * may hold no other. Where a name stands in two places with different children, its parent or its type is in the key.
 */
const order: Readonly<Record<string, string>> = {
  OfficeApp:
    "Id! AlternateId Version! ProviderName! DefaultLocale! DisplayName! Description! IconUrl HighResolutionIconUrl SupportUrl AppDomains Hosts Requirements DefaultSettings! Permissions! Dictionary VersionOverrides ExtendedOverrides",
  "OfficeApp/Hosts": "Host!",
  Requirements: "Sets Methods",
  Sets: "Set!",
  DefaultSettings: "SourceLocation!",
  VersionOverrides: "Description Requirements Hosts! Resources! WebApplicationInfo EquivalentAddins",
  "VersionOverrides/Hosts": "Host!",
  "Host:Workbook": "Runtimes AllFormFactors DesktopFormFactor",
  Runtimes: "Runtime!",
  AllFormFactors: "ExtensionPoint!",
  DesktopFormFactor: "GetStarted FunctionFile ExtensionPoint!",
  GetStarted: "Title! Description! LearnMoreUrl!",
  "ExtensionPoint:CustomFunctions": "Script! Page! Metadata! Namespace!",
  Script: "SourceLocation!",
  Page: "SourceLocation!",
  Metadata: "SourceLocation!",
  "ExtensionPoint:PrimaryCommandSurface": "OfficeTab CustomTab",
  OfficeTab: "Group!",
  Group: "Label! Icon! Control!",
  "Control:Button": "Label! Supertip! Icon! Action! Enabled",
  Supertip: "Title! Description!",
  Icon: "bt:Image!",
  "Action:ShowTaskpane": "TaskpaneId SourceLocation! Title",
  Resources: "bt:Images bt:Urls bt:ShortStrings bt:LongStrings",
  "bt:Images": "bt:Image!",
  "bt:Urls": "bt:Url!",
  "bt:ShortStrings": "bt:String!",
  "bt:LongStrings": "bt:String!",
};

/** What is wrong with the children of an element and of everything in it. */
function disorder(element: Element): string[] {
  const type = element.getAttributeNS(typeOf, "type");
  const parent = element.parentNode?.nodeName ?? "";
  const name = element.nodeName;
  const rule = order[`${name}:${type ?? ""}`] ?? order[`${parent}/${name}`] ?? order[name] ?? "";
  const allowed = rule.split(" ").map((word) => word.replace("!", ""));
  const required = rule
    .split(" ")
    .filter((word) => word.endsWith("!"))
    .map((word) => word.slice(0, -1));
  const names = childrenOf(element).map((child) => child.nodeName);
  const places = names.map((child) => allowed.indexOf(child));
  return [
    ...names.filter((child) => !allowed.includes(child)).map((child) => `<${child}> has no place in <${name}>`),
    ...required.filter((child) => !names.includes(child)).map((child) => `<${name}> lacks <${child}>`),
    ...places.flatMap((place, index) =>
      index > 0 && place < (places[index - 1] ?? 0) ? [`<${names[index] ?? ""}> comes too late in <${name}>`] : [],
    ),
    ...childrenOf(element).flatMap(disorder),
  ];
}

test("every element stands where the vendor's schema wants it", () => {
  expect(disorder(top)).toEqual([]);
});

test.each([
  ["an element in the wrong order", (xml: string) => xml.replace(/(<Id>.*<\/Id>)\s*(<Version>.*<\/Version>)/, "$2$1")],
  ["a missing element", (xml: string) => xml.replace(/<Namespace [^>]*>/, "")],
  ["an element under the wrong parent", (xml: string) => xml.replace("<Script>", "<Script><Label resid='x'/>")],
])("the check of the order sees %s", (_what, spoil) => {
  const spoilt = spoil(source);
  expect(spoilt).not.toBe(source);
  expect(disorder(parse(spoilt).documentElement as Element)).not.toEqual([]);
});

test("what is not well-formed is not read", () => {
  expect(() => parse(source.replace("</Hosts>", ""))).toThrow();
});

test("namespaces and types are the schema's own", () => {
  expect(top.namespaceURI).toBe("http://schemas.microsoft.com/office/appforoffice/1.1");
  expect(top.getAttributeNS(typeOf, "type")).toBe("TaskPaneApp");
  const overrides = one("VersionOverrides");
  expect(overrides.namespaceURI).toBe("http://schemas.microsoft.com/office/taskpaneappversionoverrides");
  expect(overrides.getAttributeNS(typeOf, "type")).toBe("VersionOverridesV1_0");
  expect(one("Resources").namespaceURI).toBe(overrides.namespaceURI);
  expect(one("bt:Urls").namespaceURI).toBe("http://schemas.microsoft.com/office/officeappbasictypes/1.0");
});

test("id, version, permission and host are of the published form", () => {
  expect(one("Id").textContent).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-[1-5][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  const version = one("Version").textContent ?? "";
  expect(version).toMatch(/^\d{1,5}(\.\d{1,5}){3}$/);
  const packageVersion = (JSON.parse(readFileSync(path.join(root, "package.json"), "utf8")) as { version: string })
    .version;
  expect(version).toBe(`${packageVersion}.0`);
  expect(one("Permissions").textContent).toBe("ReadWriteDocument");
  expect(all("Host").map((host) => host.getAttribute("Name") ?? host.getAttributeNS(typeOf, "type"))).toEqual([
    "Workbook",
    "Workbook",
  ]);
});

test("the host must have what the code calls", () => {
  const sets = all("Set").map((set) => [set.getAttribute("Name"), set.getAttribute("MinVersion")]);
  expect(sets).toEqual([
    ["SharedRuntime", "1.1"],
    ["CustomFunctionsRuntime", "1.3"],
    ["ExcelApi", "1.12"],
  ]);
});

const resources = childrenOf(one("Resources")).flatMap(childrenOf);
const references = Array.from(top.getElementsByTagName("*")).filter((element) => element.hasAttribute("resid"));

test("every resid leads to a resource of the right kind, and every resource is used", () => {
  const kindWanted = (reference: Element): string => {
    if (reference.nodeName === "bt:Image") return "bt:Images";
    if (["Runtime", "SourceLocation", "FunctionFile", "LearnMoreUrl"].includes(reference.nodeName)) return "bt:Urls";
    return reference.nodeName === "Description" ? "bt:LongStrings" : "bt:ShortStrings";
  };
  expect(references.length).toBeGreaterThan(0);
  for (const reference of references) {
    const resid = reference.getAttribute("resid") ?? "";
    const found = resources.filter((resource) => resource.getAttribute("id") === resid);
    expect([resid, found.map((resource) => resource.parentNode?.nodeName)]).toEqual([resid, [kindWanted(reference)]]);
  }
  const used = new Set(references.map((reference) => reference.getAttribute("resid")));
  expect(resources.map((resource) => resource.getAttribute("id")).filter((id) => !used.has(id))).toEqual([]);
});

test("texts and ids keep the schema's lengths", () => {
  const tooLong = (text: string | null, most: number): boolean =>
    text === null || text.length < 1 || text.length > most;
  const wrong = [
    ...resources.filter((resource) => tooLong(resource.getAttribute("id"), 32)),
    ...childrenOf(one("bt:ShortStrings")).filter((string) => tooLong(string.getAttribute("DefaultValue"), 125)),
    ...childrenOf(one("bt:LongStrings")).filter((string) => tooLong(string.getAttribute("DefaultValue"), 250)),
    ...all("*").filter(
      (element) => element.hasAttribute("DefaultValue") && tooLong(element.getAttribute("DefaultValue"), 2048),
    ),
    ...childrenOf(top)
      .filter(({ nodeName }) => nodeName === "DisplayName")
      .filter((element) => tooLong(element.getAttribute("DefaultValue"), 125)),
    ...childrenOf(top)
      .filter(({ nodeName }) => nodeName === "Description")
      .filter((element) => tooLong(element.getAttribute("DefaultValue"), 250)),
    ...["ProviderName", "TaskpaneId"].map((name) => one(name)).filter((element) => tooLong(element.textContent, 125)),
  ];
  expect(wrong.map((element) => element.nodeName)).toEqual([]);
});

test("the pane's page is the one runtime, everywhere the same", () => {
  const runtime = one("Runtime");
  expect(runtime.getAttribute("lifetime")).toBe("long");
  const pane = runtime.getAttribute("resid");
  const location = (of: Element): string | null => one("SourceLocation", of).getAttribute("resid");
  expect(location(one("Page"))).toBe(pane);
  expect(location(one("Action"))).toBe(pane);
  expect(one("FunctionFile").getAttribute("resid")).toBe(pane);
  const paneUrl = resources.find((resource) => resource.getAttribute("id") === pane)?.getAttribute("DefaultValue");
  expect(one("SourceLocation", one("DefaultSettings")).getAttribute("DefaultValue")).toBe(paneUrl);
});

test("the functions' namespace is the one that the workbook's formulas are written with", () => {
  const resid = one("Namespace").getAttribute("resid");
  const namespace = resources.find((resource) => resource.getAttribute("id") === resid)?.getAttribute("DefaultValue");
  expect(namespace).toMatch(/^[A-Z]+$/);
  expect(namespace).toBe("TWIRL");
});

/** Every address in the manifest, names of namespaces apart. */
const addresses = all("*").flatMap((element) => {
  const value = element.getAttribute("DefaultValue") ?? "";
  return /:\/\//.test(value) ? [value] : [];
});

test("addresses are https below the one base that the build replaces", () => {
  expect(addresses.length).toBeGreaterThan(0);
  expect(addresses.filter((address) => !address.startsWith(base))).toEqual([]);
});

test("every address is a file that the build puts there", () => {
  const sources: Readonly<Record<string, string>> = {
    "taskpane.html": "src/taskpane/taskpane.html",
    // Made by the build from these.
    "functions.js": "src/functions/register.ts",
    "functions.json": "src/tools/metadata.ts",
    "help.html": "src/tools/help-page.ts",
  };
  const missing = [...new Set(addresses)].filter((address) => {
    const file = address.slice(base.length);
    const from = file.startsWith("icons/") ? `src/taskpane/${file}` : sources[file];
    return from === undefined || !existsSync(path.join(root, from));
  });
  expect(missing).toEqual([]);
});

test("the pane's page loads the host's library, then the functions, then the pane, and none of them waits", () => {
  const page = readFileSync(path.join(root, "src/taskpane/taskpane.html"), "utf8");
  const scripts = [...page.matchAll(/<script([^>]*)>([^<]*)<\/script>/g)];
  expect(scripts.map((script) => /src="([^"]*)"/.exec(script[1] ?? "")?.[1])).toEqual([
    "office/office.js",
    "functions.js",
    "taskpane.js",
  ]);
  expect(scripts.filter(([, attributes]) => /defer|async|module/.test(attributes ?? ""))).toEqual([]);
  expect(scripts.filter(([, , inline]) => inline !== "")).toEqual([]);
  expect(page).not.toMatch(/ style=| on[a-z]+=|<style/);
});

/** The size a picture is named with, wherever the manifest or a ribbon group asks for one. */
const icons = [
  ["IconUrl", 32],
  ["HighResolutionIconUrl", 64],
] as const;

test.each(icons)("%s is a picture of %i pixels", (name, pixels) => {
  expect(sizeOf(one(name).getAttribute("DefaultValue"))).toEqual([pixels, pixels]);
});

test("the ribbon's pictures have the sizes they are asked for in, the mandatory ones among them", () => {
  for (const icon of all("Icon")) {
    const sizes = childrenOf(icon).map((image) => Number(image.getAttribute("size")));
    expect(sizes).toEqual(expect.arrayContaining([16, 32, 80]));
    for (const image of childrenOf(icon)) {
      const resource = resources.find((found) => found.getAttribute("id") === image.getAttribute("resid"));
      const size = Number(image.getAttribute("size"));
      expect(sizeOf(resource?.getAttribute("DefaultValue") ?? null)).toEqual([size, size]);
    }
  }
});

function sizeOf(address: string | null): readonly [number, number] {
  const file = path.join(root, "src/taskpane", (address ?? "").slice(base.length));
  const { width, height } = PNG.sync.read(readFileSync(file));
  return [width, height];
}
