/** Engraves MusicXML. The engraver is large, so this file is only loaded when a staff is asked for. */
import { VerovioToolkit } from "verovio/esm";
import createModule from "verovio/wasm";
import {
  type EngravingWishes,
  engravingOptions,
  hasOwnBreaks,
  lastLineIsFull,
} from "../../src/export/engraving.ts";
import { partHead } from "../../src/export/score-head.ts";
import { s } from "../shell/dom.ts";
import { engravedElement } from "./engraved.ts";

let engraver: Promise<VerovioToolkit> | null = null;

/** Size of the staff in percent where none is asked for. */
const SCALE = 42;

/** One SVG element a page. Throws when the score cannot be read. */
export async function engrave(
  xml: string,
  options: Pick<EngravingWishes, "width"> & Partial<Omit<EngravingWishes, "hasHead">>,
): Promise<SVGSVGElement[]> {
  engraver ??= createModule().then((module) => new VerovioToolkit(module));
  const toolkit = await engraver;
  const { width, scale = SCALE, height = null, ownBreaks = false } = options;
  const { head, rest } = partHead(xml);
  toolkit.setOptions(
    engravingOptions({
      width,
      scale,
      height,
      ownBreaks: ownBreaks && hasOwnBreaks(rest),
      hasHead: head !== "",
      hasMarks: rest.includes("<rehearsal>"),
      fillsLast: options.fillsLast ?? (ownBreaks && lastLineIsFull(rest)),
    }),
  );
  if (!toolkit.loadData(rest)) throw new Error("The engraver could not read this score.");
  const pages = Array.from({ length: toolkit.getPageCount() }, (_, i) => toolkit.renderToSVG(i + 1));
  const elements = await Promise.all(pages.map(engravedElement));
  const workedOut = fingersInItalics(rest);
  for (const element of elements)
    for (const finger of element.querySelectorAll<SVGGElement>("g.fing[data-startid]"))
      finger.classList.toggle("worked-out", workedOut.has(finger.dataset.startid!.slice(1)));
  const [first] = elements;
  if (first !== undefined && head !== "") first.append(headLine(head));
  return elements;
}

/** Notes whose fingers a score sets in italics; the engraver sets all of them upright. */
const fingersInItalics = (xml: string): ReadonlySet<string> =>
  new Set(
    [...xml.matchAll(/<note id="([^"]+)"(?:(?!<\/note>)[\s\S])*?<fingering[^>]*font-style="italic"/g)].map(
      ([, id]) => id!,
    ),
  );

/** The score's head as a line of its own, in the letters of the page. */
function headLine(head: string): SVGElement {
  return s("text", { class: "score-head", x: 4, y: 16 }, head);
}
