import { examplesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";

export const guideTonesMeetChanges: Rule = {
  id: "guide-tones-meet-changes",
  heading: "harmonic awareness",
  kind: "works",
  measure: "share of chord changes met with a third or seventh within the first beat",
  threshold: 0.45,
  reason: "Chance alone gives about two tones of seven, 0.29 [practice]; this is half as much again.",
  least: { notes: 20 },
  importance: 0.9,
  chance: "pitches shuffled",
  find({ entries, solo }, threshold) {
    const met = entries.filter((entry) => entry.after < 1);
    if (met.length < 6) return null;
    const good = met.filter((entry) => entry.note.guideTone).map((entry) => entry.note);
    const share = good.length / met.length;
    if (share < threshold) return null;
    return {
      observed: share,
      strength: beyond(share, threshold, 0.35),
      evidence: ids(good),
      words: { share: shareInWords(share), places: examplesInWords(good, choruses(solo)) },
    };
  },
  wording: [
    "You meet {share} of the chord changes with a third or a seventh: the line alone tells which chord it is (hear {places}).",
    "The changes can be heard in your line without the left hand: {share} of them begin on a guide tone, as in {places}.",
  ],
  practice: null,
};
