/**
 * A player who knows some hand shapes and where they stand on the chords, with known truth: breathes, stays in a
 * place for a few notes, moves when the chord asks for it (sometimes late), walks over the fingers, slides off black
 * keys, and now and then strikes a key beside the shape.
 */
import { type Chart, type ChordSpan, chordSpans, degreeSemitones } from "../../../src/chart/index.ts";
import type { HandNote, HandShape } from "../../../src/hands/index.ts";
import type { Finger } from "../../../src/take/index.ts";
import { type Random, seeded } from "./random.ts";

export interface SimulatedNote {
  readonly shape: string | null;
  readonly anchorPitch: number | null;
  readonly finger: Finger | null;
}

export interface SimulatedSolo {
  readonly spans: ChordSpan[];
  readonly notes: HandNote[];
  /** Parallel to the notes; all null for stray notes. */
  readonly truth: SimulatedNote[];
}

export interface Manners {
  readonly seed: number;
  readonly choruses: number;
  readonly shapes: readonly HandShape[];
  /** Share of notes struck beside the shape. */
  readonly strays: number;
}

interface Place {
  readonly shape: HandShape;
  readonly anchor: number;
  readonly keys: readonly number[];
}

const LOW = 55;
const HIGH = 91;

export function simulate(chart: Chart, manners: Manners): SimulatedSolo {
  const random = seeded(manners.seed);
  const spans = chordSpans(chart);
  const barBeats = chart.meter.beats;
  const chorusBeats = chart.bars.length * barBeats;
  const secondsPerBeat = 60 / (96 + random.below(90));
  const notes: HandNote[] = [];
  const truth: SimulatedNote[] = [];
  let place: Place | null = null;
  let index = 0;
  let way = 1;
  let stayed = 0;
  let position = random.below(3);

  const spanAt = (at: number) => {
    const inside = at % chorusBeats;
    return spans.find((span) => inside >= span.start && inside < span.start + span.beats)!;
  };
  const strike = (at: number, pitch: number, beats: number, known: SimulatedNote, late = 0) => {
    const human = (random.next() - 0.5) * 0.02;
    const id = `n${notes.length + 1}`;
    const span = spanAt(at).index;
    notes.push(
      struckNote({ id, at, pitch, beats, human, late, span }, { barBeats, chorusBeats, secondsPerBeat }),
    );
    truth.push(known);
  };

  while (position < manners.choruses * chorusBeats) {
    const length = 5 + random.below(10);
    for (let n = 0; n < length && position < manners.choruses * chorusBeats; n++) {
      const beats = n === length - 1 ? 1 : random.chance(0.12) ? 1 : 0.5;
      // The hand prepares: half a beat before a change it is already at the next chord.
      const span = spanAt(position + 0.5);
      const free = n === 0;
      const before: Place | null = place;
      const worthMoving = n < length - 2 && spanAt(position + 1.5) === span;
      const moved = mustMove(place, span, stayed, free, random, worthMoving);
      if (moved) place = choosePlace(manners.shapes, span, place, random) ?? place;
      if (place === null) break;
      if (before === null || place.shape !== before.shape || place.anchor !== before.anchor) {
        index = landOn(place, before, notes[notes.length - 1]?.pitch ?? 68, random);
        stayed = 0;
      } else {
        if (random.chance(0.3)) way = -way;
        index = walk(index, way, place.keys.length, random);
      }
      stayed++;
      const pitch = place.keys[index]!;
      const finger = place.shape.fingers[index]!;
      const known = { shape: place.shape.name, anchorPitch: place.anchor, finger };
      // Nobody strays on the first key in a place: the hand has to arrive there first.
      if (stayed > 1 && random.chance(manners.strays)) {
        strike(position, strayNear(place, pitch, random), beats, {
          shape: null,
          anchorPitch: null,
          finger: null,
        });
      } else if (slides(place, index, span) && random.chance(0.3)) {
        strike(position, pitch, 0.1, known);
        strike(position, pitch + 1, beats - 0.1, known, 0.07);
      } else strike(position, pitch, beats, known);
      position += beats;
    }
    position = Math.ceil((position + 0.5 + random.below(5)) * 2) / 2;
  }
  return { spans, notes, truth };
}

