import {
  type Chart,
  type Chord,
  type ChordSpan,
  chordSpans,
  type Key,
  quartersPerBar,
} from "../chart/index.ts";
import type { HandShape } from "../hands/shape.ts";
import { mod12 } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import { type ChordPlacement, exercisePlacement, keyOf, placementsNear } from "./chord-placements.ts";
import type { ExerciseBar, ExerciseNote } from "./exercise.ts";
import type { Idea } from "./idea.ts";
import { pulseOf } from "./pulse.ts";
import { spellOver } from "./spelling.ts";

/** What the makers of exercises work from. */
export interface PracticeContext {
  readonly chart: Chart;
  readonly spans: readonly ChordSpan[];
  /** Shapes that the student uses, the most used first. */
  readonly shapes: readonly HandShape[];
  readonly idea: Idea;
  /** Quarter-note beats in a bar. */
  readonly barBeats: number;
  /** The beat that is felt, in quarter notes. */
  readonly pulse: number;
}

/** Where exercises lie unless they climb: the middle of the right hand's part of the keyboard. */
export const CENTRE = 69;

export function contextOf(chart: Chart, shapes: readonly HandShape[], idea: Idea): PracticeContext {
  return {
    chart,
    spans: chordSpans(chart),
    shapes,
    idea,
    barBeats: quartersPerBar(chart.meter),
    pulse: pulseOf(chart.meter),
  };
}

/** The key in which the chart has a chord; of several the first. */
export function keyOver({ chart, spans }: PracticeContext, chord: Chord): Key {
  return spans.find(({ symbol }) => symbol === chord.symbol)?.key ?? chart.key;
}

/** The chart's different chords in the order in which they come. */
export function chordsOf(context: PracticeContext): Chord[] {
  const chords = new Map<string, Chord>();
  for (const { chord } of context.spans)
    if (chord !== null && !chords.has(chord.symbol)) chords.set(chord.symbol, chord);
  return [...chords.values()];
}

/**
 * Stands on a chord in the first of the student's shapes that has a place there whose keys belong to the chord: a
 * major third over a minor chord is left to those who mean it.
 */
export function ownPlacements(context: PracticeContext, chord: Chord, near = CENTRE): ChordPlacement[] {
  for (const shape of context.shapes) {
    const placements = placementsNear(shape, chord, near).filter((placement) =>
      belongs(context, placement, chord),
    );
    if (placements.length > 0) return placements;
  }
  return [];
}

/** True where every key of the placement is in the chord's scale, a chord tone or a blue note. */
export function belongs(context: PracticeContext, placement: ChordPlacement, chord: Chord): boolean {
  const span = context.spans.find((one) => one.symbol === chord.symbol);
  const tones = new Set([...(span?.scaleTones ?? []), ...chord.tones.map((tone) => tone.semitones)]);
  // The blue third of a dominant is what half of the shapes are for, in a blues; elsewhere it drills a minor triad.
  if (chord.quality === "dominant" && context.chart.idiom === "blues") tones.add(3);
  return placement.keys.every((key) => tones.has(mod12(key - chord.rootClass)));
}

/** A note of a placement, written over a chord. */
export function placedNote(
  context: PracticeContext,
  placement: ChordPlacement,
  chord: Chord,
  finger: Finger,
  at: number,
  beats: number,
): ExerciseNote {
  const pitch = keyOf(placement, finger)!;
  return {
    at,
    beats,
    pitch,
    spelling: spellOver(pitch, chord, keyOver(context, chord)),
    finger,
    placement: exercisePlacement(placement),
    slide: null,
  };
}

/** Eighths up and down the shape for as long as a bar has room, the last one an eighth before the bar line. */
export function upAndDown(context: PracticeContext, placement: ChordPlacement, chord: Chord): ExerciseNote[] {
  const { fingers } = placement;
  const circle = [...fingers, ...[...fingers].reverse().slice(1, -1)];
  const count = Math.min(2 * context.barBeats - 1, 2 * fingers.length - 1);
  return Array.from({ length: count }, (_, i) =>
    placedNote(context, placement, chord, circle[i % circle.length]!, i / 2, 0.5),
  );
}

/**
 * The student's idea at a placement, over as many bars as it takes; null where the shape lacks a finger. `later` moves
 * it in its bar (beats).
 */
export function ideaBars(
  context: PracticeContext,
  placement: ChordPlacement,
  chord: Chord,
  words: string | null,
  later = 0,
): ExerciseBar[] | null {
  const { idea, barBeats } = context;
  if (idea.fingers.some((finger) => keyOf(placement, finger) === null)) return null;
  const first = idea.onsets[0]!;
  // An idea that begins late in its bar is written from the bar line when it is moved about.
  const shift = later === 0 ? 0 : later - first;
  const bars: ExerciseBar[] = [];
  idea.fingers.forEach((finger, i) => {
    const at = idea.onsets[i]! + shift;
    const bar = Math.floor(at / barBeats);
    while (bars.length <= bar) {
      bars.push({
        chords: [{ at: 0, symbol: chord.symbol }],
        notes: [],
        words: bars.length === 0 ? words : null,
        newLine: false,
      });
    }
    const inside = at - bar * barBeats;
    const beats = Math.min(idea.beats[i]!, barBeats - inside);
    const note = placedNote(context, placement, chord, finger, inside, beats);
    bars[bar] = { ...bars[bar]!, notes: [...bars[bar]!.notes, note] };
  });
  return bars;
}

export function emptyBar(symbol: string, words: string | null): ExerciseBar {
  return { chords: [{ at: 0, symbol }], notes: [], words, newLine: false };
}
