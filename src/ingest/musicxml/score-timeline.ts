import type { WarningCollector } from "../warning-collector.ts";
import type { BarContent } from "./bar-content.ts";
import { barTimeline, type TimedBar } from "./bar-timeline.ts";
import type { TickRule } from "./ticks.ts";

interface Meter {
  readonly beats: number;
  readonly unit: number;
}

const COMMON: Meter = { beats: 4, unit: 4 };

/**
 * Lays all bars of a score, parts side by side by their place in the part, and compares each with its meter. A score
 * that states no meter gets the one that most of its bars have.
 */
export function scoreTimeline(
  parts: readonly { readonly id: string; readonly bars: readonly BarContent[] }[],
  rule: TickRule,
  warnings: WarningCollector,
): { readonly bars: TimedBar[]; readonly firstMeter: Meter } {
  const length = parts.reduce((longest, part) => Math.max(longest, part.bars.length), 0);
  const rows = Array.from({ length }, (_, index) =>
    parts.map((part) => ({ id: part.id, bar: part.bars[index] })),
  );
  const stated = rows[0]?.some(({ bar }) => meterIn(bar) !== null) ?? false;
  let meter = COMMON;
  const timed = rows.map((row) => {
    meter = row.map(({ bar }) => meterIn(bar)).find((one) => one !== null) ?? meter;
    return {
      meter,
      bar: barTimeline(
        row,
        rule,
        { ticks: Math.round(ticksOf(meter, rule)), beat: ticksOf({ ...meter, beats: 1 }, rule) },
        warnings,
      ),
    };
  });
  const firstMeter = stated
    ? COMMON
    : likelyMeter(
        timed.map(({ bar }) => bar),
        rule,
      );
  if (!stated && firstMeter !== COMMON) {
    warnings.add(
      "meter-assumed",
      null,
      () =>
        `The score states no meter at its start; ${firstMeter.beats}/${firstMeter.unit} was taken from its bars.`,
    );
  }
  let changed = stated;
  const bars = timed.map(({ meter: own, bar }, index) => {
    changed ||= own !== COMMON;
    const nominal = ticksOf(changed ? own : firstMeter, rule);
    // The bar before a new upbeat, or at the end, is short by the upbeat.
    const next = timed[index + 1]?.bar;
    const upbeat = next === undefined ? timed[0]!.bar : next;
    if (index > 0 && upbeat.implicit && bar.ticks + upbeat.ticks === nominal) return bar;
    return compare(bar, index, nominal, warnings);
  });
  return { bars: withFullPickup(bars, warnings), firstMeter };
}

/**
 * An upbeat that is written as a full bar: it begins with a rest and has no chord symbol, and the first one stands at
 * the next bar line. A bar numbered 0 says so itself [practice].
 */
function withFullPickup(bars: readonly TimedBar[], warnings: WarningCollector): TimedBar[] {
  const [first, second] = bars;
  const isChord = ({ event }: TimedBar["facts"][number]) => event.kind === "chord" && event.text !== "N.C.";
  if (first === undefined || second === undefined || first.implicit) return [...bars];
  const onset = Math.min(...first.notes.map(({ tick }) => tick));
  const upbeat =
    first.notes.length > 0 &&
    onset > 0 &&
    !first.facts.some(isChord) &&
    second.facts.some((fact) => fact.tick === 0 && isChord(fact));
  if (!upbeat && first.number !== "0") return [...bars];
  warnings.add(
    "pickup-assumed",
    `bar ${first.number}`,
    () =>
      "The first bar begins with a rest and has no chord, the second has the first one; it was taken as a pickup.",
  );
  return [{ ...first, implicit: true }, ...bars.slice(1)];
}

function meterIn(bar: BarContent | undefined): Meter | null {
  for (const event of bar?.events ?? []) if (event.kind === "meter") return event;
  return null;
}

function ticksOf({ beats, unit }: Meter, rule: TickRule): number {
  return (beats * 4 * rule.ticksPerQuarter) / unit;
}

function compare(bar: TimedBar, index: number, nominal: number, warnings: WarningCollector): TimedBar {
  if (bar.ticks === nominal || bar.implicit) return bar;
  if (index === 0 && bar.ticks < nominal) {
    warnings.add(
      "pickup-assumed",
      `bar ${bar.number}`,
      () => "The first bar is shorter than its meter; it was taken as a pickup.",
    );
    return { ...bar, implicit: true };
  }
  warnings.add("irregular-bar", `bar ${bar.number}`, (times) =>
    times === 1
      ? "1 bar is not as long as the meter says; it was read as written."
      : `${times} bars are not as long as the meter says; they were read as written.`,
  );
  return bar;
}

/** The meter of the commonest bar length: in quarters if they go into it, else in eighths or sixteenths. */
function likelyMeter(bars: readonly TimedBar[], rule: TickRule): Meter {
  const lengths = new Map<number, number>();
  for (const { ticks } of bars) lengths.set(ticks, (lengths.get(ticks) ?? 0) + 1);
  const commonest = [...lengths].sort((a, b) => b[1] - a[1])[0]?.[0] ?? 0;
  for (const unit of [4, 8, 16]) {
    const beats = (commonest * unit) / (4 * rule.ticksPerQuarter);
    if (Number.isInteger(beats) && beats >= 2 && beats <= 12) {
      return beats === 4 && unit === 4 ? COMMON : { beats, unit };
    }
  }
  return COMMON;
}
