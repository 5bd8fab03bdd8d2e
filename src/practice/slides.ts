import type { Chord } from "../chart/index.ts";
import { mod12 } from "../pitch/index.ts";
import {
  type ChordPlacement,
  exercisePlacement,
  placementInWords,
  placementsNear,
  slideOf,
} from "./chord-placements.ts";
import { belongs, CENTRE, chordsOf, keyOver, type PracticeContext, placedNote } from "./context.ts";
import type { ExerciseBar, ExerciseNote } from "./exercise.ts";
import { spellBelow, spellOver } from "./spelling.ts";

/**
 * The ring finger falls from a black key into the white key above it and the line goes home to the anchor, on every
 * place where the keys allow it; first those that fall into the chord's third. Empty where the key has none.
 */
export function slideBars(context: PracticeContext): ExerciseBar[] {
  const found = chordsOf(context).flatMap((chord) =>
    slidingPlacements(context, chord).map((placement) => ({
      placement,
      chord,
      idiomatic: intoThird(placement, chord),
    })),
  );
  const each = found.sort((a, b) => Number(b.idiomatic) - Number(a.idiomatic)).slice(0, 8);
  return each.map(({ placement, chord, idiomatic }, i) => ({
    chords: [{ at: 0, symbol: chord.symbol }],
    notes: slideNotes(context, placement, chord),
    words: idiomatic ? placementInWords(placement) : `${placementInWords(placement)}: try it`,
    newLine: i > 0 && i % 4 === 0,
  }));
}

/** The first of the student's shapes that can slide on this chord. */
function slidingPlacements(context: PracticeContext, chord: Chord): ChordPlacement[] {
  for (const shape of context.shapes) {
    const placements = placementsNear(shape, chord, CENTRE).filter(
      (placement) =>
        slidesWell(context, placement, chord) &&
        (intoThird(placement, chord) || belongs(context, placement, chord)),
    );
    if (placements.length > 0) return placements;
  }
  return [];
}

/** Into the third, into a note of the scale, or, boldly, from the seventh of a dominant into the major seventh. */
function slidesWell(context: PracticeContext, placement: ChordPlacement, chord: Chord): boolean {
  const slide = slideOf(placement);
  if (slide === null) return false;
  if (intoThird(placement, chord)) return true;
  const above = mod12(slide.to - chord.rootClass);
  const scale = context.spans.find((span) => span.symbol === chord.symbol)?.scaleTones ?? [];
  return scale.includes(above) || (chord.quality === "dominant" && above === 11);
}

function slideNotes(context: PracticeContext, placement: ChordPlacement, chord: Chord): ExerciseNote[] {
  const slide = slideOf(placement)!;
  // In 6/8 the first of two dotted beats.
  const half = context.pulse > 1 ? context.pulse : Math.floor(context.barBeats / 2);
  const marks = { finger: 4, placement: exercisePlacement(placement) } as const;
  const spelled = (pitch: number) => spellOver(pitch, chord, keyOver(context, chord));
  // The blue third keeps its name on its way into the third.
  const from = intoThird(placement, chord) ? spelled(slide.from) : spellBelow(slide.from, spelled(slide.to));
  return [
    { at: 0, beats: 0, pitch: slide.from, spelling: from, slide: "from", ...marks },
    { at: 0, beats: half, pitch: slide.to, spelling: spelled(slide.to), slide: "to", ...marks },
    placedNote(
      context,
      placement,
      chord,
      placement.fingers.includes(3) ? 3 : placement.shape.anchorFinger,
      half,
      0.5,
    ),
    placedNote(context, placement, chord, placement.shape.anchorFinger === 1 ? 2 : 1, half + 0.5, 0.5),
    placedNote(
      context,
      placement,
      chord,
      placement.shape.anchorFinger,
      half + 1,
      context.barBeats - half - 1,
    ),
  ];
}

function intoThird(placement: ChordPlacement, chord: Chord): boolean {
  const third = chord.tones.find((tone) => tone.role === "third")?.semitones;
  return third !== undefined && mod12(slideOf(placement)!.to - chord.rootClass - third) === 0;
}
