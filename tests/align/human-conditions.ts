/** Conditions under which an improvised solo is laid, and how well the laying meets the truth. */
import { type Alignment, align, keyMargin, placeNotes } from "../../src/align/index.ts";
import type { LineTables } from "../../src/align/lattice/line-model.ts";
import type { Anchor } from "../../src/align/types.ts";
import { type Chart, chordSpans } from "../../src/chart/index.ts";
import { type ChartFit, weighChart, withChartDoubt } from "../../src/harmony/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { findPhrases } from "../../src/rhythm/index.ts";
import { type PlacedNote, secondsAt, type Take } from "../../src/take/index.ts";
import { scoreBeats } from "./beat-score.ts";
import { tablesOfOthers } from "./count-solos.ts";
import { type Condition, type HumanSolo, type PlayedNote, takeOf } from "./human-solos.ts";

export interface HumanScore {
  readonly id: string;
  readonly notes: number;
  /** Notes of the solo in the right chorus and bar (.3 beat of grace at a bar line), on the right beat (within half a beat). */
  readonly inBar: number;
  readonly onBeat: number;
  readonly beatsF: number;
  /** Found tempo over the true one. */
  readonly tempoRatio: number | null;
  readonly refused: boolean;
  readonly confidence: number;
  readonly bars: readonly { readonly confidence: number; readonly right: boolean }[];
  /** Bars said to be left out or put in: there are none. */
  readonly irregular: number;
  /** The most frequent distance from the truth, in half beats. */
  readonly offset: number;
}

export interface Prepared {
  readonly take: Take;
  readonly tempo: number | null;
  readonly anchors: readonly Anchor[];
  /** Seconds of a true place in beats. */
  readonly secondsOf: (place: number) => number;
  /** True place of each note of the solo by its onset and pitch. */
  readonly placeOf: ReadonlyMap<string, number>;
}

/** A number from 0 to 1 that belongs to a text. */
export function chanceOf(text: string): number {
  let hash = 0x811c9dc5;
  for (const letter of text) hash = Math.imul(hash ^ letter.charCodeAt(0), 0x01000193) >>> 0;
  return (hash >>> 8) / 2 ** 24;
}

/** The same, with a normal spread of one (Box & Muller 1958). */
function unrestOf(text: string): number {
  return Math.sqrt(-2 * Math.log(1 - chanceOf(`${text}a`))) * Math.cos(2 * Math.PI * chanceOf(`${text}b`));
}

/** A solo as it is recorded under a condition, with what is told of it. */
export function prepare(solo: HumanSolo, condition: Condition): Prepared {
  const human = (place: number) => {
    const { beats } = solo;
    let k = 0;
    while (k + 2 < beats.length && beats[k + 1]!.place <= place) k++;
    const [a, b] = [beats[k]!, beats[k + 1]!];
    return a.seconds + ((place - a.place) / (b.place - a.place)) * (b.seconds - a.seconds);
  };
  const clicked = condition === "click, beat 1 stated" || condition === "click alone";
  const [first, last] = [solo.beats[0]!, solo.beats.at(-1)!];
  const mean = (60 * (last.place - first.place)) / (last.seconds - first.seconds);
  // The count-in: a bar whose first beat is the file's first tick, or so much less of it that no bar line is right.
  const countIn =
    -Math.floor(solo.notes[0]!.place / solo.beatsInBar) * solo.beatsInBar +
    solo.beatsInBar -
    (condition === "click alone" ? 1 + Math.floor(chanceOf(solo.id) * (solo.beatsInBar - 1)) : 0);
  const secondsOf = clicked ? (place: number) => ((place + countIn) * 60) / mean : human;
  const notes: PlayedNote[] = solo.notes.map((note) => {
    const onset = secondsOf(note.place);
    const end = clicked ? onset + (note.duration * solo.tempo) / mean : note.onset + note.duration;
    return {
      onset,
      duration: end - onset,
      pitch: note.pitch,
      tick: Math.round((note.place + countIn) * 480),
      part: "t1",
    };
  });
  const placeOf = new Map(notes.map((note, i) => [`${note.onset} ${note.pitch}`, solo.notes[i]!.place]));
  if (condition === "comping") notes.push(...compingHand(solo, human));
  const taps = condition === "three taps" ? tapsOf(solo, human) : [];
  return {
    take: takeOf(notes, {
      stated: clicked,
      meterStated: condition === "click, beat 1 stated",
      meter: { beats: solo.chart.meter.beats, unit: solo.chart.meter.unit },
      ...(clicked ? { tempos: [{ tick: 0, seconds: 0, quartersPerMinute: mean }] } : {}),
    }),
    tempo: condition === "tempo told" ? solo.tempo : null,
    anchors: taps,
    secondsOf,
    placeOf,
  };
}

