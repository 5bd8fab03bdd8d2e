import type { AccountNote } from "../../../account.ts";
import { placesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { MeasuredLine } from "../../measured-line.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";
import { forEachHundred } from "./for-each-hundred.ts";

const enclosing = (notes: readonly AccountNote[]) => notes.filter((note) => note.lineRole === "enclosure");

const enclosed = ({ solo, inLine }: MeasuredLine) => [
  ...new Set(enclosing(inLine(solo)).map(({ target }) => target)),
];

export const enclosuresUsed: Rule = rule({
  id: "enclosures-used",
  heading: "harmonic awareness",
  kind: "works",
  measure: "chord tones reached from both sides",
  unit: "for each hundred notes",
  threshold: 2,
  reason: "Twice is not chance: it is in the vocabulary [practice].",
  least: { notes: 16, full: 4, sample: 2 },
  importance: 0.6,
  chance: {
    null: "pitches shuffled",
    count: (line) => forEachHundred(enclosed(line), line.solo),
    than: "more",
  },
  find(facts, threshold, least) {
    const { solo } = facts;
    const notes = enclosing(solo);
    const targets = enclosed(facts);
    const rate = forEachHundred(targets, solo);
    if (targets.length < least.sample || rate < threshold) return null;
    return {
      observed: rate,
      strength: beyond(rate, threshold, least.full),
      evidence: ids(notes),
      words: { times: timesInWords(targets.length), places: placesInWords(notes, choruses(solo)) },
    };
  },
  wording: [
    "You circle a chord tone from above and below before you land, {times}: {places}. It makes the arrival feel earned.",
  ],
  practice: null,
});
