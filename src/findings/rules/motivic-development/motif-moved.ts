import { countInWords, placesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { melodic, notesOf } from "./melodic-motifs.ts";

/** Semitones: an octave away it is the same pitch again. */
const OCTAVE = 12;

export const motifMoved: Rule = rule({
  id: "motif-moved",
  heading: "melodic and motivic development",
  kind: "works",
  measure: "occurrences of a motif at another pitch, by the same intervals",
  unit: "times",
  threshold: 2,
  reason: "One moved statement may be chance of the hand; two are a sequence [practice].",
  least: { notes: 24, full: 4 },
  importance: 0.9,
  chance: "closed form",
  find(facts, threshold, least) {
    for (const motif of melodic(facts)) {
      const moved = motif.occurrences.filter(
        (one) =>
          one.relation === "transposed" && one.transposition !== null && one.transposition % OCTAVE !== 0,
      );
      if (moved.length < threshold) continue;
      const notes = moved.map((one) => facts.byId.get(one.firstNote)).filter((note) => note !== undefined);
      return {
        observed: moved.length,
        strength: beyond(moved.length, threshold - 1, least.full),
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
    "An idea of {length} notes comes back at another pitch, {times} ({places}): that is development.",
  ],
  practice: null,
});
