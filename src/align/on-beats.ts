/** Whether the other hand strikes with the beats that a take was given. */
import type { TimeMap } from "../take/index.ts";
import type { Evidence } from "./lattice/evidence.ts";

export interface OnBeat {
  /**
   * Share of the other hand's strokes that fall with a beat, 0 to 1, over the take and where it is least: one place
   * in some hundred strokes may be worse, so that a long take is not held to more than a short one.
   */
  readonly share: number;
  readonly least: number;
}

/** Beats by which a comping stroke may lie beside the beat that it falls with. */
const WITH_BEAT = 0.1;

/** Strokes of the other hand over which the least share is taken: two bars or so, in which a lost beat shows. */
const NEIGHBOURS = 8;

/** Of so many stretches one may be worse than the least. */
const STRETCHES = 100;

/** Null where no other hand plays. */
export function onBeats({ strokes, form }: Evidence, map: TimeMap): OnBeat | null {
  const on: number[] = [];
  let k = 0;
  for (let s = 0; s < strokes.count; s++) {
    if (strokes.line[s] === 1) continue;
    while (k + 2 < map.length && map[k + 1]!.seconds <= strokes.time[s]!) k++;
    const [from, to] = [map[k]!, map[k + 1]!];
    const share = (strokes.time[s]! - from.seconds) / (to.seconds - from.seconds);
    const beat = (from.position + share * (to.position - from.position)) / form.quarters;
    on.push(Math.abs(beat - Math.round(beat)) < WITH_BEAT ? 1 : 0);
  }
  if (on.length === 0) return null;
  const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
  const shares = on.slice(NEIGHBOURS - 1).map((_, i) => mean(on.slice(i, i + NEIGHBOURS)));
  const [least = 1] = shares.sort((a, b) => a - b).slice(Math.floor(shares.length / STRETCHES));
  return { share: mean(on), least: Math.min(mean(on), least) };
}

/**
 * Share of the other hand's strokes on its beats from which these need no second opinion: open solos with chords on
 * people's beats have .63 to 1 (nine in ten above .8), simulated rubato .4 to .5; and the same where it is least, since a
 * beat that was lost or added shows there: of eight strokes in a row two may lie beside the beat, and three may not.
 */
const ON_THE_BEAT = 0.85;
const LEAST = 0.7;

/** True where a hand keeps to the beats that it was given so well that nothing else need be asked. */
export function isSteady({ share, least }: OnBeat): boolean {
  return share >= ON_THE_BEAT && least >= LEAST;
}
