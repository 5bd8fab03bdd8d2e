/** Spelling of a whole take that has no chart: by its key signatures and by what is played. */
import { pitchNameAt } from "../pitch/index.ts";
import type { Take } from "../take/index.ts";
import { type SpellingWeights, spellTonally, type Unspelled } from "./tonal-spelling.ts";

/**
 * Names of all notes, parallel to `take.notes`, as if nothing were printed: each part is read by itself, under the
 * key signatures that the take states (none stated: no sharps or flats). Other weights than our own are for fitting.
 *
 * @example a take in E flat major: 63 -> "Eb4", and 66 rising to 67 -> "F#4"
 */
export function spellTake(take: Take, weights?: SpellingWeights): string[] {
  const parts = new Map<string, number[]>();
  take.notes.forEach((note, i) => {
    const own = parts.get(note.part);
    if (own === undefined) parts.set(note.part, [i]);
    else own.push(i);
  });
  const names: string[] = new Array(take.notes.length);
  for (const own of parts.values()) {
    const places = spellTonally(unspelled(take, own), weights);
    own.forEach((i, at) => {
      names[i] = pitchNameAt(take.notes[i]!.pitch, places[at]!);
    });
  }
  return names;
}

function unspelled(take: Take, own: readonly number[]): Unspelled[] {
  let key = 0;
  let latest = Number.NEGATIVE_INFINITY;
  return own.map((i) => {
    const note = take.notes[i]!;
    while (key + 1 < take.keys.length && take.keys[key + 1]!.tick <= note.tick) key++;
    // Grace notes may stand before the tick of a note that sounds earlier; time only goes forward.
    latest = Math.max(latest, note.tick / take.ticksPerQuarter);
    return {
      pitch: note.pitch,
      at: latest,
      signature: take.keys[key]?.fifths ?? 0,
      place: null,
    };
  });
}
