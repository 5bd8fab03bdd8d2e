/** What counts as struck at one time, in seconds between the first and the last key. */

/**
 * Keys of one hand that are struck together. In chords of trained pianists the melody leads by about 30 ms and the
 * others lie within it (Goebl, Melody lead in piano performance, JASA 110, 2001 [memory]); graces and slides are
 * slower, the fastest repeated strokes of one hand some 60 ms [practice].
 */
export const STRUCK_TOGETHER = 0.03;

/**
 * What belongs to one stroke of the beat: two hands that are each spread and not quite together, a roll, a grace.
 * Half as much again as one hand, and well below sixteenths at 240 quarter notes a minute, which are 62 ms apart.
 */
export const ONE_STROKE = 1.5 * STRUCK_TOGETHER;

/**
 * True when two keys of a hand are struck together.
 * @param seconds from the one onset to the other
 */
export function struckTogether(seconds: number): boolean {
  return Math.abs(seconds) <= STRUCK_TOGETHER;
}

/**
 * The notes of each stroke, by their indices: those that begin within `ONE_STROKE` of its first.
 *
 * @param notes sorted by onset
 */
export function strokeGroups(notes: readonly { readonly onset: number }[]): number[][] {
  const groups: number[][] = [];
  let begun = Number.NEGATIVE_INFINITY;
  notes.forEach(({ onset }, i) => {
    if (onset - begun > ONE_STROKE) {
      groups.push([]);
      begun = onset;
    }
    groups.at(-1)!.push(i);
  });
  return groups;
}
