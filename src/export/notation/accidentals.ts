import type { Piece } from "./cut-bars.ts";
import { pitchParts } from "./pitch-parts.ts";

const NAMES: ReadonlyMap<number, string> = new Map([
  [-3, "triple-flat"],
  [-2, "flat-flat"],
  [-1, "flat"],
  [0, "natural"],
  [1, "sharp"],
  [2, "double-sharp"],
  [3, "triple-sharp"],
]);

const SHARPS = "FCGDAEB";

/**
 * Which notes of one bar and staff are printed with an accidental: those that differ from the key signature or from
 * the last accidental on their line or space [practice]. What is tied over the bar line keeps it without a sign.
 */
export function accidentalsOf(pieces: readonly Piece[], fifths: number): ReadonlyMap<Piece["note"], string> {
  const printed = new Map<Piece["note"], string>();
  const lines = new Map<string, number>();
  for (const piece of [...pieces].sort((a, b) => a.tick - b.tick || a.ticks - b.ticks)) {
    if (piece.tieStop) continue;
    const { step, alter, octave } = pitchParts(piece.note.spelling);
    const line = `${step}${octave}`;
    if (alter === (lines.get(line) ?? signatureAlter(step, fifths))) continue;
    lines.set(line, alter);
    const name = NAMES.get(alter);
    if (name !== undefined) printed.set(piece.note, name);
  }
  return printed;
}

function signatureAlter(step: string, fifths: number): number {
  const place = SHARPS.indexOf(step);
  if (fifths > 0) return place < fifths ? 1 : 0;
  return 6 - place < -fifths ? -1 : 0;
}
