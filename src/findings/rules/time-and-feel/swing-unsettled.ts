import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { offBeats } from "./on-and-off-the-beat.ts";
import { ratio } from "./ratio-in-words.ts";

export const swingUnsettled: Rule = rule({
  id: "swing-unsettled",
  heading: "time and feel",
  kind: "practise",
  measure: "spread of the beat-upbeat ratio: interquartile range over median",
  unit: "share",
  threshold: 0.9,
  reason:
    "Half of the pairs then lie further apart than straight eighths lie from triplets at the same median [practice]; the ratio itself is free, it falls with tempo (Friberg & Sundstrom 2002).",
  least: { notes: 24, full: 0.8, shown: 12, sample: 12 },
  importance: 0.7,
  chance: "fact",
  find({ account, solo }, threshold, least) {
    const { swing } = account.rhythm;
    if (swing === null || swing.beats < least.sample) return null;
    const spread = (swing.q3 - swing.q1) / swing.median;
    if (spread < threshold) return null;
    return {
      observed: spread,
      strength: beyond(spread, threshold, least.full),
      evidence: ids(offBeats(solo).slice(0, least.shown)),
      words: { low: ratio(swing.q1), high: ratio(swing.q3) },
    };
  },
  wording: [
    "Your pairs of eighths change from beat to beat, mostly between {low} and {high}. Choose one feel for a chorus and sing it before you play.",
    "The short note of each pair wanders: from {low} to {high} in the middle half of your beats. Any of these can swing; let one of them lead.",
  ],
  practice: {
    kind: "even pairs",
    title: "One feel for eight bars",
    text: "Play the pairs on one placement, first sung, then played, at the slowest step of the plan; move to the next step when four bars in a row feel the same.",
  },
});
