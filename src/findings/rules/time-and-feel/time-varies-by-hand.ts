import { listInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

export const timeVariesByHand: Rule = rule({
  id: "time-varies-by-hand",
  heading: "time and feel",
  kind: "practise",
  measure: "interquartile range of the timing, milliseconds",
  unit: "milliseconds",
  threshold: 90,
  reason:
    "Half of the notes lie further apart than a sixteenth at a medium tempo is long in part; far above what can be heard (6 ms, Friberg & Sundberg 1995) and above the 30 to 60 ms of practised players [practice].",
  least: { notes: 32, full: 80, shown: 8 },
  importance: 0.6,
  chance: "fact",
  find({ account, solo }, threshold, least) {
    const { timing } = account.rhythm;
    if (timing === null) return null;
    const spread = timing.q3 - timing.q1;
    if (spread < threshold) return null;
    const far = solo
      .filter((note) => note.timing !== null)
      .sort((a, b) => Math.abs(b.timing!) - Math.abs(a.timing!))
      .slice(0, least.shown)
      .sort((a, b) => a.onset - b.onset);
    return {
      observed: spread,
      strength: beyond(spread, threshold, least.full),
      evidence: ids(far),
      words: { places: placesInWords(far, account.alignment.choruses) || listInWords(["the take"]) },
    };
  },
  wording: [
    "Some notes arrive well before the beat and others well after it, most of all in {places}. Slow down until every note has its place, then come back by steps.",
  ],
  practice: {
    kind: "steady time",
    title: "Every note in its place",
    text: "Four bars of eighths on one placement with the click on every beat; a step faster only after two clean rounds.",
  },
});
