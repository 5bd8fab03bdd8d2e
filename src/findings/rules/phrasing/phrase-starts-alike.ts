import { countInWords, placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { startsOf } from "./endings.ts";
import { favouriteStart } from "./favourite-start.ts";

export const phraseStartsAlike: Rule = rule({
  id: "phrase-starts-alike",
  heading: "phrasing and shape",
  kind: "practise",
  measure: "largest share of phrases that start on the same beat of the bar",
  unit: "share",
  threshold: 0.7,
  reason: "Seven in ten on one of eight places [practice].",
  least: { notes: 24, phrases: 6, full: 0.3, sample: 4 },
  importance: 0.65,
  chance: {
    null: "moved in time",
    count: ({ phrases }) => favouriteStart(startsOf(phrases)).share,
    than: "more",
  },
  find({ phrases, account }, threshold, least) {
    const { share, beat, notes } = favouriteStart(startsOf(phrases));
    if (notes.length < least.sample || share < threshold || beat === null) return null;
    return {
      observed: share,
      strength: beyond(share, threshold, least.full),
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
});

function beatInWords(beat: number): string {
  const whole = Math.floor(beat);
  return beat === whole ? `beat ${countInWords(whole)}` : `the off-beat after ${countInWords(whole)}`;
}
