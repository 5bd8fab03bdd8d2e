import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const commonPlacementKept: Rule = {
  id: "common-placement-kept",
  heading: "keyboard technique",
  kind: "works",
  measure: "share of the chord changes with a common placement at which the hand kept it",
  threshold: 0.5,
  reason: "Half of them: the economy is in the hand [practice].",
  least: { notes: 24 },
  importance: 0.6,
  chance: "pitches shuffled",
  find(facts, threshold) {
    const { common } = facts.account.handFit.shifts;
    const taken = common.filter((one) => one.taken);
    if (common.length < 4 || taken.length / common.length < threshold) return null;
    const notes = facts.solo.filter((note) =>
      taken.some((one) => one.chorus === note.chorus && one.bar === note.bar),
    );
    return {
      observed: taken.length / common.length,
      strength: beyond(taken.length / common.length, threshold, 0.5),
      evidence: ids(notes.slice(0, 24)),
      words: {
        times: countInWords(taken.length),
        places: placesInWords(notes, facts.account.alignment.choruses),
      },
    };
  },
  wording: [
    "At {times} changes the hand stays where it is because the place serves both chords ({places}): economical and calm.",
  ],
  practice: null,
};
