/** How far a picture in its frame is scrolled so that a row of it is seen; heights are pixels from the picture's top. */
import type { Span } from "./view.ts";

/** What is seen of the picture: from `top` on, `height` pixels, the first `covered` of them under the pinned head. */
export interface Seen {
  readonly top: number;
  readonly height: number;
  readonly covered: number;
}

/** Pixels that stay free beside a row that was scrolled to. */
const AIR = 8;

/** Whether the row is seen whole. */
export function isSeen(row: Span, { top, height, covered }: Seen): boolean {
  return row.top >= top + covered && row.bottom <= top + height;
}

/** The least way to where the row is seen whole. @returns the new `top`, the old one where it is seen already */
export function nearest(row: Span, seen: Seen): number {
  if (isSeen(row, seen)) return seen.top;
  return row.top < seen.top + seen.covered
    ? Math.max(0, row.top - seen.covered - AIR)
    : row.bottom + AIR - seen.height;
}

/** So that the row is the first one below the head: what follows it is seen with it. @returns the new `top` */
export function leading(row: Span, seen: Seen): number {
  return Math.max(0, row.top - seen.covered - AIR);
}
