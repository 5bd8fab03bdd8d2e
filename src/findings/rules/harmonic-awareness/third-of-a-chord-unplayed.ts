import type { AccountNote } from "../../../account.ts";
import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";

export const thirdOfAChordUnplayed: Rule = {
  id: "third-of-a-chord-unplayed",
  heading: "harmonic awareness",
  kind: "practise",
  measure: "solo notes on a chord whose third is never played",
  threshold: 10,
  reason:
    "Ten notes leave room for every tone of a seven-tone scale; the third is the one that names the chord [practice].",
  least: { notes: 24 },
  importance: 0.7,
  chance: "pitches shuffled",
  find({ solo }, threshold) {
    const byChord = new Map<string, AccountNote[]>();
    for (const note of solo) {
      if (note.chord === null) continue;
      byChord.set(note.chord, [...(byChord.get(note.chord) ?? []), note]);
    }
    const without = [...byChord]
      .filter(([, notes]) => notes.length >= threshold && !notes.some((note) => note.role === "third"))
      .sort((a, b) => b[1].length - a[1].length);
    const [chord, notes] = without[0] ?? [];
    if (chord === undefined || notes === undefined) return null;
    return {
      observed: notes.length,
      strength: beyond(notes.length, threshold - 1, 20),
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
};
