/** Chords read from what is heard, without a form in mind. */
import { classNameOf, mod12 } from "../pitch/index.ts";
import { fitOf, type Profile, profileOf } from "./chord-fit.ts";
import { parseChord } from "./chord-symbol.ts";
import type { Heard } from "./comping.ts";
import type { Chord } from "./types.ts";

/**
 * The kinds of chord that free reading knows, with what speaks for each beforehand: Bb6 and Gm7 are the same keys,
 * and the seventh chord is the commoner reading. [practice]
 */
const KINDS: readonly (readonly [kind: string, prior: number])[] = [
  ["7", 0.05],
  ["m7", 0.05],
  ["maj7", 0.05],
  ["", 0],
  ["m", 0],
  ["m7b5", 0],
  ["6", -0.05],
  ["m6", -0.05],
  ["7sus4", -0.05],
  ["dim7", -0.05],
];

interface Template {
  readonly chord: Chord;
  readonly profile: Profile;
  readonly prior: number;
}

/** All chords that free reading knows, on C to B. */
const TEMPLATES: readonly Template[] = Array.from({ length: 12 }, (_, root) => root).flatMap((root) =>
  KINDS.map(([kind, prior]) => {
    const chord = parseChord(classNameOf(root, "flats") + kind)!;
    return { chord, profile: profileOf(chord), prior };
  }),
);

/** The chord that fits best by itself, on any root but one. */
export function bestFit(heard: Heard, exceptRoot = -1): number {
  let best = Number.NEGATIVE_INFINITY;
  for (const { profile, prior } of TEMPLATES) {
    if (profile.rootClass !== exceptRoot) best = Math.max(best, fitOf(heard, profile) + prior);
  }
  return best;
}

/** What moving from one root to another speaks, by semitones up: fifths down, steps, or none. [practice] */
const ROOT_MOTION: readonly number[] = [0.3, 0, 0.05, 0, 0, 0.2, 0, 0.1, 0, 0, 0.05, 0.1];

/** What keeping the chord speaks, over a bar line and inside a bar. */
const STAY = 0.1;
const STAY_INSIDE = 0.3;

/** What it costs to change chord in the middle of a bar. */
const CHANGE_INSIDE = 0.25;

/** The likeliest chords, one for each stretch, of which there is at least one; through silence a chord goes on. */
export function bestPath(heard: readonly Heard[], parts: number): Chord[] {
  let scores = TEMPLATES.map(({ profile, prior }) => fitOf(heard[0]!, profile) + prior);
  const cameFrom: number[][] = [];
  for (let i = 1; i < heard.length; i++) {
    if (heard[i]!.weight === 0) {
      cameFrom.push(TEMPLATES.map((_, index) => index));
      continue;
    }
    const from: number[] = [];
    const inside = i % parts !== 0;
    const moves = ROOT_MOTION.map((motion) => motion - (inside ? CHANGE_INSIDE : 0));
    const stay = inside ? STAY_INSIDE : STAY;
    scores = TEMPLATES.map(({ profile, prior }, to) => {
      let best = 0;
      let bestScore = Number.NEGATIVE_INFINITY;
      for (let index = 0; index < TEMPLATES.length; index++) {
        const up = mod12(profile.rootClass - TEMPLATES[index]!.profile.rootClass);
        const score = scores[index]! + (index === to ? stay : moves[up]!);
        if (score > bestScore) {
          best = index;
          bestScore = score;
        }
      }
      from.push(best);
      return bestScore + fitOf(heard[i]!, profile) + prior;
    });
    cameFrom.push(from);
  }
  const path = [scores.indexOf(Math.max(...scores))];
  for (const from of cameFrom.toReversed()) path.unshift(from[path[0]!]!);
  return path.map((index) => TEMPLATES[index]!.chord);
}
