import type { AccountNote } from "../../../account.ts";
import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { MeasuredLine } from "../../measured-line.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";
import { forEachHundred } from "./for-each-hundred.ts";
import { resolves } from "./resolving-roles.ts";

const leftHanging = ({ solo, inLine }: MeasuredLine) =>
  inLine(solo.filter((note, i) => note.role === "outside" && !goesOnByStep(note, solo[i + 1]))).filter(
    (note) => note.target === null && !resolves(note),
  );

export const outsideNotesLeftHanging: Rule = rule({
  id: "outside-notes-left-hanging",
  heading: "harmonic awareness",
  kind: "practise",
  measure: "notes outside the scale that do not lead anywhere, for each hundred notes",
  unit: "for each hundred notes",
  threshold: 6,
  reason: "About one note in sixteen, two bars of eighths: often enough to be heard as a habit [practice].",
  least: { notes: 24, full: 10, sample: 3 },
  importance: 0.65,
  chance: {
    null: "pitches shuffled",
    count: (line) => forEachHundred(leftHanging(line), line.solo),
    than: "more",
  },
  find(facts, threshold, least) {
    const { solo } = facts;
    const hanging = leftHanging(facts);
    const rate = forEachHundred(hanging, solo);
    if (hanging.length < least.sample || rate < threshold) return null;
    return {
      observed: rate,
      strength: beyond(rate, threshold, least.full),
      evidence: ids(hanging),
      words: { times: countInWords(hanging.length), places: placesInWords(hanging, choruses(solo)) },
    };
  },
  wording: [
    "{times} notes from outside the chord are left hanging ({places}). Keep the surprise, and finish it: one more step takes it home.",
  ],
  practice: {
    kind: "approach notes",
    title: "A half step home",
    text: "Into each chord tone from a half step below, then from above, chord by chord.",
  },
});

/** True when the line moves on by step within the phrase, into whatever note: what moves does not hang. */
function goesOnByStep(note: AccountNote, next: AccountNote | undefined): boolean {
  if (next === undefined || next.phrase !== note.phrase) return false;
  const size = Math.abs(next.pitch - note.pitch);
  return size === 1 || size === 2;
}
