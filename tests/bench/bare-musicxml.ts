import { SaxesParser } from "saxes";
import { XmlElement } from "../../src/ingest/musicxml/element.ts";
import { readAttributes, readNote } from "../../src/ingest/musicxml/interfaces.ts";

/**
 * What a reader that only parsed would have to spend: builds the whole document as elements and has
 * musicxml-interfaces read every bar of it. Returns the number of things in the bars.
 */
export function bareMusicXml(text: string): number {
  const parser = new SaxesParser({ xmlns: false, position: true });
  const stack: XmlElement[] = [];
  const measures: XmlElement[] = [];
  parser.on("opentag", ({ name, attributes }) => {
    const list = Object.entries(attributes).map(
      ([key, value]) => ({ name: key, value: String(value), nodeType: 2, ATTRIBUTE_NODE: 2 }) as const,
    );
    const element = new XmlElement(name, list, parser.line);
    stack.at(-1)?.children.push(element);
    stack.push(element);
  });
  parser.on("text", (piece) => {
    const top = stack.at(-1);
    if (top !== undefined) top.text += piece;
  });
  parser.on("closetag", () => {
    const element = stack.pop()!;
    if (element.nodeName === "measure") measures.push(element);
  });
  parser.write(text).close();
  let things = 0;
  for (const { children } of measures) {
    for (const one of children) {
      if (one.nodeName === "note") readNote(one);
      else if (one.nodeName === "attributes") readAttributes(one);
      things++;
    }
  }
  return things;
}
