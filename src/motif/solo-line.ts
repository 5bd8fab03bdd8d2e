import type { Degree } from "../chart/index.ts";
import { type Finger, type LineColumns, lineColumns, type PlacedNote } from "../take/index.ts";

/** A solo note as motifs are sought in it. */
export type MotifNote = PlacedNote & {
  readonly degree: Degree | null;
  readonly finger: Finger | null;
  /** Id of its phrase, or null when phrases are not known. */
  readonly phrase: string | null;
};

/** The lines of one or more takes laid end to end. A place is an index into `heads`. */
export interface SoloLine {
  /** The note that tells each step, the highest of those struck together. */
  readonly heads: readonly MotifNote[];
  /** Index of the first and of the last note of each step in `notes`. */
  readonly first: Int32Array;
  readonly last: Int32Array;
  readonly notes: readonly MotifNote[];
  /** 1 where no idea goes on from this place to the next: a breath, or the end of a take. */
  readonly breath: Uint8Array;
  /** First place of each take, and after them the number of places. */
  readonly takes: readonly number[];
}

/** A silence that ends an idea: between phrases, and anywhere. Quarter-note beats, and seconds in rubato. [practice] */
const BREATH = { atPhrase: 0.9, anywhere: 4, secondsAtPhrase: 0.4, secondsAnywhere: 2 };

/** @param takes notes of each take in time order, solo notes only */
export function soloLine(takes: readonly (readonly MotifNote[])[]): SoloLine {
  const size = takes.reduce((sum, take) => sum + take.length, 0);
  const heads: MotifNote[] = [];
  const first = new Int32Array(size);
  const last = new Int32Array(size);
  const breath = new Uint8Array(size);
  const starts = [0];
  let offset = 0;
  for (const take of takes) {
    const line = lineColumns(take);
    const start = heads.length;
    for (let i = 0; i < line.highest.length; i++) {
      const head = take[line.highest[i]!]!;
      if (i > 0)
        breath[start + i - 1] = isBreath(heads[start + i - 1]!, head, silence(take, line, i)) ? 1 : 0;
      first[start + i] = offset + line.first[i]!;
      last[start + i] = offset + line.last[i]!;
      heads.push(head);
    }
    if (heads.length > start) breath[heads.length - 1] = 1;
    starts.push(heads.length);
    offset += take.length;
  }
  return { heads, first, last, notes: takes.length === 1 ? takes[0]! : takes.flat(), breath, takes: starts };
}

/** Seconds between the release of the step before and this one. */
function silence(take: readonly MotifNote[], line: LineColumns, i: number): number {
  return take[line.first[i]!]!.onset - line.end[i - 1]!;
}

function isBreath(a: MotifNote, b: MotifNote, seconds: number): boolean {
  const newPhrase = a.phrase !== b.phrase;
  if (a.position === null || b.position === null || a.beats === null) {
    return seconds >= (newPhrase ? BREATH.secondsAtPhrase : BREATH.secondsAnywhere);
  }
  return b.position - a.position - a.beats >= (newPhrase ? BREATH.atPhrase : BREATH.anywhere);
}
