/** Counts open solos into the tables of `src/align/lattice/line-tables.ts`. */
import { formBeats } from "../../src/align/lattice/form-beats.ts";
import { strokesOf } from "../../src/align/lattice/line-features.ts";
import {
  type CountedBeat,
  type CountedNote,
  type CountedSolo,
  comeRow,
  countTables,
  EARLY,
  heldRow,
  type LineTables,
  PERIOD,
  SECOND_HALF,
  withinRow,
} from "../../src/align/lattice/line-model.ts";
import { mod, mod12 } from "../../src/pitch/index.ts";
import { type HumanSolo, readSolos, takeOf } from "./human-solos.ts";

export function tablesFrom(solos: readonly HumanSolo[]): LineTables {
  return countTables(solos.map(countSolo));
}

let counted: { readonly kin: number; readonly solo: CountedSolo }[] | null = null;
const ofOthers = new Map<number, LineTables>();

/**
 * Tables of all solos by players of other instruments. Those in use were counted in all of them: what is promised of
 * solos that nobody has seen is what these say of a solo.
 */
export function tablesOfOthers({ kin }: Pick<HumanSolo, "kin">): LineTables {
  counted ??= readSolos("all").map((solo) => ({ kin: solo.kin, solo: countSolo(solo) }));
  const found =
    ofOthers.get(kin) ?? countTables(counted.filter((one) => one.kin !== kin).map(({ solo }) => solo));
  ofOthers.set(kin, found);
  return found;
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
    const half = place < SECOND_HALF ? 0 : 1;
    const at = 2 * mod(beat, form.count) + half;
    const which = form.chord[at]!;
    const chord = form.chords[which]!;
    const stroke = strokes.members.findIndex((members) => members.includes(i));
    const length = 60 / solo.tempo;
    notes.push({
      family: form.family[which]!,
      spot: half === 1 ? 2 : form.change[at] === 1 ? 0 : 1,
      leave: strokes.leave[stroke]!,
      interval: chord === null ? 0 : mod12(note.pitch - chord.rootClass),
      beat: form.bar === 4 ? mod(mod(beat, form.count), PERIOD) : -1,
      come: comeRow(strokes.come[stroke]!, place),
      held: heldRow(strokes.held[stroke]! / length, place),
      within: withinRow(strokes.begun[stroke]!, strokes.left[stroke]!, place),
    });
  });
  const beats: CountedBeat[] = [];
  const [from, to] = [solo.notes[0]!.place, solo.notes.at(-1)!.place];
  solo.beats.forEach(({ seconds, place }, k) => {
    const next = solo.beats[k + 1];
    if (next === undefined || place < from - 1 || place > to) return;
    beats.push({ seconds: next.seconds - seconds, places: inBeat.get(place) ?? [] });
  });
  const last = Math.floor(to + EARLY) + 1;
  const left = last - Math.round(last / form.count) * form.count;
  const begin = Math.floor(from + EARLY);
  return { beats, notes, begin, end: left, choruses: (last - begin) / form.count };
}
