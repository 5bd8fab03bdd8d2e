import type { AccountNote } from "../../../account.ts";
import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { type Rule, rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";

const blueNotes = (notes: readonly AccountNote[]) => notes.filter((note) => note.role === "blue").length;

export const bluesWithoutBlueNotes: Rule = rule({
  id: "blues-without-blue-notes",
  heading: "harmonic awareness",
  kind: "practise",
  measure: "blue notes in a blues",
  unit: "notes",
  threshold: 0,
  reason: "A blues chorus without one is rare in the repertoire [practice].",
  least: { notes: 32, shown: 8, strength: 0.6 },
  importance: 0.45,
  chance: { null: "pitches drawn", count: ({ solo }) => blueNotes(solo), than: "less" },
  find({ account, solo }, threshold, least) {
    if (account.chart.idiom !== "blues") return null;
    const majors = solo.filter((note) => note.role === "third" && note.degree === "3");
    if (solo.some((note) => note.blueInKey) || majors.length === 0) return null;
    if (blueNotes(solo) > threshold) return null;
    return {
      strength: least.strength,
      evidence: ids(majors.slice(0, least.shown)),
      words: { places: placesInWords(majors.slice(0, 1), choruses(solo)) },
    };
  },
  wording: [
    "The line is clear and sweet, and no blue note comes in it. Slide into one third from a half step below: the one in {places} is waiting for it.",
  ],
  practice: {
    kind: "slides",
    title: "Into the third from below",
    text: "The fourth finger falls from the black key to the white key above it, into the third of the chord.",
  },
});
