import { refusals } from "../../src/xlsx/package/file-refused";
import { XmlEdits } from "../../src/xlsx/xml/edits";
import { decodeString, decodeXml, encodeXml } from "../../src/xlsx/xml/text";
import { child, children, parseXml, prefixedAttribute, type XmlElement } from "../../src/xlsx/xml/tree";

const source = `<?xml version="1.0"?>\n<!-- a <note> --><x:list a='1>0' r:id="rId7"><x:item n="1">A &amp; B</x:item ><x:item/><![CDATA[<raw>]]></x:list>`;

function only(element: XmlElement, name: string, index = 0): XmlElement {
  const found = children(element, name)[index];
  if (found === undefined) throw new Error(`There is no ${name}.`);
  return found;
}

describe("the tree", () => {
  const { root } = parseXml(source);

  test("knows names without prefixes, attributes, text and places", () => {
    expect(root.name).toBe("list");
    expect(root.attributes["a"]).toBe("1>0");
    expect(prefixedAttribute(root, "id")).toBe("rId7");
    expect(child(root, "item")?.text).toBe("A & B");
    expect(root.text).toBe("<raw>");
    const [full, empty] = children(root, "item");
    expect(source.slice(full?.start, full?.end)).toBe('<x:item n="1">A &amp; B</x:item >');
    expect(source.slice(full?.contentStart, full?.contentEnd)).toBe("A &amp; B");
    expect(source.slice(empty?.start, empty?.end)).toBe("<x:item/>");
  });

  test("hands over streamed children one by one and keeps none", () => {
    const seen: string[] = [];
    const { root: streamed } = parseXml("<sst><si><t>a</t></si><si><t>b</t></si></sst>", {
      parent: "sst",
      each: (item) => seen.push(child(item, "t")?.text ?? ""),
    });
    expect(seen).toEqual(["a", "b"]);
    expect(streamed.children).toEqual([]);
  });

  test.each([
    ["a declaration of the document's type", `<!DOCTYPE a [<!ENTITY b "c">]><a>&b;</a>`, refusals.documentType],
    ["an outside entity", `<!DOCTYPE a SYSTEM "file:///etc/passwd"><a/>`, refusals.documentType],
    ["an entity that nobody declared", "<a>&b;</a>", refusals.damaged],
    ["an end that is missing", "<a><b></a>", refusals.damaged],
    ["half a part", source.slice(0, 60), refusals.damaged],
    ["nothing", "", refusals.damaged],
    ["endless depth", "<a>".repeat(5000), refusals.damaged],
  ])("refuses %s", (_, text, sentence) => {
    expect(() => parseXml(text)).toThrow(sentence);
  });
});

describe("edits", () => {
  test("change what they name and leave every other letter", () => {
    const { root } = parseXml(source);
    const edits = new XmlEdits(source);
    edits.setAttribute(root, "a", '2<3 "x"');
    edits.setAttribute(root, "b", 4);
    edits.setAttribute(only(root, "item"), "n", undefined);
    edits.append(only(root, "item", 1), "<x:new/>");
    edits.append(root, "<x:last/>");
    expect(edits.apply()).toBe(
      `<?xml version="1.0"?>\n<!-- a <note> --><x:list a="2&lt;3 &quot;x&quot;" r:id="rId7" b="4"><x:item>A &amp; B</x:item ><x:item><x:new/></x:item><![CDATA[<raw>]]><x:last/></x:list>`,
    );
  });

  test("refuse to lose one of two that overlap", () => {
    const { root } = parseXml(source);
    const edits = new XmlEdits(source);
    edits.removeElement(only(root, "item"));
    edits.setAttribute(only(root, "item"), "n", "2");
    expect(() => edits.apply()).toThrow("overlap");
  });
});

describe("text", () => {
  test("is read in the encoding that the bytes tell, and written as UTF-8", () => {
    const wide = new Uint8Array([
      0xff,
      0xfe,
      ...[...`<?xml version="1.0" encoding="utf-16"?><a>é</a>`].flatMap((c) => [c.charCodeAt(0), 0]),
    ]);
    expect(decodeXml(wide)).toBe(`<?xml version="1.0" encoding="utf-16"?><a>é</a>`);
    const latin = Uint8Array.from(
      [...`<?xml version="1.0" encoding="ISO-8859-1"?><a>\u00e9</a>`].map((c) => c.charCodeAt(0)),
    );
    expect(decodeXml(latin)).toContain("<a>é</a>");
    expect(decodeXml(encodeXml(decodeXml(wide)))).toBe(`<?xml version="1.0" encoding="UTF-8"?><a>é</a>`);
    expect(() => decodeXml(Uint8Array.from([0x3c, 0xff, 0xff]))).toThrow(refusals.damaged);
  });

  test.each([
    ["a_x000D_b", "a\rb"],
    ["_x005F_x000D_", "_x000D_"],
    ["_x00_ and _xZZZZ_", "_x00_ and _xZZZZ_"],
  ])("%s stands for %j", (coded, plain) => {
    expect(decodeString(coded)).toBe(plain);
  });
});
