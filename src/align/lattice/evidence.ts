/**
 * How likely a beat of the form is, given the strokes in it: one row of factors over the beats of the form for each
 * stroke and each place in the beat. Rows depend on few things (pitch class, how the note is left, how far
 * its phrase is), so that each is worked out once.
 */
import type { Chart } from "../../chart/types.ts";
import { mod, mod12 } from "../../pitch/index.ts";
import type { Note } from "../../take/index.ts";
import { chartStretches, pitchEvidence, VOICES } from "../chart-evidence.ts";
import { BeatRows, ELSEWHERE } from "./beat-rows.ts";
import { type FormBeats, formBeats } from "./form-beats.ts";
import type { Strokes } from "./line-features.ts";
import { chordRow, type LineTables, PERIOD, SECOND_HALF } from "./line-model.ts";
import { Room } from "./room.ts";
import { type RhythmWeights, type StrokeRhythm, strokeRhythm } from "./stroke-rhythm.ts";

/** Shares by which a note near a change stands for the chord to come, and for the one before (counted in open solos). */
const NEXT = 0.2;
const PREVIOUS = 0.11;
/** Share of comping strokes just before a change that are the next chord struck early. */
const PUSHED = 0.4;
/** Share of an introduction that is played over the chords before the form begins again; the rest over anything. */
const LED_IN = 0.5;
/** Notes of one stroke tell less together than one by one. */
const TEMPER = 0.6;
/**
 * Notes of a line after which what it does on the beats of the bar tells no more: a player's own habits are not those of
 * all players, and over a long take they would outweigh what its file states. Counted solos have about 380.
 */
const HEARD = 500;
const [BASS_AT_CHANGE, BASS, COMPING] = VOICES.map((_, v) => v) as [number, number, number];

export interface Evidence {
  readonly form: FormBeats;
  readonly strokes: Strokes;
  /** Of lines: what it was looked up in. */
  readonly tables: LineTables;
  /** Multiplies into the first `count` values what strokes `from` to `to` say of those states, in a beat from `start`. */
  weigh(
    from: number,
    to: number,
    start: number,
    seconds: number,
    states: Int32Array,
    count: number,
    into: Float64Array,
  ): void;
  /** The same for all states, where beats are asked for in a row and each begins with nothing said. */
  readonly beats: BeatRows;
  /** What its lattices work in, one after another. */
  readonly room: Room;
  readonly rhythm: StrokeRhythm;
  /** The same where only the moments of beats are sought, not the place in the form. */
  readonly moments: StrokeRhythm;
}

/** Powers to which evidence is taken: neighbouring notes lean on each other. Fitted on the counted half. */
export interface EvidenceWeights {
  /** Of a note's place in its chord, by how it is left: by step, by leap, before a rest. */
  readonly chord: readonly [number, number, number];
  /** Of the tables of these names. */
  readonly come: number;
  readonly held: number;
  readonly within: number;
  readonly rhythm: number;
  /** Of what the comping hand strikes, and of when it does. */
  readonly comping: number;
  readonly struck: number;
  /** Of the rhythm of both where only the moments of beats are sought, not the place in the form. */
  readonly moments: RhythmWeights;
}

export function evidenceOf(
  notes: readonly Note[],
  strokes: Strokes,
  chart: Chart,
  tables: LineTables,
  weights: EvidenceWeights,
): Evidence {
  const form = formBeats(chart);
  const rows = new ChordRows(notes, strokes, form, chart, tables, weights);
  const heard = Math.min(1, HEARD / strokes.line.reduce((sum, one) => sum + one, 1));
  const beats = new BeatRows(strokes, form, (s, half) => rows.row(s, half), {
    come: powersOf(tables.come, heard * weights.come),
    held: powersOf(tables.held, heard * weights.held),
    within: powersOf(tables.within, heard * weights.within),
  });
  const metre = new Float64Array(PERIOD);
  // Looked up once: a name of another module is looked up anew by every turn of a loop.
  const [period, second] = [PERIOD, SECOND_HALF];
  const line = new Float64Array(form.states);
  const weigh: Evidence["weigh"] = (from, to, start, seconds, states, count, into) => {
    line.fill(1, 0, count);
    for (let s = from; s < to; s++) {
      const place = (strokes.time[s]! - start) / seconds;
      const row = rows.row(s, place < second ? 0 : 1);
      const factors = strokes.line[s] === 1 ? line : into;
      for (let i = 0; i < count; i++) factors[i]! *= row[states[i]!]!;
    }
    for (let i = 0; i < count; i++) into[i]! *= (1 - ELSEWHERE) * line[i]! + ELSEWHERE;
    if (!beats.metre(from, to, start, seconds, metre)) return;
    // The lead is as long as whole periods, so that the form begins one.
    for (let i = 0; i < count; i++) into[i]! *= metre[states[i]! % period]!;
  };
  return {
    form,
    strokes,
    tables,
    weigh,
    beats,
    room: new Room(),
    rhythm: strokeRhythm(strokes, tables, weights),
    moments: strokeRhythm(strokes, tables, weights.moments),
  };
}

function powersOf(logs: readonly number[], weight: number): Float64Array {
  return Float64Array.from(logs, (log) => Math.exp(weight * log));
}

