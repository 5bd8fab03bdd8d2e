import { type Degree, degreeName, parseChord, scaleNamed } from "../../../chart/index.ts";
import { classOf, mod12 } from "../../../pitch/index.ts";
import { countInWords, placesInWords } from "../../../words/index.ts";
import { between, type Facts, ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { keyboardPlayed } from "./keyboard-played.ts";

/** Semitones above the root. */
const BLUE_THIRD = 3;

/** A place that the student's own shape has on a chord and that was never used. */
interface UnusedStand {
  readonly chord: string;
  readonly anchor: string;
  readonly anchorDegree: Degree;
  /** Notes played on the chord in known places. */
  readonly played: number;
}

export const placementUnused: Rule = rule({
  id: "placement-unused",
  heading: "keyboard technique",
  kind: "practise",
  measure: "notes on a chord of which a fitting placement is never used",
  unit: "notes",
  threshold: 12,
  reason: "With twelve notes on a chord there was time for both places [practice].",
  least: { notes: 32, full: 30, shown: 16, share: 0.6 },
  importance: 0.55,
  chance: "fact",
  onChords: true,
  find(facts, threshold, least) {
    if (!keyboardPlayed(facts)) return null;
    if (facts.account.handFit.share < least.share) return null;
    for (const unused of unusedStands(facts)) {
      const notes = facts.solo.filter((note) => note.chord === unused.chord);
      if (unused.played < threshold) continue;
      return {
        observed: unused.played,
        strength: beyond(unused.played, threshold, least.full),
        evidence: ids(notes.slice(0, least.shown)),
        words: {
          chord: unused.chord,
          notes: countInWords(unused.played),
          anchor: unused.anchor,
          degree: degreeName(unused.anchorDegree),
          places: placesInWords(notes.slice(0, 1), facts.account.alignment.choruses),
        },
      };
    }
    return null;
  },
  wording: [
    "On {chord} the same shape also fits on {anchor}, the {degree}, and was not used there in {notes} notes. Try it in {places}.",
  ],
  practice: {
    kind: "placements",
    title: "{chord}: the place on {anchor}",
    text: "The shape on {anchor} over {chord}, up and down, then your own phrase from there.",
  },
});

/**
 * Unused places of shapes that are used on the same chord, as far as the keys that the student strikes in that shape
 * belong to the chord's scale or its blue notes: a major third over a minor chord is nobody's second home.
 */
function unusedStands(facts: Facts): UnusedStand[] {
  const { account } = facts;
  const offsets = new Map<string, Set<number>>();
  for (const placement of account.placements) {
    const known = offsets.get(placement.shape) ?? new Set<number>();
    for (const note of between(facts.solo, facts.place, placement)) {
      if (note.placement === placement.id && note.slide === null)
        known.add(note.pitch - placement.anchorPitch);
    }
    offsets.set(placement.shape, known);
  }
  const scales = new Map(
    account.chart.bars.flatMap((bar) => bar.chords.map((one) => [one.symbol, one.scale])),
  );
  return account.handFit.byChord.flatMap(({ chord, used, unused }) => {
    const played = used.reduce((sum, one) => sum + one.notes, 0);
    const shapes = new Set(used.map((one) => one.shape));
    return unused
      .filter((one) => shapes.has(one.shape))
      .filter((one) => belongs(chord, scales.get(chord), one.anchor, [...(offsets.get(one.shape) ?? [])]))
      .map(({ anchor, anchorDegree }) => ({ chord, anchor, anchorDegree, played }));
  });
}

function belongs(
  symbol: string,
  scale: string | undefined,
  anchor: string,
  offsets: readonly number[],
): boolean {
  const chord = parseChord(symbol);
  if (chord === null || scale === undefined) return false;
  const tones = new Set([...scaleNamed(scale).tones, ...chord.tones.map((tone) => tone.semitones)]);
  // The blue third of a dominant chord is what half of the shapes are for.
  if (chord.quality === "dominant") tones.add(BLUE_THIRD);
  const above = classOf(anchor) - chord.rootClass;
  return offsets.every((offset) => tones.has(mod12(above + offset)));
}
