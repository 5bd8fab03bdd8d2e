import { placesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { MeasuredLine } from "../../measured-line.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

/** Phrases that go on from the last bar of the chart into the next chorus. */
function acrossTheSeam({ phrases, chartBars }: MeasuredLine) {
  return phrases.filter(({ notes }) =>
    notes.some((note, i) => i > 0 && note.chorus > notes[i - 1]!.chorus && notes[i - 1]!.bar === chartBars),
  );
}

export const seamPlayedAcross: Rule = rule({
  id: "seam-played-across",
  heading: "phrasing and shape",
  kind: "works",
  measure: "phrases that go across the end of a chorus",
  unit: "phrases",
  threshold: 1,
  reason: "The double bar is for the eye; a phrase across it hides the form [practice].",
  least: { notes: 24, choruses: 2, full: 3 },
  importance: 0.5,
  chance: { null: "moved in time", count: (line) => acrossTheSeam(line).length, than: "more" },
  find(facts, threshold, least) {
    const across = acrossTheSeam(facts);
    if (across.length < threshold) return null;
    return {
      observed: across.length,
      strength: beyond(across.length, threshold - 1, least.full),
      evidence: ids(across.flatMap(({ notes }) => notes)),
      words: {
        times: timesInWords(across.length),
        places: placesInWords(
          across.flatMap(({ notes }) => notes.slice(0, 1)),
          facts.account.alignment.choruses,
        ),
      },
    };
  },
  wording: [
    "You play across the seam between choruses ({times}: the phrase from {places}), so the form flows on.",
  ],
  practice: null,
});