function struckNote(
  note: { id: string; at: number; pitch: number; beats: number; human: number; late: number; span: number },
  time: { barBeats: number; chorusBeats: number; secondsPerBeat: number },
): HandNote {
  const { id, at, pitch, beats, human, late, span } = note;
  const inside = at % time.chorusBeats;
  return {
    id,
    pitch,
    onset: at * time.secondsPerBeat + human + late,
    duration: Math.max(0.03, beats * time.secondsPerBeat * 0.92),
    sounding: beats * time.secondsPerBeat,
    velocity: 70,
    tick: Math.round(at * 480),
    ticks: Math.round(beats * 480),
    part: "t1",
    printed: null,
    hand: "right",
    solo: true,
    chorus: Math.floor(at / time.chorusBeats) + 1,
    bar: Math.floor(inside / time.barBeats) + 1,
    beat: (inside % time.barBeats) + 1,
    position: at,
    beats,
    timing: human / time.secondsPerBeat,
    span,
    degree: null,
  };
}

function mustMove(
  place: Place | null,
  span: ChordSpan,
  stayed: number,
  free: boolean,
  random: Random,
  worthMoving: boolean,
): boolean {
  if (place === null) return true;
  const fits = standsOn(place.shape, place.anchor, span);
  if (!fits) return free || (worthMoving && random.chance(0.85));
  if (free) return random.chance(0.45);
  return worthMoving && stayed >= 4 && random.chance(0.1);
}

function standsOn(shape: HandShape, anchor: number, span: ChordSpan): boolean {
  const { chord } = span;
  if (chord === null) return true;
  return shape.anchorDegrees.some(
    ({ degree, qualities }) =>
      (anchor - chord.rootClass - degreeSemitones(degree) + 240) % 12 === 0 &&
      (qualities.length === 0 || qualities.includes(chord.quality)),
  );
}

/** One of the chord's places, the near ones more often. */
function choosePlace(
  shapes: readonly HandShape[],
  span: ChordSpan,
  from: Place | null,
  random: Random,
): Place | null {
  const places: Place[] = [];
  for (const shape of shapes) {
    const offset = shape.semitones[shape.fingers.indexOf(shape.anchorFinger)]!;
    for (let anchor = LOW; anchor <= HIGH; anchor++) {
      const keys = shape.semitones.map((semitones) => anchor - offset + semitones);
      if (keys[0]! < LOW || keys[keys.length - 1]! > HIGH || !standsOn(shape, anchor, span)) continue;
      places.push({ shape, anchor, keys });
    }
  }
  if (places.length === 0) return null;
  const centre = from === null ? 68 : from.keys[0]!;
  const weights = places.map(
    (one) => Math.exp(-Math.abs(one.keys[0]! - centre) / 5) * Math.exp(-(((one.keys[0]! - 67) / 14) ** 2)),
  );
  return places[random.weighted(weights)]!;
}

/** The first key in a new place: near the last note, and rather one that the old place did not have. */
function landOn(place: Place, before: Place | null, last: number, random: Random): number {
  const weights = place.keys.map(
    (key) => Math.exp(-Math.abs(key - last) / 3) * (before?.keys.includes(key) ? 0.3 : 1),
  );
  return random.weighted(weights);
}

function walk(index: number, way: number, count: number, random: Random): number {
  const step = [0, 1, 2, 3][random.weighted([0.05, 0.62, 0.24, 0.09])]!;
  const next = index + way * step;
  if (next >= 0 && next < count) return next;
  const back = index - way * step;
  return Math.min(count - 1, Math.max(0, back));
}

function slides(place: Place, index: number, span: ChordSpan): boolean {
  const pitch = place.keys[index]!;
  if (place.shape.fingers[index] !== 4 || !isBlack(pitch) || isBlack(pitch + 1)) return false;
  if (place.keys.includes(pitch + 1) || span.chord === null) return false;
  const semitones = (pitch + 1 - span.chord.rootClass + 240) % 12;
  return span.chord.tones.some((tone) => tone.semitones === semitones);
}

/** A key beside the shape: a chromatic or scale neighbour of the key that was meant. */
function strayNear(place: Place, pitch: number, random: Random): number {
  const near = [-2, -1, 1, 2].map((by) => pitch + by).filter((key) => !place.keys.includes(key));
  return near.length === 0 ? pitch + 13 : near[random.below(near.length)]!;
}

function isBlack(pitch: number): boolean {
  return [1, 3, 6, 8, 10].includes(pitch % 12);
}
