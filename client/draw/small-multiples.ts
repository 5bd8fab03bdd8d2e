/** Many small pictures of one kind in rows, as many to a row as have room. */
import { s } from "../shell/dom.ts";

/** Of each in pixels: its height, and the least width in which it can be read. */
interface SmallSize {
  readonly tall: number;
  readonly leastWidth: number;
}

/** @param draw draws one of them from its upper left corner, `w` pixels wide */
export function smallMultiples<Item>(
  items: readonly Item[],
  width: number,
  { tall, leastWidth }: SmallSize,
  look: string,
  draw: (item: Item, left: number, top: number, w: number) => readonly SVGElement[],
): SVGSVGElement {
  const per = Math.max(1, Math.floor(width / leastWidth));
  const w = width / per;
  const svg = s("svg", { viewBox: `0 0 ${width} ${Math.ceil(items.length / per) * tall}`, class: look });
  for (const [i, item] of items.entries()) {
    svg.append(...draw(item, (i % per) * w, Math.floor(i / per) * tall, w));
  }
  return svg;
}
