import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { keyboardPlayed } from "./keyboard-played.ts";

export const commonPlacementKept: Rule = rule({
  id: "common-placement-kept",
  heading: "keyboard technique",
  kind: "notice",
  measure: "share of the chord changes with a common placement at which the hand kept it",
  unit: "share",
  threshold: 0.5,
  reason: "Half of them: the economy is in the hand [practice].",
  least: { notes: 24, full: 0.5, shown: 24, sample: 4 },
  importance: 0.6,
  chance: "fact",
  onChords: true,
  find(facts, threshold, least) {
    if (!keyboardPlayed(facts)) return null;
    const { common } = facts.account.handFit.shifts;
    const taken = common.filter((one) => one.taken);
    if (common.length < least.sample || taken.length / common.length < threshold) return null;
    const notes = facts.solo.filter((note) =>
      taken.some((one) => one.chorus === note.chorus && one.bar === note.bar),
    );
    return {
      observed: taken.length / common.length,
      strength: beyond(taken.length / common.length, threshold, least.full),
      evidence: ids(notes.slice(0, least.shown)),
      words: {
        times: countInWords(taken.length),
        all: countInWords(common.length),
        places: placesInWords(notes, facts.account.alignment.choruses),
      },
    };
  },
  wording: ["At {times} of {all} changes whose chords share a place the hand stays in it ({places})."],
  practice: null,
});
