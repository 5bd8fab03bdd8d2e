import { countInWords, placesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { melodic, notesOf } from "./melodic-motifs.ts";

export const motifMoved: Rule = {
  id: "motif-moved",
  heading: "melodic and motivic development",
  kind: "works",
  measure: "occurrences of a motif at another pitch, by the same intervals or the same fingers",
  threshold: 2,
  reason: "One moved statement may be chance of the hand; two are a sequence [practice].",
  least: { notes: 24 },
  importance: 0.9,
  chance: "closed form",
  find(facts, threshold) {
    for (const motif of melodic(facts)) {
      const moved = motif.occurrences.filter(
        (one) =>
          (one.relation === "transposed" || one.relation === "same fingering") &&
          one.transposition !== null &&
          one.transposition % 12 !== 0,
      );
      if (moved.length < threshold) continue;
      const notes = moved.map((one) => facts.byId.get(one.firstNote)).filter((note) => note !== undefined);
      return {
        observed: moved.length,
        strength: beyond(moved.length, threshold - 1, 4),
        evidence: ids(notesOf(facts, motif)),
        words: {
          length: countInWords(motif.length),
          times: timesInWords(moved.length),
          places: placesInWords(notes, facts.account.alignment.choruses),
        },
      };
    }
    return null;
  },
  wording: [
    "You take an idea of {length} notes and move it, {times}, to another place under the hand ({places}): that is development.",
  ],
  practice: null,
};
