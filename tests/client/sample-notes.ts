/** The notes of a made-up account: a line that wanders by steps, with labels drawn by lot. */
import type { AccountNote } from "../../src/account.ts";
import { HARMONIC_ROLES, LINE_ROLES } from "../../src/harmony/roles.ts";

export interface SampleWishes {
  readonly choruses: number;
  readonly notesPerBar: number;
  readonly rubato: boolean;
}

/** Lots that can be drawn again. */
export interface Lots {
  /** From 0 to below 1. */
  readonly next: () => number;
  readonly pick: <T>(list: readonly T[]) => T;
}

export const FORM = ["F7", "Bb7", "F7", "Cm7 F7", "Bb7", "Bo7", "F7", "D7", "Gm7", "C7", "F7 D7", "Gm7 C7"];

const NAMES = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"];
const DEGREE = ["1", "b9", "9", "b3", "3", "11", "#11", "5", "b13", "13", "b7", "7"] as const;
const ROLES = [...HARMONIC_ROLES, "root", "third", "fifth", "seventh"] as const;
const STEPS = [-4, -3, -2, -2, -1, -1, 1, 1, 2, 2, 3, 4];
const BEAT_SECONDS = 0.5;

const PLAIN = { guideTone: false, blueInKey: false, target: null, slide: null, motifs: [] };

/** Mulberry32. */
export function lots(seed: number): Lots {
  let a = seed >>> 0;
  const next = () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return { next, pick: (list) => list[Math.floor(next() * list.length)]! };
}

/** Where a note stands: a placement goes with a bar, a phrase ends in every fourth. */
interface Place {
  readonly chorus: number;
  readonly bar: number;
  /** Quarter notes from the bar line. */
  readonly at: number;
  readonly placement: number;
  readonly phrase: number;
}

function placesOf({ choruses, notesPerBar }: SampleWishes): Place[] {
  const places: Place[] = [];
  let phrase = 1;
  for (let k = 0; k < choruses * FORM.length; k++) {
    const [chorus, bar] = [Math.floor(k / FORM.length) + 1, (k % FORM.length) + 1];
    for (let i = 0; i < notesPerBar; i++) {
      const at = (i * 4) / notesPerBar;
      if (bar % 4 !== 0 || at < 2.5) places.push({ chorus, bar, at, placement: k + 1, phrase });
      else if (i + 1 === notesPerBar) phrase++;
    }
  }
  return places;
}

export function sampleNotes(wishes: SampleWishes, lot: Lots): AccountNote[] {
  let pitch = 65;
  return placesOf(wishes).map((place, i) => {
    pitch = Math.min(86, Math.max(54, pitch + lot.pick(STEPS)));
    return sampleNote(place, i, pitch, wishes.rubato, lot);
  });
}

function sampleNote(place: Place, i: number, pitch: number, rubato: boolean, lot: Lots): AccountNote {
  const { chorus, bar, at, placement, phrase } = place;
  const chords = FORM[bar - 1]!.split(" ");
  const beat = Math.floor(at * 2) / 2 + 1;
  const position = ((chorus - 1) * FORM.length + bar - 1) * 4 + beat - 1;
  const timing = (lot.next() - 0.4) * 0.12;
  const name = NAMES[pitch % 12]!;
  return {
    id: `n${i + 1}`,
    pitch,
    spelling: `${name}${Math.floor(pitch / 12) - 1}`,
    onset: (position + timing) * BEAT_SECONDS + 1,
    duration: 0.2,
    beats: rubato ? null : 0.4,
    velocity: 80,
    hand: "right",
    solo: true,
    chorus,
    bar,
    beat: rubato ? null : beat,
    chord: chords[beat > 2.9 ? chords.length - 1 : 0]!,
    degree: lot.pick(DEGREE),
    role: lot.pick(ROLES),
    lineRole: lot.pick(LINE_ROLES),
    strength: beat === 1 ? 1 : 0.5,
    placement: lot.next() < 0.9 ? `p${placement}` : null,
    ...PLAIN,
    motifs: [],
    finger: (1 + Math.floor(lot.next() * 5)) as 1 | 2 | 3 | 4 | 5,
    fingerSource: "inferred",
    phrase: `ph${phrase}`,
    timing: rubato ? null : timing,
    account: `A sample sentence about ${name} over ${chords[0]}, drawn by lot for trying the pages.`,
    position: rubato ? null : position,
    source: `t1/${i}/${pitch}`,
    handMargin: 1,
  };
}
