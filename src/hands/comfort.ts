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
 * True where some keys, struck together or bound to each other by printed fingers, lie further apart than the fingers
 * can go (Parncutt et al. 1997, MaxPrac) for this hand. From key to key of a line a free hand moves: no stretch.
 */
export function goesBeyond(lines: readonly HandLine[], size: HandSize): boolean {
  const beyond = (line: HandLine, a: number, keyA: number, b: number, keyB: number): boolean => {
    const [first, second] = [line.played.get(a)!.finger, line.played.get(b)!.finger];
    if (first === null || second === null || first === second) return false;
    return reach(first, keyA, second, keyB) > fingerSpan(first, second).maxPrac + HAND_SIZES[size];
  };
  return lines.some((line) =>
    line.events.some((event, i) => {
      const { keys, notes } = event;
      for (let n = 0; n < keys.length; n++) {
        for (let m = 0; m < n; m++) if (beyond(line, notes[m]!, keys[m]!, notes[n]!, keys[n]!)) return true;
      }
      const before = line.events[i - 1];
      if (before === undefined || event.ease >= BOUND || keys.length > 1 || before.keys.length > 1)
        return false;
      if (event.printed[0] === null || before.printed[0] === null) return false;
      return beyond(line, before.notes[0]!, before.keys[0]!, notes[0]!, keys[0]!);
    }),
  );
}

/** The notice, where a hand goes beyond what it can reach or a shape is wide for it; else null. */
export function cautionFor(
  beyond: boolean,
  shapes: readonly HandShape[],
  size: HandSize = "middle",
): string | null {
  return beyond || shapes.some((shape) => isWide(shape, size)) ? CAUTION : null;
}
