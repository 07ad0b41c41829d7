/** Changes to a part's text, gathered first and made at once: what no change touches stays as it was. */
import { escapeAttribute } from "./write";
import type { XmlElement } from "./tree";

interface Splice {
  readonly from: number;
  readonly to: number;
  readonly text: string;
  /** Which of two changes at one place was asked for first. */
  readonly order: number;
}

export class XmlEdits {
  private readonly splices: Splice[] = [];

  /** @param from where the piece of text begins that is changed, and `to` where it ends: all of it when left out */
  constructor(
    readonly source: string,
    private readonly from = 0,
    private readonly to = source.length,
  ) {}

  get isEmpty(): boolean {
    return this.splices.length === 0;
  }

  replace(from: number, to: number, text: string): void {
    this.splices.push({ from, to, text, order: this.splices.length });
  }

  replaceElement(element: XmlElement, text: string): void {
    this.replace(element.start, element.end, text);
  }

  removeElement(element: XmlElement): void {
    this.replaceElement(element, "");
  }

  insertBefore(element: XmlElement, text: string): void {
    this.replace(element.start, element.start, text);
  }

  insertAfter(element: XmlElement, text: string): void {
    this.replace(element.end, element.end, text);
  }

  /** Adds at the end of the element's content; an element without content is opened for it. */
  append(element: XmlElement, text: string): void {
    if (element.contentEnd === element.end) {
      const slash = this.source.lastIndexOf("/", element.end);
      this.replace(slash, element.end, `>${text}</${element.qualifiedName}>`);
    } else {
      this.replace(element.contentEnd, element.contentEnd, text);
    }
  }

  /** Sets an attribute of an element that stays; `undefined` takes it out. A new one comes after those that are there. */
  setAttribute(element: XmlElement, name: string, value: string | number | undefined): void {
    const places = attributePlaces(this.source, element);
    const found = places.find((place) => place.name === name);
    const text = value === undefined ? "" : ` ${name}="${escapeAttribute(String(value))}"`;
    if (found !== undefined) this.replace(found.from, found.to, text);
    else if (text !== "") {
      const end = places.at(-1)?.to ?? nameEnd(element);
      this.replace(end, end, text);
    }
  }

  /** The text with all changes made. @throws Error where two changes overlap: one of them would be lost */
  apply(): string {
    // What is put in at a place comes before what is changed from there on.
    const ordered = [...this.splices].sort(
      (one, other) => one.from - other.from || one.to - other.to || one.order - other.order,
    );
    const pieces: string[] = [];
    let at = this.from;
    for (const { from, to, text } of ordered) {
      if (from < at) throw new Error("Two changes of one part overlap.");
      pieces.push(this.source.slice(at, from), text);
      at = to;
    }
    pieces.push(this.source.slice(at, this.to));
    return pieces.join("");
  }
}

function nameEnd(element: XmlElement): number {
  return element.start + 1 + element.qualifiedName.length;
}

interface AttributePlace {
  readonly name: string;
  /** With the space before it. */
  readonly from: number;
  readonly to: number;
}

/** Where attributes stand in the element's opening tag. */
function attributePlaces(source: string, element: XmlElement): AttributePlace[] {
  const attribute = /\s+([^\s=/>]+)\s*=\s*(?:"[^"]*"|'[^']*')/y;
  attribute.lastIndex = nameEnd(element);
  const places: AttributePlace[] = [];
  for (let match = attribute.exec(source); match !== null; match = attribute.exec(source)) {
    places.push({ name: match[1] ?? "", from: match.index, to: attribute.lastIndex });
  }
  return places;
}
