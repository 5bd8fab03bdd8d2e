import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { onBeats } from "./on-and-off-the-beat.ts";

export const earlyAgainstTheBeat: Rule = rule({
  id: "early-against-the-beat",
  heading: "time and feel",
  kind: "practise",
  measure: "median of the timing, milliseconds early",
  unit: "milliseconds",
  threshold: 20,
  reason:
    "Three times the least difference that can be heard between short notes (6 ms, Friberg & Sundberg 1995), so that nothing near the limit is criticised.",
  least: { notes: 24, full: 40, shown: 12 },
  importance: 0.7,
  chance: "fact",
  find({ account, solo }, threshold, least) {
    const { timing } = account.rhythm;
    if (timing === null || !timing.heard || timing.median > -threshold) return null;
    // Where the median could lie under what is heard, there is nothing to tell.
    if ((timing.interval?.high ?? timing.median) > -timing.threshold) return null;
    return {
      observed: -timing.median,
      strength: beyond(-timing.median, threshold, least.full),
      evidence: ids(onBeats(solo.filter((note) => (note.timing ?? 0) < 0)).slice(0, least.shown)),
      words: {
        time: String(Math.round(-timing.median)),
        against: timing.against === "grid" ? "the click" : "your other hand",
      },
    };
  },
  wording: [
    "The line tends to run ahead of {against}, by about {time} milliseconds. Breathe out on beat one and let the beat come to you.",
    "Many notes arrive some {time} milliseconds before {against}. Play the same phrase laid back on purpose, then find the middle.",
  ],
  practice: {
    kind: "steady time",
    title: "Let the beat come",
    text: "Quarter notes on one placement against the click: four bars late on purpose, four bars early on purpose, four bars in the middle.",
  },
});
