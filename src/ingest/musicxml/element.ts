import { LIMITS } from "../limits.ts";

/**
 * The smallest document that musicxml-interfaces can read: it asks an element for `children`, `attributes`,
 * `nodeName`, `textContent` and `getAttribute`, and tells attributes from elements by `nodeType`.
 */
export interface XmlAttribute {
  readonly name: string;
  readonly value: string;
  readonly nodeType: 2;
  readonly ATTRIBUTE_NODE: 2;
}

export class XmlElement {
  readonly nodeName: string;
  readonly attributes: readonly XmlAttribute[];
  readonly children: XmlElement[] = [];
  /** Own text, without that of children. */
  text = "";
  /** Line of the document, from 1, for messages. */
  readonly line: number;

  constructor(nodeName: string, attributes: readonly XmlAttribute[], line: number) {
    this.nodeName = nodeName;
    this.attributes = attributes;
    this.line = line;
  }

  get nodeType(): 1 {
    return 1;
  }

  get ATTRIBUTE_NODE(): 2 {
    return 2;
  }

  get textContent(): string {
    if (this.children.length === 0) return this.text;
    return this.text + this.children.map((child) => child.textContent).join("");
  }

  getAttribute(name: string): string | null {
    for (const attribute of this.attributes) if (attribute.name === name) return attribute.value;
    return null;
  }
}

/** The first child of that name, or null. */
export function child(element: XmlElement, name: string): XmlElement | null {
  for (const one of element.children) if (one.nodeName === name) return one;
  return null;
}

/** Text for people: trimmed, spaces joined, and cut with an ellipsis when it is longer than any sign is. */
export function signText(text: string): string {
  const cut = text.length > LIMITS.textLetters ? `${text.slice(0, LIMITS.textLetters)}…` : text;
  return cut.replace(/\s+/g, " ").trim();
}

/** Trimmed text of the first child of that name, or null when there is none or it is empty. */
export function childText(element: XmlElement, name: string): string | null {
  return child(element, name)?.textContent.trim() || null;
}

/** Number in the first child of that name, or null when there is none or it is no finite number. */
export function childNumber(element: XmlElement, name: string): number | null {
  return finite(childText(element, name));
}

/** Number in an attribute, or null. */
export function attributeNumber(element: XmlElement, name: string): number | null {
  return finite(element.getAttribute(name));
}

/** All descendants of that name, in document order, down to `depth` levels below the element. */
export function descendants(element: XmlElement, name: string, depth = 3): XmlElement[] {
  const found: XmlElement[] = [];
  for (const one of element.children) {
    if (one.nodeName === name) found.push(one);
    if (depth > 1) found.push(...descendants(one, name, depth - 1));
  }
  return found;
}

function finite(text: string | null): number | null {
  if (text === null || text.trim() === "") return null;
  const value = Number(text);
  return Number.isFinite(value) ? value : null;
}
