import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { offBeats } from "./on-and-off-the-beat.ts";
import { ratio } from "./ratio-in-words.ts";

export const swingChangesByChorus: Rule = rule({
  id: "swing-changes-by-chorus",
  heading: "time and feel",
  kind: "notice",
  measure: "largest difference between the median ratios of two choruses",
  unit: "ratio",
  threshold: 0.45,
  reason: "Well outside the spread within one chorus of a settled player [practice].",
  least: { notes: 32, choruses: 2, full: 0.6, sample: 8, shown: 12 },
  importance: 0.4,
  chance: "fact",
  find({ account, solo }, threshold, least) {
    const known = account.choruses.filter((one) => one.swing !== null && one.swing.beats >= least.sample);
    if (known.length < 2) return null;
    const sorted = [...known].sort((a, b) => a.swing!.median - b.swing!.median);
    const [low, high] = [sorted[0]!, sorted[sorted.length - 1]!];
    const difference = high.swing!.median - low.swing!.median;
    if (difference < threshold) return null;
    // Where the intervals of the two meet, both may be played alike.
    if (
      (low.swing!.interval?.high ?? low.swing!.median) >= (high.swing!.interval?.low ?? high.swing!.median)
    ) {
      return null;
    }
    return {
      observed: difference,
      strength: beyond(difference, threshold, least.full),
      evidence: ids(
        offBeats(solo.filter((n) => n.chorus === low.chorus || n.chorus === high.chorus)).slice(
          0,
          least.shown,
        ),
      ),
      words: {
        straight: String(low.chorus),
        swung: String(high.chorus),
        low: ratio(low.swing!.median),
        high: ratio(high.swing!.median),
      },
    };
  },
  wording: [
    "Chorus {straight} is played straighter ({low}) than chorus {swung} ({high}). If that was meant, it is a strong contrast; listen whether it was.",
  ],
  practice: null,
});
