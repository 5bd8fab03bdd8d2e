import type { Account } from "../../facts.ts";

/** A place at which pinned bars leave the form under a beat that goes on. */
export interface PinnedSlip {
  /** The first bar after it. */
  readonly chorus: number;
  readonly bar: number;
  /** Beats of the meter that are left out (positive) or too many there, as measured: near a whole number. */
  readonly beats: number;
}

/** Share by which the tempo before and after may differ: more is no beat that goes on. [practice] */
const SAME_TEMPO = 0.06;
/** Beats by which what is missing may lie beside a whole number: pins stand where bars were heard. [practice] */
const NEAR = 0.25;
/** Bars that two pins may stand apart for one to say where it happened. [practice] */
const APART = 3;

/**
 * Where pins say that a player left the form: between two that stand near each other the beat, which is the same before
 * and after, counts other beats than the chart does.
 *
 * @param least beats that must be missing or too many
 */
export function pinnedSlips({ alignment, chart }: Account, least: number): PinnedSlip[] {
  const size = chart.meter.beats;
  const pins = [...alignment.anchors]
    .sort((a, b) => a.seconds - b.seconds)
    .map((pin) => ({
      ...pin,
      place: ((pin.chorus - 1) * chart.bars.length + pin.bar - 1) * size + pin.beat - 1,
    }));
  const paceAt = (k: number) =>
    (pins[k + 1]!.place - pins[k]!.place) / (pins[k + 1]!.seconds - pins[k]!.seconds);
  const slips: PinnedSlip[] = [];
  for (let k = 1; k + 2 < pins.length; k++) {
    const [before, after] = [paceAt(k - 1), paceAt(k + 1)];
    if (!(before > 0 && Math.max(before / after, after / before) < 1 + SAME_TEMPO)) continue;
    const counted = ((pins[k + 1]!.seconds - pins[k]!.seconds) * (before + after)) / 2;
    const beats = pins[k + 1]!.place - pins[k]!.place - counted;
    if (counted > APART * size || Math.abs(beats) < least || Math.abs(beats - Math.round(beats)) > NEAR)
      continue;
    slips.push({ chorus: pins[k + 1]!.chorus, bar: pins[k + 1]!.bar, beats });
  }
  return slips;
}
