import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { offBeats } from "./on-and-off-the-beat.ts";
import { ratio } from "./ratio-in-words.ts";

export const swingChangesByChorus: Rule = {
  id: "swing-changes-by-chorus",
  heading: "time and feel",
  kind: "notice",
  measure: "largest difference between the median ratios of two choruses",
  threshold: 0.45,
  reason: "Well outside the spread within one chorus of a settled player [practice].",
  least: { notes: 32, choruses: 2 },
  importance: 0.4,
  chance: "fact",
  find({ account, solo }, threshold) {
    const known = account.choruses.filter((one) => one.swing !== null && one.swing.beats >= 8);
    if (known.length < 2) return null;
    const sorted = [...known].sort((a, b) => a.swing!.median - b.swing!.median);
    const [low, high] = [sorted[0]!, sorted[sorted.length - 1]!];
    const difference = high.swing!.median - low.swing!.median;
    if (difference < threshold) return null;
    return {
      observed: difference,
      strength: beyond(difference, threshold, 0.6),
      evidence: ids(
        offBeats(solo.filter((n) => n.chorus === low.chorus || n.chorus === high.chorus)).slice(0, 12),
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
};
