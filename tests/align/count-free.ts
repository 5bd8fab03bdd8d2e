/** Counts two-handed performances with known beats into the tables of `src/align/free/free-tables.ts`. */
import { freeForm, ROLES, roleIn } from "../../src/align/free/free-form.ts";
import { FREE, type FreeTables, PARTS } from "../../src/align/free/free-model.ts";
import { freeStrokes, SIGNS } from "../../src/align/free/free-strokes.ts";
import { learnLogistic } from "../reports/logistic.ts";
import type { TwoHanded } from "./two-handed.ts";

/** Seconds by which a stroke may lie beside the beat that it is struck with. */
const WITH_BEAT = 0.06;
/** Seconds before a beat from which on strokes are counted as its own. */
const EARLY = 0.04;

interface Counts {
  readonly signs: number[][];
  readonly onBeat: boolean[];
  readonly beatSigns: number[][];
  readonly onBar: boolean[];
  silent: number;
  readonly parts: number[];
  readonly roles: Row;
  readonly lowRoles: Row;
  readonly changes: number[];
}

/** Keys by what they are in the chord, and how many would be so of keys drawn blindly. */
interface Row {
  readonly found: number[];
  readonly blind: number[];
}

const emptyRow = (): Row => ({
  found: new Array<number>(ROLES).fill(1),
  blind: new Array<number>(ROLES).fill(0),
});

export function freeTablesFrom(pieces: readonly TwoHanded[]): FreeTables {
  const counts: Counts = {
    signs: [],
    onBeat: [],
    beatSigns: [],
    onBar: [],
    silent: 0,
    parts: new Array<number>(PARTS).fill(3),
    roles: emptyRow(),
    lowRoles: emptyRow(),
    changes: [],
  };
  for (const piece of pieces) count(piece, counts);
  const { changes, onBeat, onBar, silent, parts } = counts;
  const odds = (truths: readonly boolean[]) => {
    const share = truths.filter(Boolean).length / truths.length;
    return Math.log(share / (1 - share));
  };
  const sum = parts.reduce((a, b) => a + b, 0);
  const beats = silent + counts.beatSigns.length;
  changes.sort((a, b) => a - b);
  // Half of what lies between the sixteenth and the eighty-fourth in a hundred: one standard deviation.
  const spread =
    (changes[Math.floor(0.84 * changes.length)]! - changes[Math.floor(0.16 * changes.length)]!) / 2;
  const against = ({ found, blind }: Row) => found.map((n, r) => Math.log(n / blind[r]!));
  return {
    beat: learnLogistic(counts.signs, onBeat),
    bar: learnLogistic(counts.beatSigns, onBar),
    beatOdds: odds(onBeat),
    barOdds: odds(onBar),
    struck: Math.log(1 - silent / beats),
    silent: Math.log(silent / beats),
    parts: parts.map((n) => Math.log((n * PARTS) / sum)),
    roles: against(counts.roles),
    lowRoles: against(counts.lowRoles),
    spread,
  };
}

function count({ take, beats, firstBar, chart }: TwoHanded, counts: Counts): void {
  const form = freeForm(chart);
  const strokes = freeStrokes(take.notes);
  const signsOf = (e: number) => Array.from(strokes.signs.subarray(e * SIGNS, (e + 1) * SIGNS));
  const with_ = new Int32Array(strokes.count).fill(-1);
  beats.forEach((seconds, k) => {
    let best = -1;
    strokes.time.forEach((at, e) => {
      const away = Math.abs(at - seconds);
      if (away < WITH_BEAT && (best < 0 || away < Math.abs(strokes.time[best]! - seconds))) best = e;
    });
    if (best < 0) counts.silent++;
    else {
      with_[best] = k;
      counts.beatSigns.push(signsOf(best));
      counts.onBar.push((((k - firstBar) % form.bar) + form.bar) % form.bar === 0);
    }
  });
  for (let e = 0; e < strokes.count; e++) {
    counts.signs.push(signsOf(e));
    counts.onBeat.push(with_[e]! >= 0);
  }
  let before = Math.log(beats[1]! - beats[0]!);
  for (let k = 0; k + 1 < beats.length; k++) {
    const length = beats[k + 1]! - beats[k]!;
    if (k > 0) counts.changes.push(Math.log(length) - before);
    before = FREE.keeps * before + (1 - FREE.keeps) * Math.log(length);
    const chord = form.chords[form.chordAt[k - firstBar] ?? -1];
    for (let e = 0; e < strokes.count; e++) {
      const at = strokes.time[e]!;
      if (at < beats[k]! - EARLY || at >= beats[k + 1]! - EARLY) continue;
      if (with_[e]! < 0) {
        const part = Math.floor(((at - beats[k]!) / length) * PARTS);
        counts.parts[Math.max(0, Math.min(PARTS - 1, part))]!++;
      }
      if (chord === undefined) continue;
      strokes.classes[e]!.forEach((pitchClass, i) => {
        const row = i === 0 ? counts.lowRoles : counts.roles;
        row.found[roleIn(chord, pitchClass)]!++;
        for (let blind = 0; blind < 12; blind++) row.blind[roleIn(chord, blind)]! += 1 / 12;
      });
    }
  }
}
