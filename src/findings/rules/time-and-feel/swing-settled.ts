import { ids } from "../../facts.ts";
import type { MeasuredLine } from "../../measured-line.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { offBeats } from "./on-and-off-the-beat.ts";
import { ratio } from "./ratio-in-words.ts";

function swingSpread({ rhythm: { swing } }: Pick<MeasuredLine, "rhythm">): number | null {
  return swing === null ? null : (swing.q3 - swing.q1) / swing.median;
}

export const swingSettled: Rule = rule({
  id: "swing-settled",
  heading: "time and feel",
  kind: "works",
  measure: "spread of the beat-upbeat ratio: interquartile range over median",
  unit: "share",
  threshold: 0.45,
  reason:
    "Soloists' ratios scatter widely even in good playing (Corcoran & Frieler 2021); under half of the median the ear takes the pairs for one feel [practice].",
  least: { notes: 24, full: -0.3, shown: 12, sample: 12, swung: 1.15 },
  importance: 0.7,
  chance: { null: "moved in time", count: swingSpread, than: "less" },
  find({ account, solo }, threshold, least) {
    const { swing } = account.rhythm;
    const spread = swingSpread(account);
    if (
      swing === null ||
      spread === null ||
      swing.beats < least.sample ||
      (swing.interval?.low ?? swing.median) < least.swung
    )
      return null;
    if (spread > threshold) return null;
    return {
      observed: spread,
      strength: beyond(spread, threshold, least.full),
      evidence: ids(offBeats(solo).slice(0, least.shown)),
      words: { ratio: ratio(swing.median), beats: String(swing.beats) },
    };
  },
  wording: [
    "Your eighth notes keep one feel: long and short stay near {ratio} over {beats} beats, so the line swings without being pushed.",
    "The pairs of eighths agree with one another, about {ratio} over {beats} beats. That settled feel lets a listener follow the ideas.",
  ],
  practice: null,
});
