import type { WarningCollector } from "../warning-collector.ts";
import type { BarContent, Length } from "./bar-content.ts";

/** Turns lengths of the document into whole ticks. */
export interface TickRule {
  readonly ticksPerQuarter: number;
  /** Whole ticks; exact unless a notice says otherwise. */
  of(length: Length): number;
}

/** Ticks to a quarter note are not let grow beyond this; lengths are then rounded. */
const FINEST = 1_000_000;

/** The finest grid that is used where divisions have no small common multiple: 2^7 by 3^2 by 5 by 7. */
const FALLBACK = 40_320;

/**
 * The least common multiple of all divisions that the parts count in, so that every length is a whole number of
 * ticks. Fractions of a division, which the standard allows, are brought in by powers of ten.
 */
export function tickRule(parts: readonly (readonly BarContent[])[], warnings: WarningCollector): TickRule {
  const seen = new Set<number>();
  let ticksPerQuarter = 1;
  let exact = true;
  for (const bars of parts) {
    for (const bar of bars) {
      for (const event of bar.events) {
        const length = "length" in event ? event.length : "offset" in event ? event.offset : null;
        if (length === null) continue;
        const needed = denominator(length);
        if (seen.has(needed)) continue;
        seen.add(needed);
        const next =
          needed === 0 ? Number.POSITIVE_INFINITY : (ticksPerQuarter / gcd(ticksPerQuarter, needed)) * needed;
        if (next <= FINEST) ticksPerQuarter = next;
        else exact = false;
      }
    }
  }
  if (!exact) {
    ticksPerQuarter = FALLBACK;
    warnings.add(
      "lengths-rounded",
      null,
      () =>
        `The parts count in divisions without a common multiple; lengths were rounded to 1/${FALLBACK} quarter note.`,
    );
  }
  return {
    ticksPerQuarter,
    of: ({ units, divisions }) => Math.round((units * ticksPerQuarter) / divisions),
  };
}

/** Ticks to a quarter note that make the length whole; 0 when none does. */
function denominator({ units, divisions }: Length): number {
  if (Number.isInteger(units) && Number.isInteger(divisions)) return divisions;
  for (let scale = 10; scale <= 1e6; scale *= 10) {
    const [a, b] = [units * scale, divisions * scale];
    if (isWhole(a) && isWhole(b)) return Math.round(b) / gcd(Math.round(b), Math.round(Math.abs(a)));
  }
  return 0;
}

function isWhole(value: number): boolean {
  return Math.abs(value - Math.round(value)) < 1e-6;
}

function gcd(a: number, b: number): number {
  while (b !== 0) [a, b] = [b, a % b];
  return a;
}
