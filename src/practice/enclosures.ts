import type { Chord } from "../chart/index.ts";
import { mod12 } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import { CENTRE, chordsOf, keyOver, type PracticeContext } from "./context.ts";
import type { ExerciseBar, ExerciseNote } from "./exercise.ts";
import { spellBelow, spellOver } from "./spelling.ts";

/** Chords that are practised: two lines of four bars where each takes two. */
const MOST_CHORDS = 4;

/** Each note of the circle, in quarter-note beats: an eighth. */
const EIGHTH = 0.5;

/**
 * Chord tones reached from both sides: the scale step above, the half step below, and the tone on the beat, held. All
 * tones of a chord one after the other, as many in a bar as it has beats for. [Coker; Ligon, Connecting Chords with
 * Linear Harmony, memory]
 */
export function enclosureBars(context: PracticeContext): ExerciseBar[] {
  const perBar = Math.max(1, Math.floor(context.barBeats / (2 * context.pulse) + 1e-9));
  const bars = chordsOf(context)
    .slice(0, MOST_CHORDS)
    .flatMap((chord) => barsOver(context, chord, perBar));
  return bars.map((bar, i) => ({
    ...bar,
    words: i === 0 ? "fourth finger above, second below, third on the tone" : null,
    newLine: i > 0 && i % 4 === 0,
  }));
}

function barsOver(context: PracticeContext, chord: Chord, perBar: number): ExerciseBar[] {
  const root = CENTRE - 6 + mod12(chord.rootClass - CENTRE + 6);
  const tones = chord.tones.filter(({ role }) => role !== "tension").map(({ semitones }) => root + semitones);
  const bars: ExerciseBar[] = [];
  for (let from = 0; from < tones.length; from += perBar) {
    const targets = tones.slice(from, from + perBar);
    bars.push({
      chords: [{ at: 0, symbol: chord.symbol }],
      notes: targets.flatMap((target, k) => circled(context, chord, target, k, k + 1 === targets.length)),
      words: null,
      newLine: false,
    });
  }
  return bars;
}

/** One tone with the two notes that lead into it; the last of a bar is held to its end. */
function circled(
  context: PracticeContext,
  chord: Chord,
  target: number,
  place: number,
  last: boolean,
): ExerciseNote[] {
  const { spans, pulse, barBeats } = context;
  const key = keyOver(context, chord);
  const at = (2 * place + 1) * pulse;
  const scale = spans.find((span) => span.symbol === chord.symbol)?.scaleTones ?? [];
  const above = target + (scale.includes(mod12(target + 1 - chord.rootClass)) ? 1 : 2);
  const spelled = spellOver(target, chord, key);
  const note = (pitch: number, spelling: string, finger: Finger, start: number, beats: number) => ({
    ...{ at: start, beats, pitch, spelling, finger },
    ...{ placement: null, slide: null },
  });
  return [
    note(above, spellOver(above, chord, key), 4, at - 2 * EIGHTH, EIGHTH),
    note(target - 1, spellBelow(target - 1, spelled), 2, at - EIGHTH, EIGHTH),
    note(target, spelled, 3, at, last ? barBeats - at : pulse),
  ];
}
