import { degreeName } from "../../../chart/index.ts";
import { examplesInWords, listInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { MeasuredLine } from "../../measured-line.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";
import { forEachHundred } from "./for-each-hundred.ts";

const heldColours = ({ solo, inLine }: MeasuredLine) =>
  inLine(solo.filter(({ role }) => role === "tension")).filter(({ lineRole }) => lineRole === "held colour");

export const coloursHeld: Rule = rule({
  id: "colours-held",
  heading: "harmonic awareness",
  kind: "works",
  measure: "tensions or blue notes that stand for themselves, for each hundred notes",
  unit: "for each hundred notes",
  threshold: 8,
  reason: "One in twelve: a colour in nearly every phrase [practice].",
  least: { notes: 24, full: 8, sample: 3, named: 3 },
  importance: 0.5,
  chance: {
    null: "pitches shuffled",
    count: (line) => forEachHundred(heldColours(line), line.solo),
    than: "more",
  },
  find(facts, threshold, least) {
    const { solo } = facts;
    const notes = heldColours(facts);
    const rate = forEachHundred(notes, solo);
    if (notes.length < least.sample || rate < threshold) return null;
    const degrees = [...new Set(notes.map((note) => note.degree!))].slice(0, least.named);
    return {
      observed: rate,
      strength: beyond(rate, threshold, least.full),
      evidence: ids(notes),
      words: {
        degrees: listInWords(degrees.map((degree) => `the ${degreeName(degree)}`)),
        places: examplesInWords(notes, choruses(solo)),
      },
    };
  },
  wording: ["You rest on colours, {degrees}, and let them ring, as in {places}."],
  practice: null,
});
