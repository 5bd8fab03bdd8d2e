import { placesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const seamPlayedAcross: Rule = {
  id: "seam-played-across",
  heading: "phrasing and shape",
  kind: "works",
  measure: "phrases that go across the end of a chorus",
  threshold: 1,
  reason: "The double bar is for the eye; a phrase across it hides the form [practice].",
  least: { notes: 24, choruses: 2 },
  importance: 0.5,
  chance: "moved in time",
  find({ phrases, account }, threshold) {
    const last = account.chart.bars.length;
    const across = phrases.filter(({ notes }) =>
      notes.some((note, i) => i > 0 && note.chorus > notes[i - 1]!.chorus && notes[i - 1]!.bar === last),
    );
    if (across.length < threshold) return null;
    return {
      observed: across.length,
      strength: beyond(across.length, threshold - 1, 3),
      evidence: ids(across.flatMap(({ notes }) => notes)),
      words: {
        times: timesInWords(across.length),
        places: placesInWords(
          across.flatMap(({ notes }) => notes.slice(0, 1)),
          account.alignment.choruses,
        ),
      },
    };
  },
  wording: [
    "You play across the seam between choruses ({times}: the phrase from {places}), so the form flows on.",
  ],
  practice: null,
};
