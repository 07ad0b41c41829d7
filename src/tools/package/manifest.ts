/** The manifest for one address, from the project's own as the template. */
import { createHash } from "node:crypto";
import { DOMParser, type Document, type Element, XMLSerializer } from "@xmldom/xmldom";

/** The address that stands in the template. */
export const TEMPLATE_ADDRESS = "https://localhost:3000/";

interface ManifestOptions {
  /** Ends with a slash. */
  readonly address: string;
  /** A developer's copy has an id and a name of its own, so that it can stand beside the club's. */
  readonly forDevelopment: boolean;
}

/**
 * The template with every address moved. The id stays, since deployments know the add-in by it.
 * @throws Error where the template is not well-formed or holds an address that is not below its own
 */
export function manifestFor(template: string, { address, forDevelopment }: ManifestOptions): string {
  const manifest: Document = new DOMParser({
    onError: (level, message) => {
      throw new Error(`manifest.xml cannot be read: ${level}: ${message}`);
    },
  }).parseFromString(template, "text/xml");
  // What is said above the manifest is about the template.
  for (const node of Array.from(manifest.childNodes)) {
    if (node.nodeType === node.COMMENT_NODE) manifest.removeChild(node);
  }
  const elements = Array.from(manifest.getElementsByTagName("*"));
  for (const element of elements) move(element, address);
  if (forDevelopment) {
    const id = elements.find(({ nodeName }) => nodeName === "Id");
    if (!id) throw new Error("manifest.xml has no Id.");
    id.textContent = nameBasedId(id.textContent ?? "", address);
    for (const element of elements) {
      if (element.nodeName === "DisplayName") element.setAttribute("DefaultValue", "Twirl Ledger (development)");
    }
  }
  return `${new XMLSerializer().serializeToString(manifest)}\n`;
}

function move(element: Element, address: string): void {
  const value = element.getAttribute("DefaultValue");
  if (value === null || !value.includes("://")) return;
  if (!value.startsWith(TEMPLATE_ADDRESS)) {
    throw new Error(`manifest.xml leads to ${value}, which is not below ${TEMPLATE_ADDRESS}.`);
  }
  element.setAttribute("DefaultValue", address + value.slice(TEMPLATE_ADDRESS.length));
}

/**
 * The same id for the same name each time: RFC 9562, 5.5, UUID version 5.
 * @param namespace an id
 */
export function nameBasedId(namespace: string, name: string): string {
  const hash = createHash("sha1")
    .update(Buffer.from(namespace.replaceAll("-", ""), "hex"))
    .update(name)
    .digest();
  const bytes = hash.subarray(0, 16);
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x50;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  return bytes.toString("hex").replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}
