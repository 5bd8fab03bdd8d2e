import { intervalInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { type Rule, rule } from "../../rule.ts";

export const peakPlacedLate: Rule = rule({
  id: "peak-placed-late",
  heading: "phrasing and shape",
  kind: "notice",
  measure: "place of the highest note, where it stands out, as a share of the solo's length",
  unit: "share",
  threshold: 0.55,
  reason:
    "After the middle and before the very end, as in most well-made melodies, and a minor third above all other phrases: one that others come near to is not heard as the peak [practice].",
  least: { notes: 32, phrases: 4, most: 3, above: 3, end: 0.95, strength: 0.6 },
  importance: 0.45,
  chance: "fact",
  find({ solo, account, phrases }, threshold, least) {
    const top = Math.max(...solo.map((note) => note.pitch));
    const peaks = solo.filter((note) => note.pitch === top);
    const [first, last] = [solo[0]!, solo[solo.length - 1]!];
    const length = last.onset - first.onset;
    if (peaks.length > least.most || length <= 0) return null;
    const others = phrases.filter(({ notes }) => !notes.some((note) => note.pitch === top));
    const next = Math.max(...others.flatMap(({ notes }) => notes.map((note) => note.pitch)));
    if (others.length + 1 < phrases.length || top - next < least.above) return null;
    const where = (peaks[0]!.onset - first.onset) / length;
    if (where < threshold || where > least.end) return null;
    return {
      observed: where,
      strength: least.strength,
      evidence: ids(peaks),
      words: {
        places: placesInWords(peaks, account.alignment.choruses),
        note: peaks[0]!.spelling,
        interval: intervalInWords(top - next),
      },
    };
  },
  wording: [
    "The highest note, {note}, stands out: it is heard in {places}, {interval} above every other phrase.",
  ],
  practice: null,
});
