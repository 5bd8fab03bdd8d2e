/** Engraves MusicXML. The engraver is large, so this file is only loaded when a staff is asked for. */
import { VerovioToolkit } from "verovio/esm";
import createModule from "verovio/wasm";

let engraver: Promise<VerovioToolkit> | null = null;

export interface EngraveOptions {
  /** Width of a page in CSS pixels. */
  readonly width: number;
  /** Size of the staff in percent; 40 is a usual reading size on screen. */
  readonly scale?: number;
  /** Height of a page in CSS pixels; null makes one page as long as the music. */
  readonly height?: number | null;
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
    breaks: "auto",
    header: "none",
    footer: "none",
    svgViewBox: true,
    svgRemoveXlink: true,
    svgHtml5: false,
    spacingLinear: 0.2,
  });
  if (!toolkit.loadData(xml)) throw new Error("The engraver could not read this score.");
  const pages = Array.from({ length: toolkit.getPageCount() }, (_, i) => toolkit.renderToSVG(i + 1));
  for (const page of pages) await loadFont(page);
  return pages.map(clean);
}

const fonts = new Set<string>();

/** Flats and notes inside words come from a font that the engraver writes into its picture; it is taken from there. */
async function loadFont(page: string): Promise<void> {
  for (const [rule] of page.matchAll(/@font-face\s*{[^}]*}/g)) {
    const family = /font-family:\s*["']?([^;"'}]+)/.exec(rule)?.[1]?.trim();
    const data = /base64,([A-Za-z0-9+/=]+)/.exec(rule)?.[1];
    if (!family || !data || fonts.has(family)) continue;
    fonts.add(family);
    const bytes = Uint8Array.from(atob(data), (letter) => letter.charCodeAt(0));
    document.fonts.add(await new FontFace(family, bytes).load());
  }
}

/** The security policy lets no inline styles in, not even for parsing; what they say is in the style sheet instead. */
function clean(text: string): SVGSVGElement {
  const plain = text.replace(/<style[^>]*>[\s\S]*?<\/style>/g, "").replace(/\sstyle="[^"]*"/g, "");
  const parsed = new DOMParser().parseFromString(plain, "image/svg+xml");
  for (const element of parsed.querySelectorAll("script, foreignObject")) element.remove();
  const svg = document.importNode(parsed.documentElement, true) as unknown as SVGSVGElement;
  svg.setAttribute("class", "engraved");
  svg.setAttribute("aria-hidden", "true");
  return svg;
}
