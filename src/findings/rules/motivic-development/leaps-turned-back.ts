import type { AccountNote } from "../../../account.ts";
import { melodicLine } from "../../../take/index.ts";
import { countInWords, placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { MeasuredLine } from "../../measured-line.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

/** Semitones. */
const FIFTH = 7;
const OCTAVE = 12;

interface Leap {
  readonly notes: readonly AccountNote[];
  readonly turned: boolean;
}

/** Leaps inside the phrases; the same three pitches again are the same leap. */
function leapsIn({ phrases }: MeasuredLine): Leap[] {
  const leaps = new Map<string, Leap>();
  for (const { notes: played } of phrases) {
    // Of keys struck together the highest is the line; an octave is the same note again.
    const notes = melodicLine(played).map(({ note }) => note);
    for (let i = 1; i + 1 < notes.length; i++) {
      const leap = notes[i]!.pitch - notes[i - 1]!.pitch;
      if (Math.abs(leap) < FIFTH || leap % OCTAVE === 0) continue;
      const after = notes[i + 1]!.pitch - notes[i]!.pitch;
      const three = notes.slice(i - 1, i + 2);
      leaps.set(three.map(({ pitch }) => pitch).join(), { notes: three, turned: leap * after < 0 });
    }
  }
  return [...leaps.values()];
}

function turnedShare(line: MeasuredLine): number | null {
  const leaps = leapsIn(line);
  return leaps.length === 0 ? null : leaps.filter(({ turned }) => turned).length / leaps.length;
}

export const leapsTurnedBack: Rule = rule({
  id: "leaps-turned-back",
  heading: "melodic and motivic development",
  kind: "works",
  measure: "share of leaps of a fifth or more followed by a move in the other direction",
  unit: "share",
  threshold: 0.75,
  reason: "Gap-fill, a rule of any book on melody [practice].",
  least: { notes: 24, full: 0.25, sample: 4 },
  importance: 0.4,
  chance: { null: "pitches shuffled", count: turnedShare, than: "more" },
  find(facts, threshold, least) {
    const { account } = facts;
    const leaps = leapsIn(facts);
    const turned = leaps.filter((leap) => leap.turned);
    if (leaps.length < least.sample || turned.length / leaps.length < threshold) return null;
    const notes = turned.flatMap((leap) => leap.notes);
    return {
      observed: turned.length / leaps.length,
      strength: beyond(turned.length / leaps.length, threshold, least.full),
      evidence: [...new Set(ids(notes))],
      words: {
        count: countInWords(leaps.length),
        share: shareInWords(turned.length / leaps.length),
        places: placesInWords(notes, account.alignment.choruses),
      },
    };
  },
  wording: [
    "Of {count} wide leaps {share} turn back into the gap they opened ({places}), as a singer would.",
  ],
  practice: null,
});
