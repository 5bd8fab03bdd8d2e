import { placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

const OUTLINES: Readonly<Record<string, string>> = {
  arch: "rise and fall again",
  valley: "fall and rise again",
  rising: "rise",
  falling: "fall",
  level: "stay level",
  wave: "move in waves",
};

export const phraseShapesAlike: Rule = {
  id: "phrase-shapes-alike",
  heading: "phrasing and shape",
  kind: "practise",
  measure: "share of phrases of four notes or more with the same outline",
  threshold: 0.75,
  reason: "Three in four draw the same line [practice].",
  least: { notes: 32, phrases: 6 },
  importance: 0.5,
  chance: "pitches shuffled",
  find({ phrases, account }, threshold) {
    const shaped = phrases.filter(({ notes }) => notes.length >= 4);
    if (shaped.length < 6) return null;
    const counts = new Map<string, number>();
    for (const { phrase } of shaped) counts.set(phrase.shape, (counts.get(phrase.shape) ?? 0) + 1);
    const [shape, count] = [...counts].sort((a, b) => b[1] - a[1])[0]!;
    if (count / shaped.length < threshold) return null;
    const alike = shaped.filter(({ phrase }) => phrase.shape === shape);
    return {
      observed: count / shaped.length,
      strength: beyond(count / shaped.length, threshold, 0.25),
      evidence: ids(alike.flatMap(({ notes }) => notes)),
      words: {
        share: shareInWords(count / shaped.length),
        shape: OUTLINES[shape] ?? shape,
        places: placesInWords(
          alike.flatMap(({ notes }) => notes.slice(0, 1)),
          account.alignment.choruses,
        ),
      },
    };
  },
  wording: [
    "{share} of your phrases {shape} ({places}). Draw the opposite line in the air with a finger, then play it.",
  ],
  practice: {
    kind: "call and answer",
    title: "Answer with the other outline",
    text: "Where the printed bar rises, your answer falls, and the other way round.",
  },
};
