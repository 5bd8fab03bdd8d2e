import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { onBeats } from "./on-and-off-the-beat.ts";

export const lateAgainstTheBeat: Rule = rule({
  id: "late-against-the-beat",
  heading: "time and feel",
  kind: "notice",
  measure: "median of the timing, milliseconds late",
  unit: "milliseconds",
  threshold: 20,
  reason:
    "Playing behind is a manner of many good soloists [practice]; said, not criticised, and only when it can be heard (6 ms or 2.5 %, Friberg & Sundberg 1995).",
  least: { notes: 24, full: 40, shown: 12 },
  importance: 0.5,
  chance: "fact",
  find({ account, solo }, threshold, least) {
    const { timing } = account.rhythm;
    if (timing === null || !timing.heard || timing.median < threshold) return null;
    // Where the median could lie under what is heard, there is nothing to tell.
    if ((timing.interval?.low ?? timing.median) < timing.threshold) return null;
    return {
      observed: timing.median,
      strength: beyond(timing.median, threshold, least.full),
      evidence: ids(onBeats(solo.filter((note) => (note.timing ?? 0) > 0)).slice(0, least.shown)),
      words: {
        time: String(Math.round(timing.median)),
        against: timing.against === "grid" ? "the click" : "your other hand",
      },
    };
  },
  wording: [
    "The line sits about {time} milliseconds behind {against}: laid back. Good if you meant it; try a chorus on top of the beat to own both.",
  ],
  practice: null,
});
