/** Reads a damaged track anew, as the events that ask for the least damage, and says what was mended. */
import type { WarningCollector } from "../warning-collector.ts";
import { leastDamage, type Step } from "./least-damage.ts";
import { warnOfMasked, warnOfStray } from "./mend-bytes.ts";
import type { TrackDamage } from "./strikes.ts";
import {
  isUsable,
  type TrackEnd,
  type TrackListener,
  tell,
  tooManyEvents,
  warnOfEnd,
  warnOfGap,
} from "./walk-track.ts";

/** Quarter notes for which a note whose end is lost is held at most: a bar of four [practice]. */
const LONGEST = 4;

export interface DamagedTrack {
  /** Offsets in the file. */
  readonly from: number;
  readonly end: number;
  /** From 1, for warnings. */
  readonly number: number;
  readonly ticksPerQuarter: number;
  /** Events that may still be read of this file. */
  readonly most: number;
}

/**
 * Tells the events of a damaged track anew; `left` counts the bytes that were left out. Null, with nothing told, when no note can be had of it or when it is too long
 * to be weighed.
 *
 * @throws Problem when there are more events than may be read.
 */
export function readDamaged(
  file: Uint8Array,
  { from, end, number, ticksPerQuarter, most }: DamagedTrack,
  listener: TrackListener & { restart(): void },
  warnings: WarningCollector,
): (TrackEnd & { readonly damage: TrackDamage; readonly left: number }) | null {
  const steps = leastDamage(file, from, end, ticksPerQuarter);
  if (steps === null || !steps.some(isNote)) return null;
  listener.restart();
  const gaps: number[] = [];
  let at = from;
  let tick = 0;
  let events = 0;
  let inGap = false;
  // What the end cuts off is told as the end.
  const cut = steps.findLastIndex(({ kind }) => kind !== "byte") + 1;
  for (const step of steps.slice(0, cut)) {
    if (step.kind === "byte") {
      const realTime = step.status >= 0xf8 && step.status < 0xff;
      if (realTime) warnOfStray(number, at, warnings);
      else if (!inGap) {
        warnOfGap(number, at, warnings);
        gaps.push(tick);
      }
      inGap = !realTime;
      at = step.to;
      continue;
    }
    inGap = false;
    if (++events > most) throw tooManyEvents();
    tick += step.delta;
    if (step.kind === "system" && step.status !== 0xf0 && step.status !== 0xf7) {
      warnOfStray(number, at, warnings);
    }
    if (step.masked > 0) warnOfMasked(number, at, step.masked, warnings);
    if (step.stray > 0) warnOfStray(number, at, warnings);
    if (step.kind === "channel" && step.masked < 2) {
      tell(listener, tick, step.status, step.first, step.second);
    }
    if (
      step.kind === "meta" &&
      isUsable(step.status, step.to - step.from, `track ${number}, byte ${at}`, warnings)
    ) {
      listener.meta(tick, step.status, step.from, step.to);
    }
    at = step.to;
  }
  const left = steps.filter(({ kind }) => kind === "byte").length;
  const last = steps.at(-1)!;
  warnOfEnd(cut < steps.length ? "an event" : "", last.kind !== "end", { number, whole: at }, warnings);
  return {
    endOfTrack: last.kind === "end" ? last.to : null,
    tick,
    events,
    sound: false,
    left,
    damage: { gaps, longest: LONGEST * ticksPerQuarter },
  };
}

function isNote({ kind, status, masked }: Step): boolean {
  return kind === "channel" && masked < 2 && status >> 4 === 0x9;
}
