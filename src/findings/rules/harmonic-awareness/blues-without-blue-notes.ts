import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { Rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";

export const bluesWithoutBlueNotes: Rule = {
  id: "blues-without-blue-notes",
  heading: "harmonic awareness",
  kind: "practise",
  measure: "blue notes in a blues",
  threshold: 0,
  reason: "A blues chorus without one is rare in the repertoire [practice].",
  least: { notes: 32 },
  importance: 0.45,
  chance: "pitches drawn",
  find({ account, solo }, threshold) {
    if (account.chart.idiom !== "blues") return null;
    const majors = solo.filter((note) => note.role === "third" && note.degree === "3");
    if (solo.some((note) => note.blueInKey) || majors.length === 0) return null;
    if (solo.filter((note) => note.role === "blue").length > threshold) return null;
    return {
      strength: 0.6,
      evidence: ids(majors.slice(0, 8)),
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
};
