import { DOMParser } from "@xmldom/xmldom";
import { headerFiles, headers, OFFICE_NETWORK } from "../../../src/tools/package/headers";

const address = "https://tools.example.org/twirl/";
const own = { officeNetwork: false };
const wanted = headers(own).map(({ name, value }) => [name, value]);

const fileOf = (name: string): string => {
  const found = headerFiles(address, own).find((file) => file.name === name);
  if (!found) throw new Error(`There is no ${name}.`);
  return found.content;
};

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

test("_headers holds them for the club's path", () => {
  const [path, ...lines] = fileOf("_headers").trimEnd().split("\n");
  expect(path).toBe("/twirl/*");
  expect(lines.map((line) => /^ {2}([^:]+): (.*)$/.exec(line)?.slice(1))).toEqual(wanted);
  expect(headerFiles("https://tools.example.org/", own)[0]?.content).toMatch(/^\/\*\n/);
});

test(".htaccess holds them", () => {
  const found = [...fileOf(".htaccess").matchAll(/^ {2}Header always set (\S+) "([^"]*)"$/gm)];
  expect(found.map((match) => match.slice(1))).toEqual(wanted);
});

test("web.config is well-formed and holds them", () => {
  const document = new DOMParser({
    onError: (level, message) => {
      throw new Error(`${level}: ${message}`);
    },
  }).parseFromString(fileOf("web.config"), "text/xml");
  const added = Array.from(document.getElementsByTagName("add"));
  expect(added.map((element) => [element.getAttribute("name"), element.getAttribute("value")])).toEqual(wanted);
});

test("nginx.conf holds them in the club's location", () => {
  const text = fileOf("nginx.conf");
  expect(text).toContain("location /twirl/ {");
  const found = [...text.matchAll(/^ {2}add_header (\S+) "([^"]*)" always;$/gm)];
  expect(found.map((match) => match.slice(1))).toEqual(wanted);
});

test("headers.txt says each and why", () => {
  for (const { name, value, because } of headers(own)) {
    expect(fileOf("headers.txt")).toContain(`${name}: ${value}\n    ${because}`);
  }
});

test("nothing forbids the frame that the pane needs on the web", () => {
  for (const { content } of headerFiles(address, own)) {
    expect(content).not.toMatch(/(set|add_header|name=)\s*"?X-Frame-Options"?\s+"?(DENY|SAMEORIGIN)/i);
  }
  expect(wanted.map(([name]) => name)).not.toContain("X-Frame-Options");
});
