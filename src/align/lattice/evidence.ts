/**
 * How likely a beat of the form is, given the strokes in it: one row of factors over the beats of the form for each
 * stroke and each place in the beat. Rows depend on few things (pitch class, how the note is left, where a phrase
 * begins), so that each is worked out once.
 */
import type { Chart } from "../../chart/types.ts";
import type { Note } from "../../take/index.ts";
import { chartStretches, pitchEvidence, VOICES } from "../chart-evidence.ts";
import { type FormBeats, formBeats } from "./form-beats.ts";
import type { Strokes } from "./line-features.ts";
import { BINS, chordRow, EARLY, type LineTables, MOST, orderOf, paceOf } from "./line-model.ts";

/** Places in the beat that are told apart: on it, in its first half, in its second half. */
const PLACES = 3;
const ON_UNTIL = 0.17;
const LATE_FROM = 0.5;
/** Share of notes in the second half of a beat that already stand for the chord of the next (counted in open solos). */
const AHEAD = 0.45;
/** Notes of one stroke tell less together than one by one. */
const TEMPER = 0.6;
/** How loudly a note speaks of its chord, against its beat: notes of one line lean on each other. */
const [BASS_AT_CHANGE, BASS, COMPING] = VOICES.map((_, v) => v) as [number, number, number];

export interface Evidence {
  readonly form: FormBeats;
  readonly strokes: Strokes;
  /** Factors over the beats of the form for stroke `s` at `place` (share of the beat). */
  row(s: number, place: number): Float32Array;
  /** Log density of the strokes from `from` to `to` (not included) in a beat that begins at `start`, a nat a second. */
  rhythm(from: number, to: number, start: number, seconds: number): number;
}

export interface EvidenceWeights {
  /** Powers of chord and phrase evidence, and of the rhythm's. */
  readonly chord: number;
  readonly rhythm: number;
}

export function evidenceOf(
  notes: readonly Note[],
  strokes: Strokes,
  chart: Chart,
  tables: LineTables,
  weights: EvidenceWeights,
): Evidence {
  const form = formBeats(chart);
  const voices = pitchEvidence(chart, chartStretches(chart));
  const cache = new Map<number, Float32Array>();

  const lineRow = (pitchClass: number, leave: number, phrase: number, place: number): Float32Array => {
    const key = ((pitchClass * 3 + leave) * 4 + phrase) * PLACES + place;
    let row = cache.get(key);
    if (row === undefined) {
      row = new Float32Array(form.count);
      for (let p = 0; p < form.count; p++) {
        row[p] = Math.exp(weights.chord * lineLog(form, tables, { pitchClass, leave, phrase, place }, p));
      }
      cache.set(key, row);
    }
    return row;
  };

  const logRow = (s: number, place: number): Float32Array => {
    const row = new Float32Array(form.count);
    const members = strokes.members[s]!;
    const weight = weights.chord * members.length ** (TEMPER - 1);
    const lowest = notes[members[0]!]!.pitch;
    for (const i of members) {
      const { pitch } = notes[i]!;
      const low = pitch !== lowest ? 0 : bassShare(pitch, members.length === 1);
      for (let p = 0; p < form.count; p++) {
        const stretch = place === 2 ? form.late[p]! : form.stretch[p]!;
        const at = (voice: number, which: number) =>
          voices[(voice * form.chords.length + which) * 12 + (pitch % 12)]!;
        const change = place === 0 && form.change[p] === 1;
        let value =
          at(COMPING, stretch) + low * (at(change ? BASS_AT_CHANGE : BASS, stretch) - at(COMPING, stretch));
        if (place === 2) {
          const next = form.stretch[(p + 1) % form.count]!;
          value = Math.log(0.6 * Math.exp(value) + 0.4 * Math.exp(at(COMPING, next)));
        }
        row[p]! += weight * value;
      }
    }
    return row;
  };

  const strokeRows = new Map<number, Float32Array>();
  const row = (s: number, at: number): Float32Array => {
    const place = at < ON_UNTIL ? 0 : at < LATE_FROM ? 1 : 2;
    const members = strokes.members[s]!;
    if (strokes.line[s] === 1 && members.length === 1) {
      const phrase = strokes.first[s]! + 2 * strokes.last[s]!;
      return lineRow(notes[members[0]!]!.pitch % 12, strokes.leave[s]!, phrase, place);
    }
    const key = s * PLACES + place;
    let found = strokeRows.get(key);
    if (found === undefined) {
      if (strokes.line[s] === 1) {
        found = new Float32Array(form.count).fill(1);
        const weight = members.length ** (TEMPER - 1);
        for (const i of members) {
          const one = lineRow(notes[i]!.pitch % 12, strokes.leave[s]!, 0, place);
          for (let p = 0; p < form.count; p++) found[p]! *= one[p]! ** weight;
        }
      } else {
        found = logRow(s, place).map(Math.exp);
      }
      strokeRows.set(key, found);
    }
    return found;
  };

  return { form, strokes, row, rhythm: rhythmOf(strokes, tables, weights.rhythm) };
}