/** Root, third and seventh below middle C where a chord begins and on each bar line, 12 ms of spread. */
export function compingHand(solo: HumanSolo, secondsOf: (place: number) => number): PlayedNote[] {
  const { chart, beatsInBar } = solo;
  const [from, to] = [solo.beats[0]!.place, solo.notes.at(-1)!.place];
  const played: PlayedNote[] = [];
  for (let bar = Math.ceil(from / beatsInBar); bar * beatsInBar <= to; bar++) {
    const inForm = ((bar % chart.bars.length) + chart.bars.length) % chart.bars.length;
    for (const { chord, beat, beats } of chart.bars[inForm]!.chords) {
      if (chord === null) continue;
      const place = bar * beatsInBar + beat - 1;
      const tones = chord.tones.filter(
        ({ role }) => role === "root" || role === "third" || role === "seventh",
      );
      tones.forEach(({ semitones }, k) => {
        const onset = secondsOf(place) + 0.012 * unrestOf(`${solo.id} ${place} ${k}`);
        const pitch = 36 + ((chord.rootClass + 12) % 12) + semitones + (k > 0 ? 12 : 0);
        const duration = 0.9 * (secondsOf(place + beats) - secondsOf(place));
        played.push({
          onset: Math.max(0, onset),
          duration: Math.max(0.05, duration),
          pitch,
          tick: 0,
          part: "t2",
        });
      });
    }
  }
  return played;
}

/** Three bar lines with their numbers, a sixth, half and five sixths through, 20 ms of spread. */
function tapsOf(solo: HumanSolo, secondsOf: (place: number) => number): Anchor[] {
  const bars = solo.chart.bars.length;
  const from = Math.max(0, Math.ceil(solo.notes[0]!.place / solo.beatsInBar));
  const to = Math.floor(solo.notes.at(-1)!.place / solo.beatsInBar);
  // A solo of two bars has two bar lines to tap.
  const tapped = new Set([1 / 6, 1 / 2, 5 / 6].map((share) => Math.round(from + share * (to - from))));
  return [...tapped].map((bar) => {
    const seconds = secondsOf(bar * solo.beatsInBar) + 0.02 * unrestOf(`${solo.id} ${bar}`);
    return { seconds, chorus: Math.floor(bar / bars) + 1, bar: (bar % bars) + 1, beat: 1 };
  });
}

/** Lays a solo under a condition as the program does, by tables of other players, and holds it against the truth. */
export function layHuman(
  solo: HumanSolo,
  condition: Condition,
  method: "auto" | "notated" = "auto",
): HumanScore {
  const { take, tempo, anchors, secondsOf, placeOf } = prepare(solo, condition);
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  const lines = tablesOfOthers(solo);
  const laid = align(take, solo.chart, hands, { method, tempo, anchors, lines });
  const placed = placeNotes(take, solo.chart, chordSpans(solo.chart), hands, laid);
  const fit = fitOf(placed, solo.chart, laid, lines);
  const alignment = withChartDoubt(laid, fit, false);
  const bars = solo.chart.bars.length;
  const size = solo.beatsInBar;
  const offsets = new Map<number, number>();
  let [notes, inBar, onBeat] = [0, 0, 0];
  for (const note of placed) {
    const truth = placeOf.get(`${note.onset} ${note.pitch}`);
    if (truth === undefined) continue;
    notes++;
    const bar = (note.chorus - 1) * bars + note.bar - 1;
    if (bar === Math.floor((truth - 0.3) / size) || bar === Math.floor((truth + 0.3) / size)) inBar++;
    if (note.position === null) continue;
    const away = note.position - truth;
    if (Math.abs(away) <= 0.5) onBeat++;
    const half = Math.round(away * 2) / 2;
    offsets.set(half, (offsets.get(half) ?? 0) + 1);
  }
  const [first, last] = [take.notes[0]!.onset - 0.1, take.notes.at(-1)!.onset + 0.1];
  const inside = (t: number) => t >= first && t <= last;
  const refused = alignment.method === "rubato";
  const trueBeats = solo.beats.map(({ place }) => secondsOf(place)).filter(inside);
  const found = refused ? [] : beatsOf(alignment, last).filter(inside);
  return {
    id: solo.id,
    notes,
    inBar: inBar / notes,
    onBeat: onBeat / notes,
    beatsF: scoreBeats(trueBeats, found).f,
    tempoRatio: alignment.tempo === null ? null : alignment.tempo.median / solo.tempo,
    refused,
    confidence: alignment.confidence,
    bars: alignment.bars.map((bar) => {
      const place = ((bar.chorus - 1) * bars + bar.bar - 1) * size;
      const beat = 60 / solo.tempo;
      return { confidence: bar.confidence, right: Math.abs(bar.start - secondsOf(place)) <= 0.5 * beat };
    }),
    irregular: alignment.irregular?.length ?? 0,
    offset: [...offsets].sort((a, b) => b[1] - a[1])[0]?.[0] ?? Number.NaN,
  };
}

/** Whether the notes fit the chart, as the account weighs it. */
function fitOf(
  placed: readonly PlacedNote[],
  chart: Chart,
  alignment: Alignment,
  lines: LineTables,
): ChartFit | null {
  const line = placed.filter((note) => note.solo);
  const breaths = new Set(findPhrases(line, chart, alignment).map(({ lastNote }) => lastNote));
  const other = placed.filter((note) => !note.solo);
  const about = { margin: () => keyMargin(line, chart, lines), sure: alignment.confidence };
  return weighChart(line, other, breaths, chart, chordSpans(chart), about);
}

function beatsOf(alignment: Alignment, until: number): number[] {
  const beats: number[] = [];
  for (let k = Math.floor(alignment.map[0]!.position) - 20; k < 50_000; k++) {
    const t = secondsAt(alignment.map, k);
    if (t > until) break;
    beats.push(t);
  }
  return beats;
}
