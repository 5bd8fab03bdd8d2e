/**
 * A source with bar lines of its own: positions are read from ticks, exactly. A first bar that does not count is a
 * pickup; short bars that make one bar together (a repeat sign inside a bar) count as one.
 */
import { quartersPerBar } from "../chart/index.ts";
import type { Chart } from "../chart/types.ts";
import type { Take, Warning } from "../take/index.ts";

/** Straight pieces of the map from ticks to chart position in quarter-note beats, sorted by tick. */
export interface TickPiece {
  readonly tick: number;
  readonly position: number;
  /** Quarter-note beats of the chart for one tick. */
  readonly rate: number;
}

export interface TickGrid {
  readonly pieces: readonly TickPiece[];
  /** Bars of the chart that the source fills, without the pickup. */
  readonly bars: number;
  readonly warnings: readonly Warning[];
}

/** Chart position (quarter-note beats) of a tick. */
export function positionOfTick(grid: TickGrid, tick: number): number {
  const { pieces } = grid;
  let low = 0;
  let high = pieces.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (pieces[middle]!.tick <= tick) low = middle;
    else high = middle - 1;
  }
  const piece = pieces[low]!;
  return piece.position + (tick - piece.tick) * piece.rate;
}

/**
 * The grid that the source's own bars give (its meters, where it has no bars), the first whole bar being bar 1 of
 * the first chorus. A bar that is not as long as the chart's is stretched to one bar of the chart, with a warning.
 */
export function sourceGrid(take: Take, chart: Chart): TickGrid {
  const quarter = take.ticksPerQuarter;
  const barTicks = quartersPerBar(chart.meter) * quarter;
  const warnings: Warning[] = [];
  if (take.bars.length === 0) {
    const last = take.notes.reduce((end, note) => Math.max(end, note.tick + note.ticks), 0);
    const rate = meterRate(take, chart, warnings);
    const bars = Math.max(1, Math.ceil((last * rate) / quarter / quartersPerBar(chart.meter) - 1e-9));
    return { pieces: [{ tick: 0, position: 0, rate: rate / quarter }], bars, warnings };
  }
  const first = take.bars.findIndex((bar) => !bar.implicit);
  const counted = first < 0 ? take.bars : take.bars.slice(first);
  const groups: { tick: number; ticks: number; number: string }[] = [];
  for (const bar of counted) {
    const open = groups.at(-1);
    if (open !== undefined && open.ticks < barTicks && open.ticks + bar.ticks <= barTicks) {
      open.ticks += bar.ticks;
    } else {
      groups.push({ tick: bar.tick, ticks: bar.ticks, number: bar.number });
    }
  }
  const odd: string[] = [];
  const pieces = groups.map((group, g) => {
    const whole = group.ticks === barTicks || (g === groups.length - 1 && group.ticks < barTicks);
    if (!whole) odd.push(group.number);
    const rate = whole || group.ticks <= 0 ? 1 / quarter : quartersPerBar(chart.meter) / group.ticks;
    return { tick: group.tick, position: g * quartersPerBar(chart.meter), rate };
  });
  if (odd.length > 0) {
    const list = `${odd.slice(0, 8).join(", ")}${odd.length > 8 ? ", ..." : ""}`;
    warnings.push({
      code: "bar-length-differs",
      message: `${odd.length} bars are not as long as a bar of the chart (${chart.meter.beats}/${chart.meter.unit}); each was laid over one bar of the chart`,
      where: `bar ${list}`,
    });
  }
  return { pieces, bars: groups.length, warnings };
}

/** 12/8 played over a chart in 4/4 has the same bars and other quarters; anything else is taken at its word. */
function meterRate(take: Take, chart: Chart, warnings: Warning[]): number {
  const meter = take.meters[0];
  if (meter === undefined) return 1;
  const ratio = quartersPerBar(chart.meter) / ((meter.beats * 4) / meter.unit);
  if (ratio === 1) return 1;
  warnings.push({
    code: "meter-differs",
    message: `The file says ${meter.beats}/${meter.unit}, the chart ${chart.meter.beats}/${chart.meter.unit}; the chart was followed`,
    where: null,
  });
  return Math.abs(ratio - 2 / 3) < 1e-9 ? ratio : 1;
}
