/**
 * XML as a small tree in which every element knows where it stands in the text: Save changes a part by replacing pieces
 * of its text, so that all that this page does not know stays as it was, letter for letter.
 *
 * Elements and attributes are named without their prefix: some programs write `<x:row>` where others write `<row>`.
 */
import { SaxesParser } from "saxes";

import { refuse } from "../package/file-refused";
import { limits } from "../package/limits";

export interface XmlElement {
  /** As written, with its prefix. */
  readonly qualifiedName: string;
  readonly name: string;
  /** By name as written. */
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlElement[];
  /** The element's own text, without that of its children. */
  readonly text: string;
  /** Where the element begins, where its content begins and ends, where the element ends. */
  readonly start: number;
  readonly contentStart: number;
  readonly contentEnd: number;
  readonly end: number;
}

interface OpenElement {
  qualifiedName: string;
  name: string;
  attributes: Record<string, string>;
  children: XmlElement[];
  text: string;
  start: number;
  contentStart: number;
  contentEnd: number;
  end: number;
}

export interface XmlDocument {
  readonly source: string;
  readonly root: XmlElement;
}

/** Elements that are handed over one by one and not kept: a sheet has hundreds of thousands of cells. */
interface Streamed {
  /** The name of the element whose children are streamed; it lies in the root or is the root. */
  readonly parent: string;
  readonly each: (child: XmlElement) => void;
}

const NO_CHILDREN: XmlElement[] = [];

/**
 * Reads one part. Entities that the part declares itself are refused together with the declaration.
 * @throws FileRefused where the text is no well-formed XML
 */
export function parseXml(source: string, streamed?: Streamed): XmlDocument {
  const parser = new SaxesParser({ xmlns: false, position: true });
  const open: OpenElement[] = [];
  let root: OpenElement | undefined;

  parser.on("doctype", () => refuse("documentType"));
  parser.on("opentag", (tag) => {
    // No attribute holds a raw "<", so the last one before here begins the tag.
    const start = source.lastIndexOf("<", parser.position - 1);
    if (open.length >= limits.xmlDepth) refuse("damaged");
    open.push({
      qualifiedName: tag.name,
      name: localName(tag.name),
      attributes: tag.attributes,
      children: NO_CHILDREN,
      text: "",
      start,
      contentStart: parser.position,
      contentEnd: parser.position,
      end: parser.position,
    });
  });
  parser.on("text", (text) => {
    const element = open.at(-1);
    if (element) element.text += text;
  });
  parser.on("cdata", (text) => {
    const element = open.at(-1);
    if (element) element.text += text;
  });
  parser.on("closetag", (tag) => {
    const element = open.pop();
    if (element === undefined) return;
    element.end = parser.position;
    element.contentEnd = tag.isSelfClosing ? element.contentStart : source.lastIndexOf("<", parser.position - 1);
    const parent = open.at(-1);
    if (parent === undefined) {
      root = element;
    } else if (streamed !== undefined && open.length <= 2 && parent.name === streamed.parent) {
      streamed.each(element);
      parent.text = "";
    } else {
      if (parent.children === NO_CHILDREN) parent.children = [];
      parent.children.push(element);
    }
  });
  parser.on("error", (cause) => refuse("damaged", cause));
  parser.write(source).close();
  if (root === undefined) refuse("damaged");
  return { source, root };
}

function localName(qualifiedName: string): string {
  return qualifiedName.slice(qualifiedName.indexOf(":") + 1);
}

/** The prefix of an element's name with its colon, or nothing: what is added beside it needs the same one. */
export function prefixOf(element: XmlElement): string {
  return element.qualifiedName.slice(0, element.qualifiedName.length - element.name.length);
}

export function child(element: XmlElement | undefined, name: string): XmlElement | undefined {
  return element?.children.find((candidate) => candidate.name === name);
}

export function children(element: XmlElement | undefined, name: string): readonly XmlElement[] {
  return element?.children.filter((candidate) => candidate.name === name) ?? [];
}

/** All elements of that name, however deep. */
export function descendants(element: XmlElement, name: string): XmlElement[] {
  return element.children.flatMap((inner) => [...(inner.name === name ? [inner] : []), ...descendants(inner, name)]);
}

/** The attribute of that name, whatever its prefix: `r:id` is found as `id` where no `id` stands beside it. */
export function prefixedAttribute(element: XmlElement, name: string): string | undefined {
  const key = Object.keys(element.attributes).find((candidate) => candidate.endsWith(`:${name}`));
  return key === undefined ? undefined : element.attributes[key];
}

/** An attribute that says yes or no (xsd:boolean). */
export function isTrue(element: XmlElement | undefined, name: string, otherwise = false): boolean {
  const value = element?.attributes[name];
  return value === undefined ? otherwise : value === "1" || value === "true" || value === "on";
}

/** A whole number that an attribute holds, or undefined where it holds none. */
export function wholeNumber(element: XmlElement | undefined, name: string): number | undefined {
  const value = element?.attributes[name];
  if (value === undefined || !/^-?\d{1,15}$/.test(value.trim())) return undefined;
  return Number(value);
}

export function decimalNumber(element: XmlElement | undefined, name: string): number | undefined {
  const value = element?.attributes[name];
  if (value === undefined || value.trim() === "") return undefined;
  const number = Number(value);
  return Number.isFinite(number) ? number : undefined;
}
