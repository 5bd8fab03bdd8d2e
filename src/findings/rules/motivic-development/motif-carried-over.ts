import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids, motifStarts } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { melodic, notesOf } from "./melodic-motifs.ts";

export const motifCarriedOver: Rule = rule({
  id: "motif-carried-over",
  heading: "melodic and motivic development",
  kind: "works",
  measure: "choruses in which the same motif is heard",
  unit: "choruses",
  threshold: 2,
  reason: "An idea that survives the double bar ties choruses together [practice].",
  least: { notes: 40, choruses: 2, full: 3, named: 4 },
  importance: 0.75,
  chance: "closed form",
  find(facts, threshold, least) {
    for (const motif of melodic(facts)) {
      const starts = motifStarts(facts, motif);
      const heard = new Set(starts.map((note) => note.chorus));
      if (heard.size < threshold) continue;
      return {
        observed: heard.size,
        strength: beyond(heard.size, threshold - 1, least.full),
        evidence: ids(notesOf(facts, motif)),
        words: {
          choruses: countInWords(heard.size),
          places: placesInWords(starts, facts.account.alignment.choruses, least.named),
        },
      };
    }
    return null;
  },
  wording: ["One idea lives in {choruses} choruses ({places})."],
  practice: null,
});
