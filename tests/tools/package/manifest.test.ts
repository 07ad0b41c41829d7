import { readFileSync } from "node:fs";
import path from "node:path";
import { DOMParser } from "@xmldom/xmldom";
import { manifestFor, nameBasedId } from "../../../src/tools/package/manifest";

const template = readFileSync(path.resolve(__dirname, "../../../manifest.xml"), "utf8");
const address = "https://tools.example.org/twirl/";
const forClub = { address, forDevelopment: false };

const values = (xml: string): string[] =>
  Array.from(new DOMParser().parseFromString(xml, "text/xml").getElementsByTagName("*")).flatMap((element) => [
    `${element.nodeName} ${element.getAttribute("DefaultValue") ?? ""} ${element.getAttribute("resid") ?? ""} ${element.childNodes.length === 1 ? (element.textContent ?? "") : ""}`,
  ]);

test("every address is the club's, and nothing else is changed", () => {
  const made = manifestFor(template, forClub);
  expect(made).not.toContain("localhost:3000/taskpane");
  expect(values(made)).toEqual(values(template).map((line) => line.replaceAll("https://localhost:3000/", address)));
  expect(values(made).filter((line) => line.includes(address)).length).toBeGreaterThanOrEqual(12);
});

test("the id is the project's own for a club, whatever its address", () => {
  const idOf = (xml: string): string | undefined => /<Id>(.*?)<\/Id>/.exec(xml)?.[1];
  expect(idOf(manifestFor(template, forClub))).toBe(idOf(template));
  expect(idOf(manifestFor(template, { address: "https://other.example/", forDevelopment: false }))).toBe(
    idOf(template),
  );
  const local = { address: "https://localhost:3000/", forDevelopment: true };
  const developers = manifestFor(template, local);
  expect(idOf(developers)).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  expect(idOf(developers)).not.toBe(idOf(template));
  expect(manifestFor(template, local)).toBe(developers);
  expect(developers).toContain('<DisplayName DefaultValue="Twirl Ledger (development)"');
});

test("an id made from a name is the standard's", () => {
  // RFC 9562, appendix A.4: www.example.com in the namespace of domain names.
  expect(nameBasedId("6ba7b810-9dad-11d1-80b4-00c04fd430c8", "www.example.com")).toBe(
    "2ed6657d-e927-568b-95e1-2665a8aea6a2",
  );
});

test("an address with signs that XML keeps for itself is written so that it is read again", () => {
  const odd = "https://tools.example.org/a&b'c/";
  expect(values(manifestFor(template, { address: odd, forDevelopment: false }))).toContain(
    `SourceLocation ${odd}taskpane.html  `,
  );
});

test("a template with another address, or that is not well-formed, is refused", () => {
  expect(() =>
    manifestFor(template.replace("https://localhost:3000/help", "https://else.example/help"), forClub),
  ).toThrow("https://else.example/help.html, which is not below https://localhost:3000/");
  expect(() => manifestFor(template.replace("</Hosts>", ""), forClub)).toThrow("manifest.xml cannot be read");
});
