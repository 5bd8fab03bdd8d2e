import { examplesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";
import { guideToneShare, metChanges } from "./met-changes.ts";

export const guideTonesMeetChanges: Rule = rule({
  id: "guide-tones-meet-changes",
  heading: "harmonic awareness",
  kind: "works",
  measure: "share of chord changes met with a third or seventh within the first beat",
  unit: "share",
  threshold: 0.45,
  reason: "Chance alone gives about two tones of seven, 0.29 [practice]; this is half as much again.",
  least: { notes: 20, full: 0.35, sample: 6 },
  importance: 0.9,
  chance: { null: "pitches shuffled", count: guideToneShare, than: "more" },
  find({ entries, solo }, threshold, least) {
    const met = metChanges(entries);
    if (met.length < least.sample) return null;
    const good = met.filter((entry) => entry.note.guideTone).map((entry) => entry.note);
    const share = good.length / met.length;
    if (share < threshold) return null;
    return {
      observed: share,
      strength: beyond(share, threshold, least.full),
      evidence: ids(good),
      words: { share: shareInWords(share), places: examplesInWords(good, choruses(solo)) },
    };
  },
  wording: [
    "You meet {share} of the chord changes with a third or a seventh: the line alone tells which chord it is (hear {places}).",
    "The changes can be heard in your line without the left hand: {share} of them begin on a guide tone, as in {places}.",
  ],
  practice: null,
});
