/** A picture that the engraver made, as an element of the page. */

/** Fonts that the engraver wrote into its pictures, each with its rule. */
const fonts = new Map<string, string>();

/** The rules of the fonts so far, for a picture that leaves the page. */
export const engravedFonts = (): string => [...fonts.values()].join("\n");

/** The element for one engraved page, its fonts loaded, its styles and scripts left out. */
export async function engravedElement(text: string): Promise<SVGSVGElement> {
  await loadFont(text);
  return clean(text);
}

/** Flats and notes inside words come from a font that the engraver writes into its picture; it is taken from there. */
async function loadFont(page: string): Promise<void> {
  for (const [rule] of page.matchAll(/@font-face\s*{[^}]*}/g)) {
    const family = /font-family:\s*["']?([^;"'}]+)/.exec(rule)?.[1]?.trim();
    const data = /base64,([A-Za-z0-9+/=]+)/.exec(rule)?.[1];
    if (!family || !data || fonts.has(family)) continue;
    fonts.set(family, rule);
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

/** Takes the names off its parts, so that several pictures can stand on one page; its signs keep theirs. */
export function withoutNames(svg: SVGSVGElement): SVGSVGElement {
  for (const part of svg.querySelectorAll("[id]")) if (!part.closest("defs")) part.removeAttribute("id");
  return svg;
}