/** What the pitches of each stroke say of each state, in either half of a beat. */
class ChordRows {
  readonly notes: readonly Note[];
  readonly strokes: Strokes;
  readonly form: FormBeats;
  readonly tables: LineTables;
  readonly weights: EvidenceWeights;
  readonly voices: Float64Array;
  readonly ofNotes: (Float32Array | undefined)[] = [];
  readonly ofStrokes: (Float32Array | undefined)[] = [];
  readonly ofChords = new Map<string, Float32Array>();

  constructor(
    notes: readonly Note[],
    strokes: Strokes,
    form: FormBeats,
    chart: Chart,
    tables: LineTables,
    weights: EvidenceWeights,
  ) {
    this.notes = notes;
    this.strokes = strokes;
    this.form = form;
    this.tables = tables;
    this.weights = weights;
    this.voices = pitchEvidence(chart, chartStretches(chart));
  }

  row(s: number, half: number): Float32Array {
    const members = this.strokes.members[s]!;
    const leave = this.strokes.leave[s]!;
    const line = this.strokes.line[s] === 1;
    if (line && members.length === 1) return this.noteRow(this.notes[members[0]!]!.pitch % 12, leave, half);
    const key = 2 * s + half;
    let found = this.ofStrokes[key];
    if (found === undefined) {
      found = line ? this.doubleRow(members, leave, half) : this.compingOnce(members, half);
      this.ofStrokes[key] = found;
    }
    return found;
  }

  private noteRow(pitchClass: number, leave: number, half: number): Float32Array {
    const key = (pitchClass * 3 + leave) * 2 + half;
    let row = this.ofNotes[key];
    if (row === undefined) {
      const { form } = this;
      row = this.withLead(this.weights.chord[leave]!, (p) => {
        const q = 2 * p + half;
        const spot = half === 1 ? 2 : form.change[q] === 1 ? 0 : 1;
        const [next, previous] = [form.next[q]!, form.previous[q]!];
        const [ahead, behind] = [next < 0 ? 0 : NEXT, previous < 0 ? 0 : PREVIOUS];
        return (
          (1 - ahead - behind) * this.share(form.chord[q]!, spot, leave, pitchClass) +
          ahead * this.share(next, spot, leave, pitchClass) +
          behind * this.share(previous, spot, leave, pitchClass)
        );
      });
      this.ofNotes[key] = row;
    }
    return row;
  }

  /** How much likelier a pitch class of the line is over a chord than anywhere. */
  private share(which: number, spot: number, leave: number, pitchClass: number): number {
    const chord = which < 0 ? null : this.form.chords[which]!;
    if (chord === null) return 1;
    const row = chordRow(this.form.family[which]!, spot, leave);
    return Math.exp(this.tables.chord[row + mod12(pitchClass - chord.rootClass)]!);
  }

  /** A row over all states from the share of each beat of the form. */
  private withLead(weight: number, shareOf: (p: number) => number): Float32Array {
    const { count, lead, states } = this.form;
    const row = new Float32Array(states);
    for (let p = 0; p < count; p++) row[lead + p] = shareOf(p);
    for (let p = 0; p < lead; p++) row[p] = LED_IN * row[lead + mod(p - lead, count)]! + 1 - LED_IN;
    return row.map((share) => share ** weight);
  }

  /** Notes of the line struck together. */
  private doubleRow(members: readonly number[], leave: number, half: number): Float32Array {
    const row = new Float32Array(this.form.states).fill(1);
    const weight = members.length ** (TEMPER - 1);
    for (const i of members) {
      const one = this.noteRow(this.notes[i]!.pitch % 12, leave, half);
      for (let p = 0; p < row.length; p++) row[p]! *= one[p]! ** weight;
    }
    return row;
  }

  /** A comping hand strikes the same few chords again and again. */
  private compingOnce(members: readonly number[], half: number): Float32Array {
    const key = `${half} ${members.map((i) => this.notes[i]!.pitch).join(" ")}`;
    let row = this.ofChords.get(key);
    if (row === undefined) {
      row = this.compingRow(members, half);
      this.ofChords.set(key, row);
    }
    return row;
  }

  private compingRow(members: readonly number[], half: number): Float32Array {
    const { form, notes, voices } = this;
    const weight = this.weights.comping * members.length ** (TEMPER - 1);
    const lowest = notes[members[0]!]!.pitch;
    return this.withLead(weight, (p) => {
      const q = 2 * p + half;
      const following = (q + 1) % (2 * form.count);
      let sum = 0;
      for (const i of members) {
        const { pitch } = notes[i]!;
        const low = pitch !== lowest ? 0 : bassShare(pitch, members.length === 1);
        const at = (voice: number, which: number) =>
          voices[(voice * form.chords.length + which) * 12 + (pitch % 12)]!;
        const chord = form.chord[q]!;
        const bass = half === 0 && form.change[q] === 1 ? BASS_AT_CHANGE : BASS;
        const value = at(COMPING, chord) + low * (at(bass, chord) - at(COMPING, chord));
        sum +=
          half === 1 && form.change[following] === 1
            ? Math.log(
                (1 - PUSHED) * Math.exp(value) + PUSHED * Math.exp(at(COMPING, form.chord[following]!)),
              )
            : value;
      }
      return Math.exp(sum);
    });
  }
}

/** How surely the lowest comping note is a bass note, 0 to 1 (see events.ts). */
function bassShare(pitch: number, alone: boolean): number {
  const [middle, width] = alone ? [54, 1.5] : [47.5, 1];
  return 1 / (1 + Math.exp((pitch - middle) / width));
}
