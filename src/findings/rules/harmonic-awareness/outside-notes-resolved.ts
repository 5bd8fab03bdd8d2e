import { countInWords, placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { MeasuredLine } from "../../measured-line.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";
import { resolves } from "./resolving-roles.ts";

function outsideNotes({ solo, inLine, runs }: MeasuredLine) {
  // A run passes through everything: what it touches on its way is neither outside playing nor resolved.
  const running = new Set(runs.flatMap(({ notes }) => ids(notes)));
  const outside = inLine(solo.filter((note) => note.role === "outside" && !running.has(note.id)));
  return { outside, led: outside.filter((note) => note.target !== null || resolves(note)) };
}

function ledShare(line: MeasuredLine): number | null {
  const { outside, led } = outsideNotes(line);
  return outside.length === 0 ? null : led.length / outside.length;
}

export const outsideNotesResolved: Rule = rule({
  id: "outside-notes-resolved",
  heading: "harmonic awareness",
  kind: "works",
  measure: "share of notes outside the scale that lead by step into a chord tone",
  unit: "share",
  threshold: 0.75,
  reason: "Three in four: the ear takes them for direction, not for mistakes [practice].",
  least: { notes: 24, full: 0.25, sample: 4 },
  importance: 0.6,
  chance: { null: "pitches shuffled", count: ledShare, than: "more" },
  find(facts, threshold, least) {
    const { solo } = facts;
    const { outside, led } = outsideNotes(facts);
    if (outside.length < least.sample) return null;
    const share = led.length / outside.length;
    if (share < threshold) return null;
    return {
      observed: share,
      strength: beyond(share, threshold, least.full),
      evidence: ids(led),
      words: {
        share: shareInWords(share),
        count: countInWords(outside.length),
        places: placesInWords(led, choruses(solo)),
      },
    };
  },
  wording: [
    "Your chromatic notes go somewhere: {share} of the {count} step into a chord tone (hear {places}).",
    "{count} notes from outside the chord's scale are played, and {share} of them resolve by step.",
  ],
  practice: null,
});
