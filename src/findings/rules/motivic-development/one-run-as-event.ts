import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { Rule } from "../../rule.ts";

export const oneRunAsEvent: Rule = {
  id: "one-run-as-event",
  heading: "melodic and motivic development",
  kind: "works",
  measure: "stepwise runs of six notes or more in a take where less than a quarter of the notes are in runs",
  threshold: 1,
  reason: "A run that is rare is heard as a gesture [practice].",
  least: { notes: 32 },
  importance: 0.35,
  chance: "pitches shuffled",
  find({ solo, runs, account }, threshold) {
    const long = runs.filter(({ run }) => run.length >= 6);
    const inside = runs.reduce((sum, { run }) => sum + run.length, 0);
    if (long.length < threshold || long.length > 3 || inside / solo.length > 0.25) return null;
    const notes = long.flatMap((one) => one.notes);
    return {
      strength: 0.6,
      evidence: ids(notes),
      words: {
        places: placesInWords(
          long.map((one) => one.notes[0]!),
          account.alignment.choruses,
        ),
      },
    };
  },
  wording: ["You save the fast scale for a moment that wants it ({places}), so it arrives as an event."],
  practice: null,
};
