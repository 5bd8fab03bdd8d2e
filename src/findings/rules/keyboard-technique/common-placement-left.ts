import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { keyboardPlayed } from "./keyboard-played.ts";

export const commonPlacementLeft: Rule = rule({
  id: "common-placement-left",
  heading: "keyboard technique",
  kind: "notice",
  measure: "share of the chord changes with a common placement at which the hand kept it",
  unit: "share",
  threshold: 0.2,
  reason: "Four in five were not used [practice].",
  least: { notes: 32, full: -0.2, shown: 24, sample: 5 },
  importance: 0.45,
  chance: "fact",
  onChords: true,
  find(facts, threshold, least) {
    if (!keyboardPlayed(facts)) return null;
    const { common } = facts.account.handFit.shifts;
    const taken = common.filter((one) => one.taken);
    if (common.length < least.sample || taken.length / common.length > threshold) return null;
    const left = common.filter((one) => !one.taken);
    const notes = facts.solo.filter((note) =>
      left.some((one) => one.chorus === note.chorus && one.bar === note.bar),
    );
    return {
      observed: taken.length / common.length,
      strength: beyond(taken.length / common.length, threshold, least.full),
      evidence: ids(notes.slice(0, least.shown)),
      words: {
        times: countInWords(left.length),
        // "third-and-steps, index finger on G": the shape is the one that the hand has anyway.
        placement: left[0]!.placement.replace(/^.*, /, ""),
        places: placesInWords(notes, facts.account.alignment.choruses),
      },
    };
  },
  wording: [
    "{times} chord changes could be played without moving the hand, and it moves ({places}). At the first of them a hand with the {placement} serves both chords: play across the change without lifting it.",
  ],
  practice: null,
});
