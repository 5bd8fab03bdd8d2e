import type { Finger } from "../../src/take/index.ts";
import { above, type Harmony, isChordTone, isGuideTone, thirdOf } from "./harmony.ts";
import { fingerAt, isBlack, keyUnder, type Place, placesOn, standsWell } from "./places.ts";
import type { Random } from "./random.ts";
import type { Manner } from "./spec.ts";

/** A note of the line as it is meant, before anybody plays it. */
export interface LineNote {
  /** Quarter-note beats from the first bar line, unswung. */
  readonly at: number;
  /** Meant length in quarter-note beats. */
  readonly length: number;
  readonly pitch: number;
  readonly finger: Finger;
  /** Null for a note outside the shape (one half of an enclosure). */
  readonly place: Place | null;
  /** A black key from which the same finger falls into the note that starts at `at`. */
  readonly grace: boolean;
  readonly motif: string | null;
  /** From 1. */
  readonly phrase: number;
}

export interface PhrasePlan {
  readonly phrase: number;
  /** Quarter-note beats from the first bar line, rising. */
  readonly onsets: readonly number[];
  readonly hold: number;
  /** MIDI number around which the phrase lies. */
  readonly centre: number;
  /** Where the hand was, or null at the start. */
  readonly from: { readonly place: Place; readonly pitch: number } | null;
  /** The only place of a player who knows but one, or null. */
  readonly fixed: Place | null;
}

/** How likely a move of so many semitones is: steps and thirds carry a line, wide leaps are events. */
const MOVES = [0.06, 1, 1.25, 1, 0.5, 0.35, 0.1, 0.22, 0.05, 0.08, 0.02, 0.001, 0.02] as const;

/** Notes that the hand stays in a place before it crosses to the next one of the same chord. */
const STAY = 4;

interface Choice {
  readonly place: Place;
  readonly pitch: number;
  readonly weight: number;
}

/** Walks the fingers through the places of the chords, one note for each onset. */
export function composePhrase(
  plan: PhrasePlan,
  harmony: Harmony,
  manner: Manner,
  random: Random,
): LineNote[] {
  const notes: LineNote[] = [];
  let hand = plan.from;
  let stayed = STAY;
  let way = random.chance(0.5) ? 1 : -1;
  let last = harmony.at(plan.onsets[0]!);
  plan.onsets.forEach((at, i) => {
    const end = i === plan.onsets.length - 1;
    const length = end ? plan.hold : plan.onsets[i + 1]! - at;
    const stretch = harmony.at(at % 1 > 0.4 && length >= 1 ? at + 0.5 : at);
    const fresh = stretch !== last || i === 0;
    last = stretch;
    const places = plan.fixed === null ? placesOn(stretch.chord, onWhich(manner)) : [plan.fixed];
    const current = hand?.place ?? null;
    const keeps =
      current !== null && (plan.fixed !== null || standsWell(current, stretch.chord, onWhich(manner)));
    const left = plan.onsets.length - i;
    const choices: Choice[] = [];
    // Nobody moves the hand for a last note that lies under it.
    const stays = left === 1 && i > 0 && current !== null && !keeps ? [current] : [];
    for (const place of [...stays, ...places]) {
      const same = current !== null && samePlace(place, current);
      if (!same && keeps && i > 0 && (stayed < STAY || left < STAY - 1 || overlap(place, current) > 1))
        continue;
      const move = same ? 1 : keeps ? (i === 0 ? 0.6 : 0.22) : 1;
      for (const pitch of place.keys) {
        if (!same && current !== null && i > 0 && current.keys.includes(pitch)) continue;
        if (stays.includes(place) && !isChordTone(stretch.chord, pitch)) continue;
        let weight = (stays.includes(place) ? 6 : move) * closeness(pitch, hand?.pitch ?? null, way, i === 0);
        weight *= Math.max(0.08, 1 - ((pitch - plan.centre) / 17) ** 2);
        weight *= taste(pitch, at, stretch.chord, { end, fresh, guide: manner.guide, long: length >= 1 });
        const back = notes[notes.length - 2];
        if (back !== undefined && back.pitch === pitch && !end) weight *= 0.5;
        choices.push({ place, pitch, weight });
      }
    }
    const choice = choices[random.weighted(choices.map((one) => one.weight))] ?? choices[0]!;
    const finger = fingerAt(choice.place, choice.pitch)!;
    stayed = current !== null && samePlace(choice.place, current) ? stayed + 1 : 1;
    if (hand !== null && choice.pitch !== hand.pitch) way = choice.pitch > hand.pitch ? 1 : -1;
    if (random.chance(0.24)) way = -way;
    const third = thirdOf(stretch.chord);
    const slides =
      finger === 4 &&
      isBlack(choice.pitch) &&
      !isBlack(choice.pitch + 1) &&
      third === above(stretch.chord, choice.pitch + 1) &&
      length >= 0.5 &&
      random.chance(manner.slides);
    const made = { at, finger, place: choice.place, motif: null, phrase: plan.phrase };
    if (slides) notes.push({ ...made, length: 0, pitch: choice.pitch, grace: true });
    const pitch = slides ? choice.pitch + 1 : choice.pitch;
    notes.push({ ...made, length, pitch, grace: false });
    hand = { place: choice.place, pitch };
  });
  return random.chance(manner.enclosures) ? enclosed(notes, harmony) : notes;
}

