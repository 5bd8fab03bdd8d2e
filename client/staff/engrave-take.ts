/** Engraves the solo of a take: once as wide as the page, and once more, page by page, as it stands on paper. */
import { PAPER_WIDTH } from "../views/on-paper.ts";
import { scorePieces } from "./score-pieces.ts";

/** Lines that stay on one page: a chorus of twelve or sixteen bars; pages break between them. */
const SYSTEMS = 4;
/** Solo notes that are engraved twice; more would hold the page up for seconds, and its memory would be that of two. */
const MOST_TWICE = 1200;

export const isEngravedOnce = (notes: number): boolean => notes > MOST_TWICE;

export interface EngravedPage {
  readonly svg: SVGSVGElement;
  /** Parts that stand with this one, and parts of the whole. */
  readonly done: number;
  readonly all: number;
}

/** As wide as the screen lets it be. */
export async function engraveWide(xml: string, width: number): Promise<SVGSVGElement[]> {
  const { engrave } = await import("./engraver.ts");
  return engrave(xml, { width });
}

/** Page after page for paper, with four bars on a line; between two of them the browser does what else it has to. */
export async function* engravePages(xml: string): AsyncGenerator<EngravedPage> {
  const { engrave } = await import("./engraver.ts");
  const pieces = scorePieces(xml, SYSTEMS);
  for (const [i, { xml: piece, fillsLast }] of pieces.entries()) {
    for (const svg of await engrave(piece, { width: PAPER_WIDTH, ownBreaks: true, fillsLast }))
      yield { svg, done: i + 1, all: pieces.length };
    await new Promise((rested) => setTimeout(rested, 0));
  }
}
