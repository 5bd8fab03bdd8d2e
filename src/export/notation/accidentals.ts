import { alterInSignature, partsOf } from "../../pitch/index.ts";
import type { Piece } from "./cut-bars.ts";

const NAMES: ReadonlyMap<number, string> = new Map([
  [-3, "triple-flat"],
  [-2, "flat-flat"],
  [-1, "flat"],
  [0, "natural"],
  [1, "sharp"],
  [2, "double-sharp"],
  [3, "triple-sharp"],
]);

/**
 * Which notes of one bar and staff are printed with an accidental: those that differ from the key signature or from
 * the last accidental on their line or space [practice]. What is tied over the bar line keeps it without a sign.
 */
export function accidentalsOf(pieces: readonly Piece[], fifths: number): ReadonlyMap<Piece["note"], string> {
  const printed = new Map<Piece["note"], string>();
  const lines = new Map<string, number>();
  for (const piece of [...pieces].sort((a, b) => a.tick - b.tick || a.ticks - b.ticks)) {
    if (piece.tieStop) continue;
    const { step, alter, octave } = partsOf(piece.note.spelling);
    const line = `${step}${octave}`;
    if (alter === (lines.get(line) ?? alterInSignature(step, fifths))) continue;
    lines.set(line, alter);
    const name = NAMES.get(alter);
    if (name !== undefined) printed.set(piece.note, name);
  }
  return printed;
}
