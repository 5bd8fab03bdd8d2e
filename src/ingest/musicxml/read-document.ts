import { SaxesParser } from "saxes";
import { Problem } from "../../take/index.ts";
import { LIMITS } from "../limits.ts";
import { type XmlAttribute, XmlElement } from "./element.ts";

/** What a reader of bars is told while the document is read. */
export interface BarListener {
  /** One bar of one part, `index` counted from 0 in its part; the element is not kept afterwards. */
  bar(part: string, index: number, element: XmlElement, attributes: BarAttributes): void;
}

export interface BarAttributes {
  /** As printed; "" when there is none. */
  readonly number: string;
  readonly implicit: boolean;
}

/** What of the document stands outside the bars. */
export interface DocumentHead {
  readonly version: string;
  readonly element: XmlElement;
}

/**
 * Elements that say nothing about what is played. Leaving them out early halves the work and keeps odd values in
 * them ("stem" up and down at once) from stopping the reading of a note.
 */
const UNUSED: ReadonlySet<string> = new Set([
  "accidental",
  "appearance",
  "articulations",
  "beam",
  "bracket",
  "credit",
  "dashes",
  "display-octave",
  "display-step",
  "dot",
  "editorial",
  "encoding",
  "figured-bass",
  "footnote",
  "frame",
  "image",
  "level",
  "link",
  "listen",
  "listening",
  "lyric-font",
  "music-font",
  "notehead",
  "notehead-text",
  "page-layout",
  "part-symbol",
  "print",
  "scaling",
  "slur",
  "staff-details",
  "staff-layout",
  "stem",
  "system-layout",
  "time-modification",
  "tuplet",
  "type",
  "wedge",
  "word-font",
]);

/** A shared empty list: most elements have no attribute. */
const NO_ATTRIBUTES: readonly XmlAttribute[] = [];

/**
 * Parses a MusicXML text, partwise or timewise, handing on bar after bar so that memory stays small.
 *
 * Strict and with positions (saxes); nothing is fetched and no entity but XML's own five is expanded.
 *
 * @throws Problem with line and column for text that is not well-formed, is no MusicXML score, declares entities or
 *   exceeds the limits.
 */
export function readDocument(text: string, listener: BarListener): DocumentHead {
  const parser = new SaxesParser({ xmlns: false, position: true });
  const where = () => `line ${parser.line}, column ${parser.column}`;
  const tree = new ScoreTree(listener, where);
  parser.on("error", (error) => {
    throw new Problem(
      "malformed-xml",
      `The file is not well-formed XML: ${error.message.replace(/^(?:\S*:)?\d+:\d+: /, "")}`,
      where(),
      "Export it again from the notation program; a copy may be incomplete.",
    );
  });
  parser.on("doctype", (doctype) => refuseEntities(doctype, where()));
  let attributes = 0;
  parser.on("opentagstart", () => {
    attributes = 0;
  });
  parser.on("attribute", () => {
    if (++attributes > LIMITS.xmlAttributes)
      throw tooLarge("attributes in one element", LIMITS.xmlAttributes);
  });
  parser.on("opentag", (tag) => tree.open(tag.name, tag.attributes, parser.line));
  parser.on("closetag", () => tree.close());
  parser.on("text", (piece) => tree.addText(piece));
  parser.on("cdata", (piece) => tree.addText(piece));
  parser.write(text).close();
  const root = tree.head;
  if (root === null)
    throw new Problem("malformed-xml", "The file has no XML element", where(), "Export it again.");
  return { version: root.getAttribute("version") ?? "1.0", element: root };
}

/** The elements that are open; a bar is handed on and let go of when it closes. */
class ScoreTree {
  head: XmlElement | null = null;
  readonly #listener: BarListener;
  readonly #where: () => string;
  readonly #stack: XmlElement[] = [];
  /** Elements below one that is left out. */
  #skipped = 0;
  #elements = 0;
  #notes = 0;
  /** Bars seen of each part. */
  readonly #seen = new Map<string, number>();

  constructor(listener: BarListener, where: () => string) {
    this.#listener = listener;
    this.#where = where;
  }

