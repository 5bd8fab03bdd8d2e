/** Chords read from what is heard, without a form in mind. */
import { fitOf } from "./chord-fit.ts";
import { parseChord } from "./chord-symbol.ts";
import type { Heard } from "./comping.ts";
import { nameOf } from "./pitch-name.ts";
import type { Chord } from "./types.ts";

/** The kinds of chord that free reading knows. */
const KINDS = ["", "6", "maj7", "7", "7sus4", "m", "m6", "m7", "m7b5", "dim7"] as const;

/** All chords that free reading knows, on C to B. */
export const TEMPLATES: readonly Chord[] = Array.from({ length: 12 }, (_, root) => root).flatMap((root) =>
  KINDS.map((kind) => parseChord(nameOf(root, "flats") + kind)!),
);

/** The chord that fits best by itself, on any root but one. */
export function bestFit(heard: Heard, exceptRoot = -1): { fit: number; index: number } {
  let best = { fit: Number.NEGATIVE_INFINITY, index: 0 };
  for (const [index, chord] of TEMPLATES.entries()) {
    if (chord.rootClass === exceptRoot) continue;
    const fit = fitOf(heard, chord);
    if (fit > best.fit) best = { fit, index };
  }
  return best;
}

/** What moving from one root to another speaks, by semitones up: fifths down, steps, or none. [practice] */
const ROOT_MOTION: readonly number[] = [0.3, 0, 0.05, 0, 0, 0.2, 0, 0.1, 0, 0, 0.05, 0.1];

/** What it costs to change chord in the middle of a bar. */
const CHANGE_INSIDE = 0.25;

/** Indices into `TEMPLATES` of the likeliest chords. */
export function bestPath(heard: readonly Heard[], parts: number): number[] {
  let scores = TEMPLATES.map((chord) => fitOf(heard[0]!, chord));
  const cameFrom: number[][] = [];
  for (let i = 1; i < heard.length; i++) {
    const inside = i % parts !== 0;
    const from: number[] = [];
    scores = TEMPLATES.map((chord, to) => {
      let best = 0;
      let bestScore = Number.NEGATIVE_INFINITY;
      for (const [index, before] of TEMPLATES.entries()) {
        const motion =
          index === to
            ? 0.3
            : ROOT_MOTION[(chord.rootClass - before.rootClass + 12) % 12]! - (inside ? CHANGE_INSIDE : 0);
        const score = scores[index]! + motion;
        if (score > bestScore) [best, bestScore] = [index, score];
      }
      from.push(best);
      return bestScore + fitOf(heard[i]!, chord);
    });
    cameFrom.push(from);
  }
  const path = [scores.indexOf(Math.max(...scores))];
  for (const from of cameFrom.toReversed()) path.unshift(from[path[0]!]!);
  return path;
}