/** A fixed sequence of fingers in one place, as a motif is carried about. Null where the place lacks a finger. */
export function playFingers(
  plan: PhrasePlan,
  fingers: readonly Finger[],
  place: Place,
  motif: string | null,
): LineNote[] | null {
  const notes: LineNote[] = [];
  for (let i = 0; i < plan.onsets.length; i++) {
    const finger = fingers[i]!;
    const pitch = keyUnder(place, finger);
    if (pitch === null) return null;
    const at = plan.onsets[i]!;
    const length = i === plan.onsets.length - 1 ? plan.hold : plan.onsets[i + 1]! - at;
    notes.push({ at, length, pitch, finger, place, grace: false, motif, phrase: plan.phrase });
  }
  return notes;
}

export function samePlace(a: Place, b: Place): boolean {
  return a.shape === b.shape && a.anchorPitch === b.anchorPitch;
}

function overlap(a: Place, b: Place): number {
  return a.keys.filter((key) => b.keys.includes(key)).length;
}

function onWhich(manner: Manner): "all" | "root" {
  return manner.places === "root" ? "root" : "all";
}

function closeness(pitch: number, before: number | null, way: number, first: boolean): number {
  if (before === null) return 1;
  const move = pitch - before;
  // After a breath the hand may come down anywhere near.
  const base = first ? 1 / (1 + Math.abs(move) / 5) : (MOVES[Math.abs(move)] ?? 1e-6);
  return move === 0 ? base : base * (Math.sign(move) === way ? 1.6 : 0.7);
}

function taste(
  pitch: number,
  at: number,
  chord: Parameters<typeof above>[0],
  place: { end: boolean; fresh: boolean; guide: number; long: boolean },
): number {
  const semitones = above(chord, pitch);
  const third = thirdOf(chord);
  let weight = 1;
  const strong = Math.abs(at % 2) < 0.01;
  if (strong || place.long) weight *= isChordTone(chord, pitch) ? 1.5 : 0.7;
  if (place.fresh && isGuideTone(chord, pitch)) weight *= 1 + 6 * place.guide;
  if (place.end) weight *= isChordTone(chord, pitch) || semitones === 2 ? 1.6 : 0.5;
  // A minor third over a major chord speaks in passing; held at the end it would sound undecided.
  if (third === 4 && semitones === 3) weight *= place.end || place.long ? 0.15 : 0.8;
  return weight;
}

/** The last note circled: a step above, a half step below, home. */
function enclosed(notes: readonly LineNote[], harmony: Harmony): LineNote[] {
  const n = notes.length;
  const [before, upper, lower, home] = notes.slice(n - 4);
  if (before === undefined || upper === undefined || lower === undefined || home === undefined)
    return [...notes];
  if (n < 6 || home.place === null || notes.slice(n - 4).some((note) => note.grace)) return [...notes];
  const { chord } = harmony.at(home.at);
  if (!isChordTone(chord, home.pitch) || upper.length > 1 || lower.length > 1) return [...notes];
  const above2 = home.place.keys.includes(home.pitch + 2) ? home.pitch + 2 : home.pitch + 1;
  if (Math.abs(above2 - before.pitch) > 5 || above2 === before.pitch || home.pitch - 1 === before.pitch)
    return [...notes];
  const around = (note: LineNote, pitch: number, finger: number): LineNote => {
    const own = fingerAt(home.place!, pitch);
    return {
      ...note,
      pitch,
      finger: own ?? (Math.min(5, Math.max(1, finger)) as Finger),
      place: own === null ? null : home.place,
    };
  };
  return [
    ...notes.slice(0, n - 3),
    around(upper, above2, home.finger + 1),
    around(lower, home.pitch - 1, home.finger - 1),
    home,
  ];
}
