/**
 * Chord symbols that stand one behind the other before one held note, as turnarounds do over a last long note. The
 * score gives them no places of their own; the note's time is shared among them by beats [practice].
 */

/** Symbols that stand before the same note, as indexes of the caller's list, in document order. */
export interface ChordGroup {
  readonly members: readonly number[];
  /** Ticks from the bar line. */
  readonly start: number;
  /** Of the note that they stand before, in ticks. */
  readonly length: number;
  /** True when the first share belongs to a symbol that stands before all of them in an earlier bar. */
  readonly behind: boolean;
}

/**
 * The tick of each member: whole beats where there are enough, the first ones longer by what is over; equal shares of
 * a shorter time.
 *
 * @param room Ticks until the next symbol or the bar's end, used where the note is too short to hold them all.
 * @example two chords before a whole note: beats 1 and 3; three: beats 1, 3 and 4
 */
export function sharedTicks(group: ChordGroup, beat: number, room: number): number[] {
  const shares = group.members.length + (group.behind ? 1 : 0);
  const length = group.length >= shares * beat ? group.length : Math.max(group.length, room);
  const beats = length / beat;
  const whole = Number.isInteger(beats) && beats >= shares;
  const ticks: number[] = [];
  let at = group.start;
  for (let share = 0; share < shares; share++) {
    if (!group.behind || share > 0) ticks.push(at);
    const over = share < beats % shares ? 1 : 0;
    at += whole ? (Math.floor(beats / shares) + over) * beat : Math.round(length / shares);
  }
  return ticks;
}
