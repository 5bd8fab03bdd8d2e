import type { AccountNote } from "../../../account.ts";
import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";

/** The chord without its third on which most notes are played, and those notes. */
function withoutThird(solo: readonly AccountNote[]): { chord: string | null; notes: readonly AccountNote[] } {
  const byChord = new Map<string, AccountNote[]>();
  for (const note of solo) {
    if (note.chord === null) continue;
    const notes = byChord.get(note.chord);
    if (notes === undefined) byChord.set(note.chord, [note]);
    else notes.push(note);
  }
  const [chord, notes] = [...byChord]
    .filter(([, notes]) => !notes.some((note) => note.role === "third"))
    .sort((a, b) => b[1].length - a[1].length)[0] ?? [null, []];
  return { chord, notes };
}

export const thirdOfAChordUnplayed: Rule = rule({
  id: "third-of-a-chord-unplayed",
  heading: "harmonic awareness",
  kind: "practise",
  measure: "solo notes on a chord whose third is never played",
  unit: "notes",
  threshold: 10,
  reason:
    "Ten notes leave room for every tone of a seven-tone scale; the third is the one that names the chord [practice].",
  least: { notes: 24, full: 20 },
  importance: 0.7,
  chance: { null: "pitches shuffled", count: ({ solo }) => withoutThird(solo).notes.length, than: "more" },
  find({ solo }, threshold, least) {
    const { chord, notes } = withoutThird(solo);
    if (chord === null || notes.length < threshold) return null;
    return {
      observed: notes.length,
      strength: beyond(notes.length, threshold - 1, least.full),
      evidence: ids(notes),
      words: {
        chord,
        notes: countInWords(notes.length),
        places: placesInWords(notes.filter((note) => note.bar > 0).slice(0, 1), choruses(solo)) || "it",
      },
    };
  },
  wording: [
    "Over {chord} you play {notes} notes and never its third, the note that tells what kind of chord it is. Find it under the hand before {places} and let one phrase land on it there.",
    "The third of {chord} has not been played yet, in {notes} notes over that chord. Put it under a finger before {places} comes round, and wait for it.",
  ],
  practice: {
    kind: "guide tones",
    title: "The third of {chord}",
    text: "Land on the third each time that {chord} comes; play anything on the way there.",
  },
});
