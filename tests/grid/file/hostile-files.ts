/** Broken and hostile packages, made from seeds and rules, for the tests of the reader and for its benchmark. */
import { strToU8, zipSync } from "fflate";
import { seededRandom } from "../../benchmarks/random";
import { bookFile, bookParts, rowOf, zipped } from "./parts";

export interface HostileFile {
  readonly what: string;
  readonly make: () => Uint8Array;
}

const plain = { sheets: [{ rows: rowOf('<c r="A1"><v>1</v></c>') }] };
const STYLES = '<fonts count="1"><font/></fonts><fills count="1"><fill/></fills><borders count="1"><border/></borders>';

/** The good file cut at many places, from a byte to all but one. */
function cut(): HostileFile[] {
  const file = bookFile(plain);
  const many = 64;
  return Array.from({ length: many }, (_, index) => {
    const bytes = Math.max(1, Math.floor(((file.length - 1) * (index + 1)) / many));
    return { what: `cut after ${bytes} of ${file.length} bytes`, make: () => file.slice(0, bytes) };
  });
}

/** The good file with some bytes changed, by seed. */
function scattered(): HostileFile[] {
  const file = bookFile(plain);
  return Array.from({ length: 64 }, (_, seed) => ({
    what: `bytes changed, seed ${seed}`,
    make: () => {
      const random = seededRandom(seed);
      const copy = file.slice();
      for (let change = 0; change < 1 + seed / 8; change += 1) {
        copy[Math.floor(random() * copy.length)] = Math.floor(random() * 256);
      }
      return copy;
    },
  }));
}

const sheet = (rows: string, more: Partial<Parameters<typeof bookFile>[0]> = {}) => bookFile({ sheets: [{ rows }], ...more }); // prettier-ignore
const withPart = (name: string, text: string) => zipped({ ...bookParts(plain), [name]: text });
const without = (pattern: RegExp) => zipped(Object.fromEntries(Object.entries(bookParts(plain)).filter(([name]) => !pattern.test(name)))); // prettier-ignore
const RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const relations = (target: string, kind = "officeDocument") =>
  `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${RELATIONS}/${kind}" Target="${target}"/></Relationships>`;

