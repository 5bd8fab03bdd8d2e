import type { HandFit } from "../account.ts";
import type { Finger, PlacedNote } from "../take/index.ts";
import { fingerSpan, reach } from "./finger-spans.ts";
import type { HandLine } from "./hand-line.ts";
import type { HandShape } from "./shape.ts";

/** What every page that shows a wide shape or a stretch says beside it. */
const CAUTION =
  "Some of these reaches are wide. Small hands leave the outer finger out. Stop at pain, numbness or tingling, and " +
  "ask a licensed clinician or an experienced teacher; this program gives no medical advice.";

/** A hand in less than this much freedom is bound to the note before. */
const BOUND = 0.5;

/**
 * Pairs of notes, one after the other without time to move or struck together, that lie further apart than is
 * comfortable for their fingers (Parncutt et al. 1997, MaxComf), though a hand can play them (MaxPrac).
 */
export function findStretches(
  notes: readonly PlacedNote[],
  lines: readonly HandLine[],
): HandFit["stretches"] {
  const found: HandFit["stretches"] = [];
  const consider = (line: HandLine, a: number, keyA: number, b: number, keyB: number) => {
    const [first, second] = [line.played.get(a)!.finger, line.played.get(b)!.finger];
    if (first === null || second === null || first === second) return;
    const semitones = reach(first, keyA, second, keyB);
    const { maxComf, maxPrac } = fingerSpan(first, second);
    if (semitones <= maxComf || semitones > maxPrac) return;
    found.push({ from: notes[a]!.id, to: notes[b]!.id, fingers: [first, second], semitones });
  };
  for (const line of lines) {
    line.events.forEach((event, i) => {
      const top = event.keys.length - 1;
      for (let n = 1; n <= top; n++) {
        consider(line, event.notes[n - 1]!, event.keys[n - 1]!, event.notes[n]!, event.keys[n]!);
      }
      const before = line.events[i - 1];
      if (before === undefined || event.ease >= BOUND) return;
      const last = before.keys.length - 1;
      consider(line, before.notes[last]!, before.keys[last]!, event.notes[top]!, event.keys[top]!);
    });
  }
  return found;
}

/** Pairs of a shape's fingers that lie beyond the comfortable span. */
export function wideFingers(shape: HandShape): { fingers: [Finger, Finger]; semitones: number }[] {
  return shape.fingers.flatMap((a, i) =>
    shape.fingers.slice(i + 1).flatMap((b, k) => {
      const semitones = shape.semitones[i + 1 + k]! - shape.semitones[i]!;
      return semitones > fingerSpan(a, b).maxComf ? [{ fingers: [a, b] as [Finger, Finger], semitones }] : [];
    }),
  );
}

/** How large the player's hand is; what it reaches beyond the tables' hand, in semitones. [practice] */
export const HAND_SIZES = { small: -2, middle: 0, large: 2 } as const;
export type HandSize = keyof typeof HAND_SIZES;

/** True for shapes wider than an octave for this hand. */
function isWide(shape: HandShape, size: HandSize): boolean {
  return shape.semitones[shape.semitones.length - 1]! > 12 + HAND_SIZES[size];
}

/**
 * Notes of keys, struck together or bound to each other by printed fingers, that lie further apart than the fingers
 * can go (Parncutt et al. 1997, MaxPrac) for this hand, as ids. From key to key of a line a free hand moves: no stretch.
 */
export function findBeyond(
  notes: readonly PlacedNote[],
  lines: readonly HandLine[],
  size: HandSize,
): string[] {
  const found = new Set<number>();
  const consider = (line: HandLine, a: number, keyA: number, b: number, keyB: number) => {
    const [first, second] = [line.played.get(a)!.finger, line.played.get(b)!.finger];
    if (first === null || second === null || first === second) return;
    const most = fingerSpan(first, second).maxPrac + HAND_SIZES[size];
    if (reach(first, keyA, second, keyB) > most) found.add(a).add(b);
  };
  for (const line of lines) {
    line.events.forEach(({ keys, notes: struck, ease, printed }, i) => {
      for (let n = 0; n < keys.length; n++) {
        for (let m = 0; m < n; m++) consider(line, struck[m]!, keys[m]!, struck[n]!, keys[n]!);
      }
      const before = line.events[i - 1];
      if (before === undefined || ease >= BOUND || keys.length > 1 || before.keys.length > 1) return;
      if (printed[0] === null || before.printed[0] === null) return;
      consider(line, before.notes[0]!, before.keys[0]!, struck[0]!, keys[0]!);
    });
  }
  return [...found].sort((a, b) => a - b).map((index) => notes[index]!.id);
}

/** The notice, where a hand goes beyond what it can reach or a shape is wide for it; else null. */
export function cautionFor(
  beyond: boolean,
  shapes: readonly HandShape[],
  size: HandSize = "middle",
): string | null {
  return beyond || shapes.some((shape) => isWide(shape, size)) ? CAUTION : null;
}
