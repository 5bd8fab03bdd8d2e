import { placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

export const handNotExplained: Rule = rule({
  id: "hand-not-explained",
  heading: "keyboard technique",
  kind: "notice",
  measure: "share of solo notes that lie in one of the shapes",
  unit: "share",
  threshold: 0.6,
  reason: "Below it more than every third note was fingered in a way that the shapes do not tell [practice].",
  least: { notes: 24, full: -0.4, shown: 24 },
  importance: 0.5,
  chance: "fact",
  find({ account, solo }, threshold, least) {
    // Where no shape was chosen, nothing was promised: free fingers are no lack.
    if (account.options.shapes === null || account.options.shapes.length === 0) return null;
    if (account.handFit.share >= threshold) return null;
    const free = solo.filter((note) => note.placement === null);
    return {
      observed: account.handFit.share,
      strength: beyond(account.handFit.share, threshold, least.full),
      evidence: ids(free.slice(0, least.shown)),
      words: {
        share: shareInWords(account.handFit.share),
        places: placesInWords(free, account.alignment.choruses),
      },
    };
  },
  wording: [
    "{share} of the notes lie in the chosen shapes; those in {places} are fingered freely. The hand may use a shape of its own: it can be added.",
  ],
  practice: null,
});
