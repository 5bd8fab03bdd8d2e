import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { MeasuredLine } from "../../measured-line.ts";
import { type Rule, rule } from "../../rule.ts";

const longestRun = (runs: MeasuredLine["runs"]) => Math.max(0, ...runs.map(({ notes }) => notes.length));

export const oneRunAsEvent: Rule = rule({
  id: "one-run-as-event",
  heading: "melodic and motivic development",
  kind: "works",
  measure: "notes in the longest stepwise run, where less than a quarter of the notes are in runs",
  unit: "notes",
  threshold: 6,
  reason: "A run that is rare is heard as a gesture [practice].",
  least: { notes: 32, most: 3, share: 0.25, strength: 0.6 },
  importance: 0.35,
  chance: { null: "pitches shuffled", count: ({ runs }) => longestRun(runs), than: "more" },
  find({ solo, runs, account }, threshold, least) {
    const long = runs.filter(({ notes }) => notes.length >= threshold);
    const inside = runs.reduce((sum, { notes }) => sum + notes.length, 0);
    if (long.length === 0 || long.length > least.most || inside / solo.length > least.share) return null;
    const notes = long.flatMap((one) => one.notes);
    return {
      observed: longestRun(runs),
      strength: least.strength,
      evidence: ids(notes),
      words: {
        length: countInWords(longestRun(runs)),
        places: placesInWords(
          long.map((one) => one.notes[0]!),
          account.alignment.choruses,
        ),
      },
    };
  },
  wording: ["A scale of {length} notes stands out in a line that otherwise turns and skips ({places})."],
  practice: null,
});
