import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { offBeats } from "./on-and-off-the-beat.ts";
import { ratio } from "./ratio-in-words.ts";

export const swingSettled: Rule = {
  id: "swing-settled",
  heading: "time and feel",
  kind: "works",
  measure: "spread of the beat-upbeat ratio: interquartile range over median",
  threshold: 0.45,
  reason:
    "Soloists' ratios scatter widely even in good playing (Corcoran & Frieler 2021); under half of the median the ear takes the pairs for one feel [practice].",
  least: { notes: 24 },
  importance: 0.7,
  chance: "moved in time",
  find({ account, solo }, threshold) {
    const { swing } = account.rhythm;
    if (swing === null || swing.beats < 12 || swing.median < 1.15) return null;
    const spread = (swing.q3 - swing.q1) / swing.median;
    if (spread > threshold) return null;
    return {
      observed: spread,
      strength: beyond(spread, threshold, -0.3),
      evidence: ids(offBeats(solo).slice(0, 12)),
      words: { ratio: ratio(swing.median), beats: String(swing.beats) },
    };
  },
  wording: [
    "Your eighth notes keep one feel: long and short stay near {ratio} over {beats} beats, so the line swings without being pushed.",
    "The pairs of eighths agree with one another, about {ratio} over {beats} beats. That settled feel lets a listener follow the ideas.",
  ],
  practice: null,
};
