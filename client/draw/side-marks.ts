/** One sign for each side of a comparison: told apart by shape first, so that print and colour-blind readers lose nothing. */

const SIZE = 4.2;

const SHAPES: readonly ((r: number) => string)[] = [
  (r) => `M${-r},0a${r},${r} 0 1,0 ${2 * r},0a${r},${r} 0 1,0 ${-2 * r},0z`,
  (r) => `M${-r},0a${r},${r} 0 1,0 ${2 * r},0a${r},${r} 0 1,0 ${-2 * r},0z`,
  (r) => `M${-r},${-r}h${2 * r}v${2 * r}h${-2 * r}z`,
  (r) => `M0,${-1.3 * r}L${1.2 * r},${0.9 * r}h${-2.4 * r}z`,
  (r) => `M0,${-1.4 * r}L${1.2 * r},0L0,${1.4 * r}L${-1.2 * r},0z`,
  (r) => `M${-r},${-r}L${r},${r}M${-r},${r}L${r},${-r}`,
];

/** Filled and hollow take turns, so that twelve sides have a sign of their own; more share them. */
export function sidePath(side: number, size = SIZE): string {
  return SHAPES[side % SHAPES.length]!(side === 0 ? size * 0.7 : size);
}

/** "side-mark side-0" to "side-5", "again" from the seventh on. */
export function sideClass(side: number): string {
  return `side-mark side-${side % SHAPES.length}${side >= SHAPES.length ? " again" : ""}`;
}
