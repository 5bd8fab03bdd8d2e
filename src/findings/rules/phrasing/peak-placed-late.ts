import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { Rule } from "../../rule.ts";

export const peakPlacedLate: Rule = {
  id: "peak-placed-late",
  heading: "phrasing and shape",
  kind: "works",
  measure: "place of the highest note, as a share of the solo's length",
  threshold: 0.55,
  reason: "After the middle and before the very end, as in most well-made melodies [practice].",
  least: { notes: 32, phrases: 4 },
  importance: 0.45,
  chance: "pitches shuffled",
  find({ solo, account }, threshold) {
    const top = Math.max(...solo.map((note) => note.pitch));
    const peaks = solo.filter((note) => note.pitch === top);
    const [first, last] = [solo[0]!, solo[solo.length - 1]!];
    const length = last.onset - first.onset;
    if (peaks.length > 3 || length <= 0) return null;
    const where = (peaks[0]!.onset - first.onset) / length;
    if (where < threshold || where > 0.95) return null;
    return {
      strength: 0.6,
      evidence: ids(peaks),
      words: { places: placesInWords(peaks, account.alignment.choruses), note: peaks[0]!.spelling },
    };
  },
  wording: [
    "The highest note, {note}, is saved for {places}: the solo has a summit, and it stands where a summit should.",
  ],
  practice: null,
};
