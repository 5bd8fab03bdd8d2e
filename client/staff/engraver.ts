/** Engraves MusicXML. The engraver is large, so this file is only loaded when a staff is asked for. */
import { VerovioToolkit } from "verovio/esm";
import createModule from "verovio/wasm";
import { s } from "../shell/dom.ts";
import { engravedElement } from "./engraved.ts";
import { partHead } from "./score-head.ts";

let engraver: Promise<VerovioToolkit> | null = null;

export interface EngraveOptions {
  /** Width of a page in CSS pixels. */
  readonly width: number;
  /** Size of the staff in percent; 40 is a usual reading size on screen. */
  readonly scale?: number;
  /** Height of a page in CSS pixels; null makes one page as long as the music. */
  readonly height?: number | null;
  /** True keeps the line breaks that the score asks for; else lines are as full as they can be. */
  readonly ownBreaks?: boolean;
}

/** One SVG element a page. Throws when the score cannot be read. */
export async function engrave(xml: string, options: EngraveOptions): Promise<SVGSVGElement[]> {
  engraver ??= createModule().then((module) => new VerovioToolkit(module));
  const toolkit = await engraver;
  const scale = options.scale ?? 42;
  const { head, rest } = partHead(xml);
  toolkit.setOptions({
    scale,
    pageWidth: Math.round((options.width * 100) / scale),
    pageHeight: options.height ? Math.round((options.height * 100) / scale) : 60_000,
    adjustPageHeight: !options.height,
    // Half of "Chorus 2" stands left of the first bar line.
    pageMarginLeft: 70,
    pageMarginRight: 20,
    // The line above the first system has its room here.
    pageMarginTop: head === "" ? 30 : Math.round(3000 / scale),
    pageMarginBottom: 20,
    breaks: options.ownBreaks && rest.includes("new-system") ? "encoded" : "auto",
    header: "none",
    footer: "none",
    svgViewBox: true,
    svgRemoveXlink: true,
    svgHtml5: false,
    spacingLinear: 0.2,
    // Fingers are read at arm's length: a little smaller than the words, not half as large.
    fingeringScale: 0.85,
    lyricWordSpace: 1.8,
    // Room between chord symbols and fingers, and between words that stand under each other.
    bottomMarginHarm: 2.5,
    defaultBottomMargin: 1,
  });
  if (!toolkit.loadData(rest)) throw new Error("The engraver could not read this score.");
  const pages = Array.from({ length: toolkit.getPageCount() }, (_, i) => toolkit.renderToSVG(i + 1));
  const elements = await Promise.all(pages.map(engravedElement));
  const [first] = elements;
  if (first !== undefined && head !== "") first.append(headLine(head));
  return elements;
}

/** The score's head as a line of its own, in the letters of the page. */
function headLine(head: string): SVGElement {
  return s("text", { class: "score-head", x: 4, y: 16 }, head);
}
