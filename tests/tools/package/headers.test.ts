import { DOMParser } from "@xmldom/xmldom";
import { headerFiles, headers, OFFICE_NETWORK, pageHeaderFiles, pageHeaders } from "../../../src/tools/package/headers";
import { headerRules, headersAt } from "../../browser/packaged-headers";

const address = "https://tools.example.org/twirl/";
const own = { officeNetwork: false };
const wanted = headers(own).map(({ name, value }) => [name, value]);

const wantedOfPage = pageHeaders().map(({ name, value }) => [name, value]);

const fileOf = (name: string): string => {
  const found = headerFiles(address, own).find((file) => file.name === name);
  if (!found) throw new Error(`There is no ${name}.`);
  return found.content;
};

function pageFileOf(name: string): string {
  const found = pageHeaderFiles().find((file) => file.name === name);
  if (!found) throw new Error(`There is no page/${name}.`);
  return found.content;
}

test("the policy lets nothing in but the folder's own files, and no inline script or style", () => {
  const policy = headers(own).find(({ name }) => name === "Content-Security-Policy")?.value ?? "";
  const directives = new Map(policy.split("; ").map((part) => [part.split(" ")[0], part.split(" ").slice(1)]));
  expect(directives.get("default-src")).toEqual(["'none'"]);
  for (const name of ["script-src", "style-src", "img-src", "connect-src"]) {
    expect(directives.get(name)).toEqual(["'self'"]);
  }
  expect(policy).not.toContain("unsafe");
  for (const ancestor of directives.get("frame-ancestors") ?? [])
    expect(ancestor).toMatch(/^('self'|https:\/\/\*\.[a-z.]+)$/);
});

test("the vendor's network is let in only where it is asked for", () => {
  expect(JSON.stringify(headers(own))).not.toContain(OFFICE_NETWORK);
  expect(headers({ officeNetwork: true })[0]?.value).toContain(`script-src 'self' ${OFFICE_NETWORK};`);
});

test("the page's policy lets nothing in but its own folder, and no inline script", () => {
  const policy = pageHeaders().find(({ name }) => name === "Content-Security-Policy")?.value ?? "";
  const directives = new Map(policy.split("; ").map((part) => [part.split(" ")[0], part.split(" ").slice(1)]));
  expect(directives.get("default-src")).toEqual(["'none'"]);
  expect(directives.get("frame-ancestors")).toEqual(["'none'"]);
  for (const name of ["script-src", "connect-src", "manifest-src", "worker-src"]) {
    expect(directives.get(name)).toEqual(["'self'"]);
  }
  expect(policy).not.toMatch(/unsafe|https?:|\*/);
});

test.each([
  ["https://tools.example.org/twirl/", "/twirl/"],
  ["https://tools.example.org/", "/"],
])("_headers holds them for %s, and each document has one policy", (at, path) => {
  const rules = headerRules(headerFiles(at, own)[0]?.content ?? "");
  for (const name of ["taskpane.html", "help.html", "guide.html", "INSTALL.html", "help"]) {
    expect(headersAt(rules, path + name)).toEqual(Object.fromEntries(wanted));
  }
  for (const name of ["page/", "page/index.html", "page/worker.js", "page/help.html"]) {
    expect(headersAt(rules, path + name)).toEqual(Object.fromEntries(wantedOfPage));
  }
  // No document: there is nothing that a policy would hold.
  expect(headersAt(rules, `${path}functions.json`)).toEqual(
    Object.fromEntries(wanted.filter(([name]) => name !== "Content-Security-Policy")),
  );
});

test.each([
  ["", wanted, fileOf(".htaccess")],
  ["page/", wantedOfPage, pageFileOf(".htaccess")],
])("%s.htaccess holds them", (_folder, expected, text) => {
  const found = [...text.matchAll(/^ {2}Header always set (\S+) "([^"]*)"$/gm)];
  expect(found.map((match) => match.slice(1))).toEqual(expected);
});

test.each([
  ["", wanted, fileOf("web.config")],
  ["page/", wantedOfPage, pageFileOf("web.config")],
])("%sweb.config is well-formed and holds them", (_folder, expected, text) => {
  const document = new DOMParser({
    onError: (level, message) => {
      throw new Error(`${level}: ${message}`);
    },
  }).parseFromString(text, "text/xml");
  const added = Array.from(document.getElementsByTagName("add"));
  expect(added.map((element) => [element.getAttribute("name"), element.getAttribute("value")])).toEqual(expected);
});

test("nginx.conf holds them in the club's location, and the page's in the deeper one", () => {
  const [club = "", page = ""] = fileOf("nginx.conf").split("location /twirl/page/ {");
  expect(club).toContain("location /twirl/ {");
  const found = (text: string): unknown[] =>
    [...text.matchAll(/^ {2}add_header (\S+) "([^"]*)" always;$/gm)].map((match) => match.slice(1));
  expect([found(club), found(page)]).toEqual([wanted, wantedOfPage]);
});

test("headers.txt says each and why", () => {
  for (const { name, value, because } of [...headers(own), ...pageHeaders()]) {
    expect(fileOf("headers.txt")).toContain(`${name}: ${value}\n    ${because}`);
  }
});

test("nothing forbids the frame that the pane needs on the web", () => {
  for (const { content } of headerFiles(address, own)) {
    expect(content).not.toMatch(/(set|add_header|name=)\s*"?X-Frame-Options"?\s+"?(DENY|SAMEORIGIN)/i);
  }
  expect(wanted.map(([name]) => name)).not.toContain("X-Frame-Options");
});
