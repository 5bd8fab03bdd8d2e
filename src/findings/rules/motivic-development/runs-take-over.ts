import { countInWords, placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { MeasuredLine } from "../../measured-line.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

const inRuns = (runs: MeasuredLine["runs"]) => new Set(runs.flatMap(({ notes }) => ids(notes)));

export const runsTakeOver: Rule = rule({
  id: "runs-take-over",
  heading: "melodic and motivic development",
  kind: "practise",
  measure: "share of solo notes in stepwise runs of five notes or more",
  unit: "share",
  threshold: 0.4,
  reason: "Beyond two notes in five, scales are the subject and no longer the link [practice].",
  least: { notes: 32, full: 0.35 },
  importance: 0.85,
  chance: {
    null: "pitches shuffled",
    count: ({ runs, solo }) => inRuns(runs).size / solo.length,
    than: "more",
  },
  find({ solo, runs, account }, threshold, least) {
    const inside = inRuns(runs);
    const share = inside.size / solo.length;
    if (share < threshold) return null;
    const longest = [...runs].sort((a, b) => b.run.length - a.run.length)[0]!;
    return {
      observed: share,
      strength: beyond(share, threshold, least.full),
      evidence: solo.filter((note) => inside.has(note.id)).map((note) => note.id),
      words: {
        share: shareInWords(share),
        longest: countInWords(longest.run.length),
        places: placesInWords(longest.notes.slice(0, 1), account.alignment.choruses),
      },
    };
  },
  wording: [
    "{share} of the notes run up or down a scale (the longest, {longest} notes, starts in {places}). Keep one run as an event, and turn or skip after four notes elsewhere.",
    "The scale is in your fingers: {share} of the notes belong to runs. Break the next one after three notes with a third, and leave a rest behind it.",
  ],
  practice: {
    kind: "call and answer",
    title: "Three notes, a turn, a breath",
    text: "Answer each given bar with no more than three steps in one direction.",
  },
});
