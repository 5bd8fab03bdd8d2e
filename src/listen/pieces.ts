/** Long sound is heard in pieces, each with some of what surrounds it, so that memory stays small and work shows. */
import { FRAMES_A_SECOND, framesOf } from "./spectrum.ts";

/**
 * Seconds of a piece, and of its surroundings on each side. Twice the surroundings find two notes more in thirteen
 * hundred of dense playing through a phone, for a fifth more time; a second more at once asks for 40 MB.
 */
const PIECE = { seconds: 3, context: 0.5 };

export interface Piece {
  /** Frames that are taken from it, from the first up to the second; less than 0 before the sound begins. */
  readonly from: number;
  readonly to: number;
  /** Frames that the network is given. */
  readonly heardFrom: number;
  readonly heardTo: number;
}

/**
 * Frames of silence that are heard before the sound begins. A recording that was cut at its first note begins with a
 * strike that has nothing before it, which the network never met: it is heard late, and not surely.
 */
export const LEAD_IN = 50;

/** @param samples length of the sound at 16 kHz */
export function piecesOf(samples: number): Piece[] {
  const frames = framesOf(samples);
  const [length, context] = [PIECE.seconds * FRAMES_A_SECOND, PIECE.context * FRAMES_A_SECOND];
  const pieces: Piece[] = [];
  for (let from = -LEAD_IN; from < frames; from = Math.max(0, from) + length) {
    const to = Math.min(frames, Math.max(0, from) + length);
    pieces.push({
      from,
      to,
      heardFrom: Math.max(-LEAD_IN, from - context),
      heardTo: Math.min(frames, to + context),
    });
  }
  return pieces;
}
