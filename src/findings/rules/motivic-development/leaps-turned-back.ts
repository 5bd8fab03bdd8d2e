import type { AccountNote } from "../../../account.ts";
import { melodicLine } from "../../../take/index.ts";
import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

/** Semitones. */
const FIFTH = 7;
const OCTAVE = 12;

export const leapsTurnedBack: Rule = {
  id: "leaps-turned-back",
  heading: "melodic and motivic development",
  kind: "works",
  measure: "share of leaps of a fifth or more followed by a move in the other direction",
  threshold: 0.75,
  reason: "Gap-fill, a rule of any book on melody [practice].",
  least: { notes: 24 },
  importance: 0.4,
  chance: "pitches shuffled",
  find({ phrases, account }, threshold) {
    const leaps: { notes: readonly AccountNote[]; turned: boolean }[] = [];
    for (const { notes: played } of phrases) {
      // Of keys struck together the highest is the line; an octave is the same note again.
      const notes = melodicLine(played).map(({ note }) => note);
      for (let i = 1; i + 1 < notes.length; i++) {
        const leap = notes[i]!.pitch - notes[i - 1]!.pitch;
        if (Math.abs(leap) < FIFTH || leap % OCTAVE === 0) continue;
        const after = notes[i + 1]!.pitch - notes[i]!.pitch;
        leaps.push({ notes: notes.slice(i - 1, i + 2), turned: leap * after < 0 });
      }
    }
    const turned = leaps.filter((leap) => leap.turned);
    if (leaps.length < 4 || turned.length / leaps.length < threshold) return null;
    const notes = turned.flatMap((leap) => leap.notes);
    return {
      observed: turned.length / leaps.length,
      strength: beyond(turned.length / leaps.length, threshold, 0.25),
      evidence: [...new Set(ids(notes))],
      words: {
        count: countInWords(leaps.length),
        places: placesInWords(notes, account.alignment.choruses),
      },
    };
  },
  wording: [
    "Of your {count} wide leaps nearly all turn back into the gap they opened ({places}): leaps that sing.",
  ],
  practice: null,
};
