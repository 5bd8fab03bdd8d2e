import type { AccountNote } from "../../../account.ts";
import { melodicLine } from "../../../take/index.ts";
import { countInWords, placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { MeasuredLine } from "../../measured-line.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

/** Semitones. */
const FIFTH = 7;
const OCTAVE = 12;
/** A silence of so many seconds parts a leap from what follows. [practice] */
const REST = 0.4;

interface Leap {
  readonly notes: readonly AccountNote[];
  readonly turned: boolean;
}

/**
 * Leaps that no rest parts from the notes around them; the same three pitches again are the same leap. Phrases are
 * not asked: where one ends is told by its leaps too, so that it fits the take's own pitches and no draw's.
 */
function leapsIn({ solo }: Pick<MeasuredLine, "solo">): Leap[] {
  const leaps = new Map<string, Leap>();
  // Of keys struck together the highest is the line; an octave is the same note again.
  const steps = melodicLine(solo);
  for (let i = 1; i + 1 < steps.length; i++) {
    const three = [steps[i - 1]!, steps[i]!, steps[i + 1]!] as const;
    const [from, to, on] = three.map(({ note }) => note.pitch) as [number, number, number];
    const leap = to - from;
    if (Math.abs(leap) < FIFTH || leap % OCTAVE === 0) continue;
    if (three.slice(1).some(({ onset }, k) => onset - three[k]!.end >= REST)) continue;
    leaps.set([from, to, on].join(), {
      notes: three.map(({ note }) => note),
      turned: leap * (on - to) < 0,
    });
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
