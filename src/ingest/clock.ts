import type { TempoMark } from "../take/index.ts";

/** Ticks to seconds, through a tempo map. */
export interface TickClock {
  seconds(tick: number): number;
  /** The same for many at once; fastest where they rise. */
  column(ticks: Int32Array): Float64Array;
}

/** @param tempos At least one, the first at tick 0, rising. */
export function clockOf(tempos: readonly TempoMark[], ticksPerQuarter: number): TickClock {
  // The stretch of one tempo in which the last asked-for tick stood: times are asked for mostly in rising order.
  let from = 0;
  let until = 0;
  let tickOfMark = 0;
  let secondsOfMark = 0;
  let perTick = 0;
  const turnTo = (tick: number): void => {
    const at = markAt(tempos, tick);
    const mark = tempos[at]!;
    from = at === 0 ? Number.NEGATIVE_INFINITY : mark.tick;
    until = tempos[at + 1]?.tick ?? Number.POSITIVE_INFINITY;
    perTick = 60 / (mark.quartersPerMinute * ticksPerQuarter);
    tickOfMark = mark.tick;
    secondsOfMark = mark.seconds;
  };
  return {
    seconds(tick) {
      if (tick < from || tick >= until) turnTo(tick);
      return secondsOfMark + (tick - tickOfMark) * perTick;
    },
    column(ticks) {
      const seconds = new Float64Array(ticks.length);
      for (let i = 0; i < ticks.length; i++) {
        const tick = ticks[i]!;
        if (tick < from || tick >= until) turnTo(tick);
        seconds[i] = secondsOfMark + (tick - tickOfMark) * perTick;
      }
      return seconds;
    },
  };
}

function markAt(tempos: readonly TempoMark[], tick: number): number {
  let low = 0;
  let high = tempos.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (tempos[middle]!.tick <= tick) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Gives rising tempo changes their times; a change at the same tick as another replaces it. */
export function timeTempos(
  changes: readonly { readonly tick: number; readonly quartersPerMinute: number }[],
  ticksPerQuarter: number,
  before: number,
): TempoMark[] {
  const marks: TempoMark[] = [{ tick: 0, seconds: 0, quartersPerMinute: before }];
  for (const { tick, quartersPerMinute } of changes) {
    const mark = marks.at(-1)!;
    const seconds = mark.seconds + ((tick - mark.tick) * 60) / (mark.quartersPerMinute * ticksPerQuarter);
    if (tick === mark.tick) marks.pop();
    else if (quartersPerMinute === mark.quartersPerMinute) continue;
    marks.push({ tick, seconds, quartersPerMinute });
  }
  return marks;
}
