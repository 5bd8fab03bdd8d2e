import { listInWords, placesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { MeasuredLine } from "../../measured-line.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";
import { forEachHundred } from "./for-each-hundred.ts";
import { resolves } from "./resolving-roles.ts";

/** From the middle of the bar on a place is strong; a beat is long. [practice] */
const LEANED = { strength: 0.5, beats: 1 } as const;

const leanedOn = ({ solo, inLine }: MeasuredLine) =>
  inLine(
    solo.filter(
      ({ role, strength, beats }) =>
        role === "avoid" && (strength >= LEANED.strength || (beats ?? 0) >= LEANED.beats),
    ),
  ).filter((note) => !resolves(note));

export const avoidNotesLeanedOn: Rule = rule({
  id: "avoid-notes-leaned-on",
  heading: "harmonic awareness",
  kind: "practise",
  measure:
    "avoid notes on a strong place or held a beat or longer, not resolved by step, for each hundred notes",
  unit: "for each hundred notes",
  threshold: 4,
  reason:
    "One in twenty-five is heard as an accident; more as a habit [practice]. Avoid notes after the chord-scale handbooks (Nettles & Graf) [memory].",
  least: { notes: 24, full: 8, sample: 2 },
  importance: 0.75,
  chance: {
    null: "pitches shuffled",
    count: (line) => forEachHundred(leanedOn(line), line.solo),
    than: "more",
  },
  find(facts, threshold, least) {
    const { solo } = facts;
    const leaned = leanedOn(facts);
    const rate = forEachHundred(leaned, solo);
    if (leaned.length < least.sample || rate < threshold) return null;
    const named = [
      ...new Set(leaned.map((note) => `${note.spelling.replace(/-?\d+$/, "")} on ${note.chord}`)),
    ];
    return {
      observed: rate,
      strength: beyond(rate, threshold, least.full),
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
});
