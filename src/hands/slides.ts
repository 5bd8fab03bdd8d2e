import type { HandFit } from "../account.ts";
import type { ChordSpan } from "../chart/index.ts";
import { isBlackKey, mod12 } from "../pitch/index.ts";
import type { FitMaterial } from "./fit-material.ts";
import type { HandLine } from "./hand-line.ts";
import type { Placement } from "./placements.ts";
import { placementOf } from "./shape-states.ts";

/**
 * The slide that a placement's fourth finger offers: its key is black, the key a half step above is white and under
 * no other finger. Null where there is none.
 */
export function slideOf(placement: Placement): { readonly from: number; readonly to: number } | null {
  const { held, low } = placement;
  const index = held.shape.fingers.indexOf(4);
  if (index < 0) return null;
  const from = low + held.semitones[index]!;
  const to = from + 1;
  if (!isBlackKey(from) || isBlackKey(to) || held.semitones.includes(to - low)) return null;
  return { from, to };
}

/** A slide into a note of the chord's scale that is not to be avoided is idiomatic; any other is bold. */
export function isIdiomaticSlide(to: number, span: ChordSpan): boolean {
  if (span.chord === null) return false;
  const semitones = mod12(to - span.chord.rootClass);
  if (span.chord.tones.some((tone) => tone.semitones === semitones)) return true;
  return span.scaleTones.includes(semitones) && !span.avoid.some((avoid) => avoid.semitones === semitones);
}

/** Slides taken, all that the placements offered, and the idiomatic ones that were not taken. */
export function describeSlides({ notes, lines, spans }: FitMaterial): HandFit["slides"] {
  const slides: HandFit["slides"] = { taken: [], missed: [], possible: 0, ideas: [] };
  for (const line of lines) collect(line, notes, spans, slides);
  return slides;
}

function collect(
  line: HandLine,
  notes: FitMaterial["notes"],
  spans: readonly ChordSpan[],
  slides: HandFit["slides"],
): void {
  for (const [index, { slidesTo }] of line.played) {
    if (slidesTo === null) continue;
    const to = notes[slidesTo]!;
    const span = spans[to.span];
    const idiomatic = span !== undefined && isIdiomaticSlide(to.pitch, span);
    slides.taken.push({ from: notes[index]!.id, to: to.id, idiomatic });
    slides.possible++;
  }
  for (const run of line.runs) {
    const offered = slideOf(placementOf(line.view, run.state));
    if (offered === null) continue;
    for (const index of run.notes) {
      const note = notes[index]!;
      if (note.pitch !== offered.from || line.played.get(index)!.slidesTo !== null) continue;
      slides.possible++;
      const span = spans[note.span];
      if (span === undefined || !isIdiomaticSlide(offered.to, span)) continue;
      slides.missed.push(note.id);
      slides.ideas?.push(note.id);
    }
  }
}