interface LineNote {
  readonly pitchClass: number;
  readonly leave: number;
  /** 1 for the first note of a phrase, 2 for the last, 3 for both. */
  readonly phrase: number;
  readonly place: number;
}

function lineLog(form: FormBeats, tables: LineTables, note: LineNote, p: number): number {
  const { pitchClass, leave, phrase, place } = note;
  const over = (stretch: number, spot: number) => {
    const chord = form.chords[stretch]!;
    if (chord === null) return 0;
    return tables.chord[
      chordRow(form.family[stretch]!, spot, leave) + ((pitchClass - chord.rootClass + 12) % 12)
    ]!;
  };
  const spot = place > 0 ? 2 : form.change[p] === 1 ? 0 : 1;
  let value = over(place === 2 ? form.late[p]! : form.stretch[p]!, spot);
  const next = form.stretch[(p + 1) % form.count]!;
  if (place === 2 && next !== form.late[p]) {
    value = Math.log((1 - AHEAD) * Math.exp(value) + AHEAD * Math.exp(over(next, 0)));
  }
  if (form.bar === 4) {
    const at = (p % 4) * 2 + (place > 0 ? 1 : 0);
    if (phrase & 1) value += tables.first[at]!;
    if (phrase & 2) value += tables.last[at]!;
  }
  return value;
}

/** How surely the lowest comping note is a bass note, 0 to 1 (see events.ts). */
function bassShare(pitch: number, alone: boolean): number {
  const [middle, width] = alone ? [54, 1.5] : [47.5, 1];
  return 1 / (1 + Math.exp((pitch - middle) / width));
}

/**
 * Comping strokes in a beat and where they fall: mostly with the beat, next in its second half [practice]. Shares of
 * none, one, two, three and more strokes in a beat, and of strokes on the beat, off it, anywhere.
 */
const COMPING_COUNTS = [0.42, 0.38, 0.15, 0.04, 0.01].map(Math.log);
const COMPING_ON = 0.62;
const COMPING_OFF = 0.23;

function rhythmOf(strokes: Strokes, tables: LineTables, weight: number): Evidence["rhythm"] {
  const withComping = strokes.line.includes(0);
  const withLine = strokes.line.includes(1);
  return (from, to, start, seconds) => {
    let n = 0;
    for (let s = from; s < to; s++) n += strokes.line[s]!;
    const comping = to - from - n;
    const { low, share } = paceOf(seconds);
    let sum = 0;
    const mix = (a: number, b: number) => a + share * (b - a);
    if (withLine) {
      const count = Math.min(MOST, n);
      sum += mix(tables.counts[low * (MOST + 1) + count]!, tables.counts[(low + 1) * (MOST + 1) + count]!);
    }
    if (withComping) sum += COMPING_COUNTS[Math.min(4, comping)]!;
    let k = 0;
    for (let s = from; s < to; s++) {
      const place = (strokes.time[s]! - start) / seconds;
      if (strokes.line[s] === 1) {
        const bin = Math.max(0, Math.min(BINS - 1, Math.floor((place + EARLY) * BINS)));
        const order = orderOf(n, k++) * BINS + bin;
        const size = BINS * 11;
        sum += mix(tables.places[low * size + order]!, tables.places[(low + 1) * size + order]!);
      } else {
        sum += compingPlace(place, seconds);
      }
    }
    return weight * (sum - (to - from) * Math.log(seconds));
  };
}

function compingPlace(place: number, seconds: number): number {
  const bell = (middle: number, spread: number) => {
    const z = (place - middle) / spread;
    return (0.4 / spread) * Math.exp(-0.5 * z * z);
  };
  const spread = 0.03 + 0.015 / seconds;
  const on = bell(0, spread);
  return Math.log(COMPING_ON * on + COMPING_OFF * bell(0.6, 0.09) + (1 - COMPING_ON - COMPING_OFF));
}
