/** Counts open solos into the tables of `src/align/lattice/line-tables.ts`. */
import { formBeats } from "../../src/align/lattice/form-beats.ts";
import { strokesOf } from "../../src/align/lattice/line-features.ts";
import {
  type CountedBeat,
  type CountedNote,
  type CountedSolo,
  countTables,
  EARLY,
  type LineTables,
} from "../../src/align/lattice/line-model.ts";
import { type HumanSolo, takeOf } from "./human-solos.ts";

export function tablesFrom(solos: readonly HumanSolo[]): LineTables {
  return countTables(solos.map(countSolo));
}

function countSolo(solo: HumanSolo): CountedSolo {
  const form = formBeats(solo.chart);
  const take = takeOf(
    solo.notes.map((note) => ({ ...note, tick: 0, part: "t1" })),
    {},
  );
  const strokes = strokesOf(
    take.notes,
    take.notes.map(() => ({ hand: "right", solo: true, margin: 1 })),
  );
  const inBeat = new Map<number, number[]>();
  const notes: CountedNote[] = [];
  solo.notes.forEach((note, i) => {
    const beat = Math.floor(note.place + EARLY);
    const place = note.place - beat;
    inBeat.set(beat, [...(inBeat.get(beat) ?? []), place]);
    const p = ((beat % form.count) + form.count) % form.count;
    const off = place > 0.17;
    const stretch = place >= 0.5 ? form.late[p]! : form.stretch[p]!;
    const chord = form.chords[stretch]!;
    const stroke = strokes.members.findIndex((members) => members.includes(i));
    notes.push({
      family: form.family[stretch]!,
      spot: off ? 2 : form.change[p] === 1 ? 0 : 1,
      leave: strokes.leave[stroke]!,
      interval: chord === null ? 0 : (note.pitch - chord.rootClass + 120) % 12,
      beat: form.bar === 4 ? p % 4 : -1,
      off,
      first: strokes.first[stroke] === 1,
      last: strokes.last[stroke] === 1,
    });
  });
  const beats: CountedBeat[] = [];
  const [from, to] = [solo.notes[0]!.place, solo.notes.at(-1)!.place];
  solo.beats.forEach(({ seconds, place }, k) => {
    const next = solo.beats[k + 1];
    if (next === undefined || place < from - 1 || place > to) return;
    beats.push({ seconds: next.seconds - seconds, places: inBeat.get(place) ?? [] });
  });
  const bars = solo.chart.bars.length;
  const last = Math.floor((to + EARLY) / form.bar) + 1;
  const left = last - Math.round(last / bars) * bars;
  return { beats, notes, begin: Math.floor((from + EARLY) / form.bar), end: left };
}
