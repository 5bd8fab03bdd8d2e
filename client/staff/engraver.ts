/** Engraves MusicXML. The engraver is large, so this file is only loaded when a staff is asked for. */
import { VerovioToolkit } from "verovio/esm";
import createModule from "verovio/wasm";
import { engravedElement } from "./engraved.ts";

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
  toolkit.setOptions({
    scale,
    pageWidth: Math.round((options.width * 100) / scale),
    pageHeight: options.height ? Math.round((options.height * 100) / scale) : 60_000,
    adjustPageHeight: !options.height,
    pageMarginLeft: 20,
    pageMarginRight: 20,
    pageMarginTop: 30,
    pageMarginBottom: 20,
    breaks: options.ownBreaks && xml.includes("new-system") ? "encoded" : "auto",
    header: "none",
    footer: "none",
    svgViewBox: true,
    svgRemoveXlink: true,
    svgHtml5: false,
    spacingLinear: 0.2,
  });
  if (!toolkit.loadData(xml)) throw new Error("The engraver could not read this score.");
  const pages = Array.from({ length: toolkit.getPageCount() }, (_, i) => toolkit.renderToSVG(i + 1));
  return Promise.all(pages.map(engravedElement));
}
