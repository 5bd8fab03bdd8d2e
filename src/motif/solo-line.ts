import type { Degree } from "../chart/index.ts";
import { type Finger, type LineNote, melodicLine, type PlacedNote } from "../take/index.ts";

/** A solo note as motifs are sought in it. */
export type MotifNote = PlacedNote & {
  readonly degree: Degree | null;
  readonly finger: Finger | null;
  /** Id of its phrase, or null when phrases are not known. */
  readonly phrase: string | null;
};

/** The lines of one or more takes laid end to end. A place is an index into `steps`. */
export interface SoloLine {
  readonly steps: readonly LineNote<MotifNote>[];
  /** The note that tells each step, the highest of those struck together. */
  readonly heads: readonly MotifNote[];
  /** The notes themselves, for those that were struck together. */
  readonly notes: readonly MotifNote[];
  /** 1 where no idea goes on from this place to the next: a breath, or the end of a take. */
  readonly breath: Uint8Array;
  /** First place of each take, and after them the number of steps. */
  readonly takes: readonly number[];
}

/** A silence that ends an idea: between phrases, and anywhere. Quarter-note beats, and seconds in rubato. [practice] */
const BREATH = { atPhrase: 0.9, anywhere: 4, secondsAtPhrase: 0.4, secondsAnywhere: 2 };

/** @param takes notes of each take in time order, solo notes only */
export function soloLine(takes: readonly (readonly MotifNote[])[]): SoloLine {
  const steps: LineNote<MotifNote>[] = [];
  const notes: MotifNote[] = [];
  const starts: number[] = [];
  for (const take of takes) {
    starts.push(steps.length);
    const offset = notes.length;
    for (const step of melodicLine(take)) {
      steps.push(offset === 0 ? step : { ...step, first: step.first + offset, last: step.last + offset });
    }
    for (const note of take) notes.push(note);
  }
  starts.push(steps.length);
  const breath = new Uint8Array(steps.length);
  for (let i = 0; i + 1 < steps.length; i++) breath[i] = isBreath(steps[i]!, steps[i + 1]!) ? 1 : 0;
  for (const start of starts) if (start > 0) breath[start - 1] = 1;
  return { steps, heads: steps.map((step) => step.note), notes, breath, takes: starts };
}

function isBreath(a: LineNote<MotifNote>, b: LineNote<MotifNote>): boolean {
  const newPhrase = a.note.phrase !== b.note.phrase;
  const silence = b.onset - a.end;
  if (a.note.position === null || b.note.position === null || a.note.beats === null) {
    return silence >= (newPhrase ? BREATH.secondsAtPhrase : BREATH.secondsAnywhere);
  }
  const beats = b.note.position - a.note.position - a.note.beats;
  return beats >= (newPhrase ? BREATH.atPhrase : BREATH.anywhere);
}
