/** How a bar falls into beats, in ticks: what a reader sees at a glance must not be hidden inside a note. */
export interface BeatGrid {
  readonly ticksPerQuarter: number;
  /** Length of a beat: a dotted quarter in 6/8, 9/8, 12/8. */
  readonly beat: number;
  /** The middle of a bar of four beats, which an off-beat note does not cover; else 0. */
  readonly middle: number;
}

export function beatGrid(
  meter: { readonly beats: number; readonly unit: number },
  ticksPerQuarter: number,
): BeatGrid {
  const unit = (4 * ticksPerQuarter) / meter.unit;
  const compound = meter.unit >= 8 && meter.beats % 3 === 0;
  const beat = compound ? 3 * unit : meter.unit > 4 ? Math.max(unit, ticksPerQuarter) : unit;
  const beats = (meter.beats * unit) / beat;
  return { ticksPerQuarter, beat, middle: beats === 4 ? 2 * beat : 0 };
}

/** The first beat after a tick. */
export function nextBeat(grid: BeatGrid, tick: number): number {
  return (Math.floor(tick / grid.beat + 1e-9) + 1) * grid.beat;
}