const ruled: readonly HostileFile[] = [
  { what: "a bomb of zeros", make: () => withPart("xl/bomb.xml", "0".repeat(60_000_000)) },
  {
    what: "a bomb of rows that pack well",
    make: () => sheet('<row><c t="str"><v>aaaaaaaa</v></c></row>'.repeat(1_500_000)),
  },
  {
    what: "entities inside entities",
    make: () => withPart("xl/workbook.xml", `<!DOCTYPE a [${Array.from({ length: 30 }, (_, one) => `<!ENTITY e${one + 1} "${`&e${one};`.repeat(10)}">`).join("")}]><workbook>&e30;</workbook>`), // prettier-ignore
  },
  { what: "an entity that is not known", make: () => sheet('<row r="1"><c r="A1" t="str"><v>&file;</v></c></row>') },
  {
    what: "a million styles",
    make: () => bookFile({ ...plain, styles: `${STYLES}<cellXfs count="1000000">${'<xf fontId="0"/>'.repeat(1_000_000)}</cellXfs>` }), // prettier-ignore
  },
  {
    what: "a hundred thousand number formats",
    make: () => bookFile({ ...plain, styles: `<numFmts>${Array.from({ length: 100_000 }, (_, id) => `<numFmt numFmtId="${200 + id}" formatCode="0.0&quot;${id}&quot;"/>`).join("")}</numFmts>${STYLES}<cellXfs><xf/></cellXfs>` }), // prettier-ignore
  },
  { what: "elements a million deep", make: () => sheet("<a>".repeat(1_000_000)) },
  { what: "elements a thousand deep, and closed", make: () => sheet("<a>".repeat(1000) + "</a>".repeat(1000)) },
  { what: "a sheet of claimed dimensions", make: () => bookFile({ sheets: [{ before: '<dimension ref="A1:XFD1048576"/>', rows: rowOf('<c r="XFD1"><v>1</v></c>') }] }) }, // prettier-ignore
  { what: "a merge of the whole sheet", make: () => bookFile({ sheets: [{ rows: rowOf('<c r="A1"><v>1</v></c>'), after: '<mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>' }] }) }, // prettier-ignore
  { what: "merges on top of each other", make: () => bookFile({ sheets: [{ after: `<mergeCells>${'<mergeCell ref="A1:B2"/>'.repeat(120_000)}</mergeCells>` }] }) }, // prettier-ignore
  { what: "an array over the whole sheet", make: () => sheet('<row r="1"><c r="A1"><f t="array" ref="A1:XFD1048576">1</f><v>1</v></c></row>') }, // prettier-ignore
  { what: "a column a million wide", make: () => bookFile({ sheets: [{ before: '<cols><col min="1" max="99999999" width="1e308"/></cols>' }] }) }, // prettier-ignore
  { what: "rows in no order, of huge height", make: () => sheet('<row r="9" ht="1e300"/><row r="2"/><row r="9"><c r="A9"><v>2</v></c></row>') }, // prettier-ignore
  { what: "a formula that calls itself", make: () => sheet(rowOf('<c r="A1"><f>A1+1</f><v>0</v></c>')) },
  { what: "a formula of a hundred thousand brackets", make: () => sheet(rowOf(`<c r="A1"><f>${"(".repeat(100_000)}</f></c>`)) }, // prettier-ignore
  { what: "a formula of a thousand nested brackets", make: () => sheet(rowOf(`<c r="A1"><f>${"(".repeat(1000)}1${")".repeat(1000)}</f></c>`)) }, // prettier-ignore
  { what: "a name that is its own meaning", make: () => bookFile({ ...plain, afterSheets: '<definedNames><definedName name="a">b</definedName><definedName name="b">a</definedName></definedNames>' }) }, // prettier-ignore
  { what: "a package that is its own workbook", make: () => withPart("_rels/.rels", relations("_rels/.rels")) },
  { what: "a workbook whose sheet is the workbook", make: () => withPart("xl/_rels/workbook.xml.rels", relations("workbook.xml", "worksheet")) }, // prettier-ignore
  { what: "a relationship that leads outside", make: () => withPart("xl/_rels/workbook.xml.rels", relations("../../../../etc/passwd", "worksheet")) }, // prettier-ignore
  { what: "a relationship to another computer", make: () => withPart("xl/_rels/workbook.xml.rels", relations("file://elsewhere/sheet.xml", "worksheet")) }, // prettier-ignore
  { what: "relationships of the wrong kind", make: () => withPart("xl/_rels/workbook.xml.rels", relations("worksheets/sheet1.xml", "styles")) }, // prettier-ignore
  { what: "no content types", make: () => without(/Content_Types/) },
  { what: "no relationships", make: () => without(/^_rels/) },
  { what: "no workbook", make: () => without(/workbook\.xml$/) },
  { what: "no sheet part", make: () => without(/sheet1\.xml$/) },
  { what: "a workbook that is no XML", make: () => withPart("xl/workbook.xml", "\0\x01\x02") },
  { what: "a sheet that ends in the middle of a tag", make: () => withPart("xl/worksheets/sheet1.xml", '<worksheet><sheetData><row r="1"><c r="A1"') }, // prettier-ignore
  { what: "a workbook in letters of two bytes, half of one missing", make: () => zipped({ ...bookParts(plain), "xl/workbook.xml": new Uint8Array([0xff, 0xfe, 0x3c]) }) }, // prettier-ignore
  { what: "two sheets of one name", make: () => bookFile({ sheets: [{ name: "A" }, { name: "a" }] }) },
  { what: "a sheet without a name", make: () => bookFile({ sheets: [{ name: "" }] }) },
  { what: "a sheet called __proto__", make: () => bookFile({ sheets: [{ name: "__proto__" }] }) },
  { what: "two tables of one name", make: () => bookFile({ sheets: [{ tables: Array(2).fill('<table name="T" displayName="T" ref="A1:A2"><tableColumns count="1"><tableColumn id="1" name="a"/></tableColumns></table>') as string[] }] }) }, // prettier-ignore
  { what: "a table of no range", make: () => bookFile({ sheets: [{ tables: ['<table name="T" displayName="T" ref="nowhere"><tableColumns/></table>'] }] }) }, // prettier-ignore
  { what: "a text that stands nowhere", make: () => sheet(rowOf('<c r="A1" t="s"><v>-1</v></c>')) },
  { what: "a chart that is its own drawing", make: () => bookFile({ sheets: [{ related: [["drawing", "sheet1.xml"]], after: '<drawing r:id="rId1"/>' }] }) }, // prettier-ignore
  { what: "a path with a null in it", make: () => zipSync({ "xl/\0.xml": strToU8("x") }) },
];

export function hostileFiles(): HostileFile[] {
  return [...cut(), ...scattered(), ...ruled];
}
