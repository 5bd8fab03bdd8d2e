/** Data lengths that the standard fixes for its meta events (SMF 1.0, "Meta-Events"). */
const META_LENGTHS: ReadonlyMap<number, readonly number[]> = new Map([
  [0x00, [2]],
  [0x20, [1]],
  [0x21, [1]],
  [0x51, [3]],
  [0x54, [5]],
  [0x58, [2, 4]],
  [0x59, [2]],
]);

/** The lengths that a meta event may have; undefined where any will do. */
export function metaLengthsOf(type: number): readonly number[] | undefined {
  return META_LENGTHS.get(type);
}
