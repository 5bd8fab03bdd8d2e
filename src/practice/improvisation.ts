import { type Chord, degreeSemitones } from "../chart/index.ts";
import type { Finger } from "../take/index.ts";
import { fingerName } from "../words/index.ts";
import { placeInWords } from "./chord-placements.ts";
import { ownPlacements, type PracticeContext } from "./context.ts";
import type { ExerciseBar } from "./exercise.ts";

/** One chorus of the chart with nothing in it but its chords, and over each new chord where the hand may stand. */
export function improvisationBars(context: PracticeContext): ExerciseBar[] {
  const perBeat = 4 / context.chart.meter.unit;
  const places = chordPlaces(context);
  let before = "";
  return context.chart.bars.map((bar, i) => {
    const symbols = bar.chords.map(({ symbol }) => symbol).join(" ");
    const said = symbols === before ? "" : bar.chords.map(places).filter(Boolean).join(", then ");
    before = symbols;
    return {
      chords: bar.chords.map(({ beat, symbol }) => ({ at: (beat - 1) * perBeat, symbol })),
      notes: [],
      words: said === "" ? null : said,
      newLine: i > 0 && i % 4 === 0,
    };
  });
}

/** "index finger on the root or fifth"; the finger is named where it is another one than before. */
function chordPlaces(context: PracticeContext): (at: { readonly chord: Chord | null }) => string {
  let finger: Finger | null = null;
  return ({ chord }) => {
    const own = (chord === null ? [] : ownPlacements(context, chord)).toSorted(
      (a, b) => degreeSemitones(a.degree) - degreeSemitones(b.degree),
    );
    const [first] = own;
    if (first === undefined) return "";
    const { anchorFinger } = first.shape;
    const places = [...new Set(own.map(placeInWords))].join(" or ");
    const named = anchorFinger === finger ? places : `${fingerName(anchorFinger)} on the ${places}`;
    finger = anchorFinger;
    return named;
  };
}
