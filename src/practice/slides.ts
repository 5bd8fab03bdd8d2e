import type { Chord } from "../chart/index.ts";
import { mod12 } from "../pitch/index.ts";
import { belongs, CENTRE, chordsOf, type PracticeContext, standNote } from "./context.ts";
import type { ExerciseBar, ExerciseNote } from "./exercise.ts";
import { spellBelow, spellOver } from "./spelling.ts";
import { placementOf, type Stand, slideOf, standInWords, standsNear } from "./stands.ts";

/**
 * The ring finger falls from a black key into the white key above it and the line goes home to the anchor, on every
 * place where the keys allow it; first those that fall into the chord's third. Empty where the key has none.
 */
export function slideBars(context: PracticeContext): ExerciseBar[] {
  const found = chordsOf(context).flatMap((chord) =>
    slidingStands(context, chord).map((stand) => ({ stand, chord, idiomatic: intoThird(stand, chord) })),
  );
  const each = found.sort((a, b) => Number(b.idiomatic) - Number(a.idiomatic)).slice(0, 8);
  return each.map(({ stand, chord, idiomatic }, i) => ({
    chords: [{ at: 0, symbol: chord.symbol }],
    notes: slideNotes(context, stand, chord),
    words: idiomatic ? standInWords(stand) : `${standInWords(stand)}: try it`,
    newLine: i > 0 && i % 4 === 0,
  }));
}

/** The first of the student's shapes that can slide on this chord. */
function slidingStands(context: PracticeContext, chord: Chord): Stand[] {
  for (const shape of context.shapes) {
    const stands = standsNear(shape, chord, CENTRE).filter(
      (stand) =>
        slidesWell(context, stand, chord) && (intoThird(stand, chord) || belongs(context, stand, chord)),
    );
    if (stands.length > 0) return stands;
  }
  return [];
}

/** Into the third, into a note of the scale, or, boldly, from the seventh of a dominant into the major seventh. */
function slidesWell(context: PracticeContext, stand: Stand, chord: Chord): boolean {
  const slide = slideOf(stand);
  if (slide === null) return false;
  if (intoThird(stand, chord)) return true;
  const above = mod12(slide.to - chord.rootClass);
  const scale = context.spans.find((span) => span.symbol === chord.symbol)?.scaleTones ?? [];
  return scale.includes(above) || (chord.quality === "dominant" && above === 11);
}

function slideNotes(context: PracticeContext, stand: Stand, chord: Chord): ExerciseNote[] {
  const slide = slideOf(stand)!;
  // In 6/8 the first of two dotted beats.
  const half = context.pulse > 1 ? context.pulse : Math.floor(context.barBeats / 2);
  const marks = { finger: 4, placement: placementOf(stand) } as const;
  const spelled = (pitch: number) => spellOver(pitch, chord, context.chart.key);
  // The blue third keeps its name on its way into the third.
  const from = intoThird(stand, chord) ? spelled(slide.from) : spellBelow(slide.from, spelled(slide.to));
  return [
    { at: 0, beats: 0, pitch: slide.from, spelling: from, slide: "from", ...marks },
    { at: 0, beats: half, pitch: slide.to, spelling: spelled(slide.to), slide: "to", ...marks },
    standNote(context, stand, chord, stand.fingers.includes(3) ? 3 : stand.shape.anchorFinger, half, 0.5),
    standNote(context, stand, chord, stand.shape.anchorFinger === 1 ? 2 : 1, half + 0.5, 0.5),
    standNote(context, stand, chord, stand.shape.anchorFinger, half + 1, context.barBeats - half - 1),
  ];
}

function intoThird(stand: Stand, chord: Chord): boolean {
  const third = chord.tones.find((tone) => tone.role === "third")?.semitones;
  return third !== undefined && mod12(slideOf(stand)!.to - chord.rootClass - third) === 0;
}
