/** What pinned moments say of the states of a beat. */
import { mod } from "../../pitch/index.ts";
import type { FormBeats } from "./form-beats.ts";
import type { LatticePin } from "./lattice-types.ts";

/** Beats by which a pin may lie beside its place: a hand that pins is no more exact. */
const PINNED = 0.1;

/**
 * Beats by which a take may be off a straight line between two pins: this many, with this share of the beats to the
 * nearer one, and at most this share of the form; readings outside count for so much less a beat.
 */
const NEAR = 3;
const WANDERING = 0.08;
const BAND = 0.45;
const OUTSIDE = 0.01;

export class PinWeights {
  private readonly pins: readonly LatticePin[];
  private readonly form: FormBeats;

  constructor(pins: readonly LatticePin[], form: FormBeats) {
    this.pins = pins;
    this.form = form;
  }

  /** Multiplies into the values of states `from` to `to` what the pins say of them, in a beat of `seconds` from `at`. */
  weigh(at: number, seconds: number, from: number, to: number, into: Float64Array): void {
    const { count, lead } = this.form;
    for (const pin of this.pins) {
      if (pin.seconds < at || pin.seconds >= at + seconds) continue;
      const place = (pin.seconds - at) / seconds;
      for (let p = from; p < to; p++) {
        const beat = pin.beat - place - (p - lead);
        const away = p < lead ? beat : mod(beat + count / 2, count) - count / 2;
        into[p]! *= Math.exp(-Math.min(30, 0.5 * (away / PINNED) ** 2));
      }
    }
    if (this.pins.length > 1) this.keepTo(at, from, to, into);
  }

  /** Between pins the number of beats is known, so that no chorus is lost or added on the way. */
  private keepTo(seconds: number, first: number, end: number, into: Float64Array): void {
    const { pins } = this;
    const { count, lead } = this.form;
    let k = 1;
    while (k + 1 < pins.length && pins[k]!.seconds < seconds) k++;
    const [from, to] = [pins[k - 1]!, pins[k]!];
    const pace = (to.beat - from.beat) / (to.seconds - from.seconds);
    const expected = from.beat + (seconds - from.seconds) * pace;
    const away = pace * Math.min(Math.abs(seconds - from.seconds), Math.abs(to.seconds - seconds));
    const band = Math.min(BAND * count, NEAR + WANDERING * away);
    for (let p = Math.max(lead, first); p < end; p++) {
      const off = mod(expected - (p - lead) + count / 2, count) - count / 2;
      if (Math.abs(off) > band) into[p]! *= OUTSIDE;
    }
  }
}
