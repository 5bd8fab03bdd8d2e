import { placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

/** Lengths are told apart by a twelfth of a beat, fine enough for triplets and sixteenths. */
const PARTS = 12;

/** Names of lengths in quarter-note beats. */
const NAMES: ReadonlyMap<number, string> = new Map([
  [1, "quarter notes"],
  [0.5, "eighth notes"],
  [0.25, "sixteenths"],
]);

export const oneNoteValue: Rule = rule({
  id: "one-note-value",
  heading: "time and feel",
  kind: "notice",
  measure: "share of steps inside phrases that have the same length, in eighths",
  unit: "share",
  threshold: 0.88,
  reason: "Nearly nine notes in ten of one length leave rhythm without words of its own [practice].",
  least: { notes: 32, full: 0.12, shown: 16, sample: 24 },
  importance: 0.6,
  chance: "fact",
  find({ phrases, account }, threshold, least) {
    const steps = phrases.flatMap(({ notes }) =>
      notes.slice(1).flatMap((note, i) => {
        const before = notes[i]!;
        if (note.position === null || before.position === null) return [];
        return [{ note, length: Math.round((note.position - before.position) * PARTS) / PARTS }];
      }),
    );
    if (steps.length < least.sample) return null;
    const counts = new Map<number, number>();
    for (const { length } of steps) counts.set(length, (counts.get(length) ?? 0) + 1);
    const [value, count] = [...counts].sort((a, b) => b[1] - a[1])[0]!;
    const share = count / steps.length;
    if (share < threshold) return null;
    return {
      observed: share,
      strength: beyond(share, threshold, least.full),
      evidence: ids(steps.slice(0, least.shown).map(({ note }) => note)),
      words: {
        share: shareInWords(share),
        name: NAMES.get(value) ?? "one length",
        places: placesInWords(
          steps.slice(0, 1).map(({ note }) => note),
          account.alignment.choruses,
        ),
      },
    };
  },
  wording: [
    "Inside the phrases {share} of the notes are {name} (as in {places}).",
    "{share} of the notes inside the phrases are {name}, for instance in {places}.",
  ],
  practice: {
    kind: "call and answer",
    title: "Same notes, new rhythm",
    text: "Play the given bar, then answer with the same notes in a rhythm that you clap first.",
  },
});
