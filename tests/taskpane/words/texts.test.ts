/** The catalogue and the code that shows it: no text that nobody shows, no words outside the catalogue. */
import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { texts } from "../../../src/taskpane/words/texts";

const folder = path.resolve(__dirname, "../../../src/taskpane");
const sources = (readdirSync(folder, { recursive: true }) as string[])
  .filter((file) => file.endsWith(".ts") && file !== path.join("words", "texts.ts"))
  .map((file) => ({ file, code: readFileSync(path.join(folder, file), "utf8") }));

/** The grid's side of the host says some of them too. */
const grid = path.resolve(__dirname, "../../../src/grid");
const shown = (readdirSync(grid, { recursive: true }) as string[])
  .filter((file) => file.endsWith(".ts"))
  .map((file) => ({ code: readFileSync(path.join(grid, file), "utf8") }));

test("every text is shown somewhere", () => {
  const used = new Set(
    [...sources, ...shown].flatMap(({ code }) => [...code.matchAll(/\btexts\.(\w+)/g)].map(([, key]) => key)),
  );
  expect(Object.keys(texts).filter((key) => !used.has(key))).toEqual([]);
});

test("no text is empty, and none is there twice", () => {
  const plain = Object.values(texts).filter((text) => typeof text === "string");
  expect(plain.filter((text) => text.trim() !== text || text === "")).toEqual([]);
  expect(plain.filter((text, index) => plain.indexOf(text) !== index)).toEqual([]);
});

test("views put no words of their own on the page", () => {
  // A text node's words in a call of `element`: a quoted string after the attributes. Spaces and signs may stand there.
  const own = sources.flatMap(({ file, code }) =>
    [...code.matchAll(/\belement\(\s*"\w+",\s*\{[^}]*\},\s*"([^"]*[\p{L}]{2}[^"]*)"/gu)].map(([, words]) => [
      file,
      words,
    ]),
  );
  expect(own).toEqual([]);
  expect(sources.filter(({ code }) => /textContent = "[^"]/.test(code)).map(({ file }) => file)).toEqual([]);
});

test("nothing on the page is made from markup", () => {
  const markup = /innerHTML|outerHTML|insertAdjacentHTML|document\.write|\.style\b|setAttribute\("style"/;
  expect(sources.filter(({ code }) => markup.test(code)).map(({ file }) => file)).toEqual([]);
});
