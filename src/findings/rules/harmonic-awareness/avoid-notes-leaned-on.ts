import { listInWords, placesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";
import { RESOLVING } from "./resolving-roles.ts";

export const avoidNotesLeanedOn: Rule = {
  id: "avoid-notes-leaned-on",
  heading: "harmonic awareness",
  kind: "practise",
  measure:
    "avoid notes on a strong place or held a beat or longer, not resolved by step, for each hundred notes",
  threshold: 4,
  reason:
    "One in twenty-five is heard as an accident; more as a habit [practice]. Avoid notes after the chord-scale handbooks (Nettles & Graf) [memory].",
  least: { notes: 24 },
  importance: 0.75,
  chance: "pitches shuffled",
  find({ solo }, threshold) {
    const leaned = solo.filter(
      (note) =>
        note.role === "avoid" &&
        (note.strength >= 0.5 || (note.beats ?? 0) >= 1) &&
        !(note.lineRole !== null && RESOLVING.has(note.lineRole)),
    );
    const rate = (100 * leaned.length) / solo.length;
    if (leaned.length < 2 || rate < threshold) return null;
    const named = [
      ...new Set(leaned.map((note) => `${note.spelling.replace(/-?\d+$/, "")} on ${note.chord}`)),
    ];
    return {
      observed: rate,
      strength: beyond(rate, threshold, 8),
      evidence: ids(leaned),
      words: {
        times: timesInWords(leaned.length),
        named: listInWords(named.slice(0, 2)),
        places: placesInWords(leaned, choruses(solo)),
      },
    };
  },
  wording: [
    "You lean {times} on a note that rubs against the chord ({named}). It is a fine passing note: move it on by a step, as you can try in {places}.",
    "{named}: a note that wants to move. You stay on it {times}, in {places}; resolve it to the chord tone a step away.",
  ],
  practice: {
    kind: "approach notes",
    title: "From the rub to the rest",
    text: "Play the rubbing note on purpose and resolve it by step, on every chord of the form.",
  },
};
