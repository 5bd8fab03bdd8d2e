import type { TempoMark } from "../take/index.ts";

/** Ticks to seconds, through a tempo map. */
export interface TickClock {
  seconds(tick: number): number;
}

/** @param tempos At least one, the first at tick 0, rising. */
export function clockOf(tempos: readonly TempoMark[], ticksPerQuarter: number): TickClock {
  const perTick = tempos.map((tempo) => 60 / (tempo.quartersPerMinute * ticksPerQuarter));
  let mark = 0;
  return {
    seconds(tick) {
      // Asked for mostly in rising order: the last mark is nearly always right.
      const next = tempos[mark + 1];
      if (tick < tempos[mark]!.tick || (next !== undefined && tick >= next.tick)) mark = markAt(tempos, tick);
      return tempos[mark]!.seconds + (tick - tempos[mark]!.tick) * perTick[mark]!;
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