  open(name: string, attributes: Readonly<Record<string, string>>, line: number): void {
    const stack = this.#stack;
    if (++this.#elements > LIMITS.xmlElements) throw tooLarge("elements", LIMITS.xmlElements);
    if (this.#skipped > 0 || UNUSED.has(name)) {
      if (++this.#skipped + stack.length > LIMITS.xmlDepth) throw tooDeep(this.#where());
      return;
    }
    if (stack.length >= LIMITS.xmlDepth) throw tooDeep(this.#where());
    if (name === "note" && ++this.#notes > LIMITS.xmlNotes) throw tooLarge("notes", LIMITS.xmlNotes);
    const element = new XmlElement(name, attributesOf(attributes), line);
    if (this.head === null) {
      refuseRoot(name, this.#where());
      this.head = element;
    } else {
      const parent = stack.at(-1)!;
      if (!isContainer(parent.nodeName) && parent.children.length >= LIMITS.xmlChildren) {
        throw tooLarge(`elements in one <${parent.nodeName}>`, LIMITS.xmlChildren);
      }
      parent.children.push(element);
    }
    stack.push(element);
  }

  close(): void {
    if (this.#skipped > 0) {
      this.#skipped--;
      return;
    }
    const element = this.#stack.pop()!;
    const parent = this.#stack.at(-1);
    if (parent === undefined) return;
    const place = `${parent.nodeName}/${element.nodeName}`;
    const timewise = this.head?.nodeName === "score-timewise";
    if (place === (timewise ? "measure/part" : "part/measure")) {
      if (timewise) this.#handOn(element, parent, element);
      else this.#handOn(parent, element, element);
      parent.children.pop();
    } else if (parent === this.head && (element.nodeName === "part" || element.nodeName === "measure")) {
      parent.children.pop();
    }
  }

  addText(piece: string): void {
    if (this.#skipped === 0 && this.#stack.length > 0) this.#stack.at(-1)!.text += piece;
  }

  #handOn(part: XmlElement, bar: XmlElement, content: XmlElement): void {
    const id = part.getAttribute("id") ?? "";
    const index = this.#seen.get(id) ?? 0;
    this.#seen.set(id, index + 1);
    this.#listener.bar(id, index, content, {
      number: bar.getAttribute("number") ?? "",
      implicit: bar.getAttribute("implicit") === "yes",
    });
  }
}

function attributesOf(attributes: Readonly<Record<string, string>>): readonly XmlAttribute[] {
  let list: XmlAttribute[] | null = null;
  for (const name in attributes) {
    list ??= [];
    list.push({ name, value: attributes[name]!, nodeType: 2, ATTRIBUTE_NODE: 2 });
  }
  return list ?? NO_ATTRIBUTES;
}

/** Elements that may have any number of children. */
function isContainer(name: string): boolean {
  return name === "measure" || name === "part" || name.startsWith("score-") || name === "part-list";
}

function refuseEntities(doctype: string, where: string): void {
  if (!doctype.includes("<!ENTITY")) return;
  throw new Problem(
    "entities-refused",
    "The file declares XML entities, which a score never needs and which can be misused",
    where,
    "Export it again as plain MusicXML.",
  );
}

function refuseRoot(name: string, where: string): void {
  if (name === "score-partwise" || name === "score-timewise") return;
  const meant: Readonly<Record<string, string>> = {
    html: "a web page",
    opus: "a MusicXML opus, a list of other files",
    container: "the table of contents of a compressed MusicXML file",
    svg: "a drawing",
    sounds: "a MusicXML table of sounds",
    mei: "an MEI score",
  };
  throw new Problem(
    "not-a-score",
    `The XML file is ${meant[name.toLowerCase()] ?? `no MusicXML score: it begins with <${name.slice(0, 40)}>`}`,
    where,
    "Choose a MusicXML file: it begins with <score-partwise> or <score-timewise>.",
  );
}

function tooDeep(where: string): Problem {
  return new Problem(
    "xml-too-deep",
    `Elements are nested more than ${LIMITS.xmlDepth} deep, which no score is`,
    where,
    "Export it again from the notation program.",
  );
}

function tooLarge(what: string, limit: number): Problem {
  return new Problem(
    what === "notes" ? "too-many-notes" : "file-too-large",
    `The file has more than ${limit} ${what}`,
    null,
    "Cut it into takes of a few minutes each.",
  );
}
