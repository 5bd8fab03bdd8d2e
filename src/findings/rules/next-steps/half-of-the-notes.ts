import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

export const halfOfTheNotes: Rule = rule({
  id: "half-of-the-notes",
  heading: "phrasing and shape",
  kind: "practise",
  measure: "solo notes a bar",
  unit: "notes a bar",
  threshold: 6.5,
  reason:
    "Denser than two thirds of the open solos, whose median is 5.9 notes a bar: never said to the sparser half.",
  least: { notes: 24, full: 4, shown: 8 },
  importance: 0.14,
  chance: "fact",
  find({ solo, account }, threshold, least) {
    const bars = account.alignment.bars.length;
    const density = bars === 0 ? 0 : solo.length / bars;
    if (density < threshold) return null;
    return {
      observed: density,
      strength: beyond(density, threshold, least.full),
      evidence: ids(solo.slice(0, least.shown)),
      words: {
        density: String(Math.round(density)),
        places: placesInWords(solo.slice(0, 1), account.alignment.choruses),
      },
    };
  },
  wording: [
    "The line has about {density} notes a bar. Play the chorus again with half of them, beginning in {places}: keep those that you would sing.",
  ],
  practice: {
    kind: "rests",
    title: "What can be left out",
    text: "Two bars played, two bars left to the listener; sing what you do not play.",
  },
});
