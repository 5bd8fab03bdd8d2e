import { placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const oneNoteValue: Rule = {
  id: "one-note-value",
  heading: "time and feel",
  kind: "notice",
  measure: "share of steps inside phrases that have the same length, in eighths",
  threshold: 0.88,
  reason: "Nearly nine notes in ten of one length leave rhythm without words of its own [practice].",
  least: { notes: 32 },
  importance: 0.6,
  chance: "fact",
  find({ phrases, account }, threshold) {
    const steps = phrases.flatMap(({ notes }) =>
      notes.slice(1).flatMap((note, i) => {
        const before = notes[i]!;
        if (note.position === null || before.position === null) return [];
        return [{ note, length: Math.round((note.position - before.position) * 12) / 12 }];
      }),
    );
    if (steps.length < 24) return null;
    const counts = new Map<number, number>();
    for (const { length } of steps) counts.set(length, (counts.get(length) ?? 0) + 1);
    const [value, count] = [...counts].sort((a, b) => b[1] - a[1])[0]!;
    const share = count / steps.length;
    if (share < threshold) return null;
    const name =
      value === 0.5
        ? "eighth notes"
        : value === 1
          ? "quarter notes"
          : value === 0.25
            ? "sixteenths"
            : "one length";
    return {
      observed: share,
      strength: beyond(share, threshold, 0.12),
      evidence: ids(steps.slice(0, 16).map(({ note }) => note)),
      words: {
        share: shareInWords(share),
        name,
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
};
