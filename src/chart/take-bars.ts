/** Bar lines of a take: those of the notation, else those that the meter map claims. */
import type { Take } from "../take/index.ts";
import type { Meter } from "./types.ts";

/** A bar of a take, in ticks. */
export interface TakeBar {
  readonly tick: number;
  readonly ticks: number;
}

/** More bars than this are not laid out; a whole evening fits. */
const MAX_BARS = 20_000;

/**
 * Bars up to the last note or chord, in order. A pickup at the start of a notated take is left out; `phase` shifts
 * the bar lines of a take that has only a meter map (ticks, from 0).
 */
export function barsOf(take: Take, phase = 0): TakeBar[] {
  if (take.bars.length > 0) {
    const first = take.bars.findIndex((bar) => !bar.implicit);
    return joined(take.bars.slice(Math.max(first, 0)));
  }
  const end = endTick(take);
  const bars: TakeBar[] = [];
  for (const [index, mark] of take.meters.entries()) {
    const ticks = (take.ticksPerQuarter * 4 * mark.beats) / mark.unit;
    const until = Math.min(take.meters[index + 1]?.tick ?? end, end);
    for (let tick = index === 0 ? phase : mark.tick; tick < until && bars.length < MAX_BARS; tick += ticks) {
      bars.push({ tick, ticks });
    }
  }
  return bars;
}

/** The meter in which most of the take stands. */
export function mainMeter(take: Take): Meter {
  const end = endTick(take);
  let best = { ticks: -1, meter: { beats: 4, unit: 4 } };
  const lengths = new Map<string, number>();
  for (const [index, mark] of take.meters.entries()) {
    const name = `${mark.beats}/${mark.unit}`;
    const until = Math.max(take.meters[index + 1]?.tick ?? end, mark.tick);
    const ticks = (lengths.get(name) ?? 0) + until - mark.tick;
    lengths.set(name, ticks);
    if (ticks > best.ticks) best = { ticks, meter: { beats: mark.beats, unit: mark.unit } };
  }
  return best.meter;
}

/** Implicit bars inside a piece are the second half of a split bar: they belong to the bar before. */
function joined(bars: Take["bars"]): TakeBar[] {
  const whole: { tick: number; ticks: number }[] = [];
  for (const bar of bars) {
    const last = whole.at(-1);
    if (bar.implicit && last !== undefined) last.ticks += bar.ticks;
    else whole.push({ tick: bar.tick, ticks: bar.ticks });
  }
  return whole;
}

function endTick(take: Take): number {
  const lastNote = take.notes.reduce((end, note) => Math.max(end, note.tick + note.ticks), 0);
  return Math.max(lastNote, (take.chords.at(-1)?.tick ?? -1) + 1);
}
