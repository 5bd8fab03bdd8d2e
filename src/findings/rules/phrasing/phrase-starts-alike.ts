import { countInWords, placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { favouriteStart } from "./favourite-start.ts";

export const phraseStartsAlike: Rule = {
  id: "phrase-starts-alike",
  heading: "phrasing and shape",
  kind: "practise",
  measure: "largest share of phrases that start on the same beat of the bar",
  threshold: 0.7,
  reason: "Seven in ten on one of eight places [practice].",
  least: { notes: 24, phrases: 6 },
  importance: 0.65,
  chance: "moved in time",
  find({ phrases, account }, threshold) {
    const { share, beat, notes } = favouriteStart(phrases.map((one) => one.notes[0]));
    if (notes.length < 4 || share < threshold || beat === null) return null;
    return {
      observed: share,
      strength: beyond(share, threshold, 0.3),
      evidence: ids(notes),
      words: {
        share: shareInWords(share),
        beat: beatInWords(beat),
        places: placesInWords(notes, account.alignment.choruses),
      },
    };
  },
  wording: [
    "{share} of your phrases start on {beat} ({places}). Begin the same phrase an eighth later, then two beats later, and keep the one that surprises you.",
  ],
  practice: {
    kind: "entries",
    title: "The same phrase, another beat",
    text: "Your phrase entering on each beat in turn, then on each off-beat.",
  },
};

function beatInWords(beat: number): string {
  const whole = Math.floor(beat);
  return Math.abs(beat - whole) < 0.01
    ? `beat ${countInWords(whole)}`
    : `the off-beat after ${countInWords(whole)}`;
}
