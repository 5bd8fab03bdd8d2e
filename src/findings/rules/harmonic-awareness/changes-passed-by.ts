import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";
import { guideToneShare, metChanges } from "./met-changes.ts";

export const changesPassedBy: Rule = rule({
  id: "changes-passed-by",
  heading: "harmonic awareness",
  kind: "practise",
  measure: "share of chord changes met with a third or seventh within the first beat",
  unit: "share",
  threshold: 0.15,
  reason: "Half of what chance would give (about two tones of seven, 0.29) [practice].",
  least: { notes: 20, full: -0.15, sample: 8 },
  importance: 0.8,
  chance: { null: "pitches shuffled", count: guideToneShare, than: "less" },
  find({ entries, solo }, threshold, least) {
    const met = metChanges(entries);
    if (met.length < least.sample) return null;
    const good = met.filter((entry) => entry.note.guideTone);
    const share = good.length / met.length;
    if (share > threshold) return null;
    const missed = met.filter((entry) => !entry.note.guideTone).map((entry) => entry.note);
    return {
      observed: share,
      strength: beyond(share, threshold, least.full),
      evidence: ids(missed),
      words: {
        good: good.length === 0 ? "none" : countInWords(good.length),
        all: String(met.length),
        places: placesInWords(missed.slice(0, 1), choruses(solo)),
      },
    };
  },
  wording: [
    "You play into {all} chord changes and meet {good} of them with a third or a seventh. Choose one change, say the one in {places}, and land on the third there; let the others follow.",
  ],
  practice: {
    kind: "guide tones",
    title: "Thirds and sevenths through the form",
    text: "Half notes first: the third and the seventh of each chord by the shortest way. Then fill the way between them with your own notes.",
  },
});
