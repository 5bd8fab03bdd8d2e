import type { Room } from "./room.ts";

/** Numbers that are kept of one piece, and of a stretch of the take: 32 MB. */
const PIECE = 1 << 16;
export const STRETCH = 1 << 22;

/**
 * What reaches the end of each step, state by state, for one stretch of a take: an hour's would be hundreds of megabytes.
 * A stretch that the pass back comes to again is summed again (checkpoints, Griewank 1992).
 */
export class KeptRows {
  /** States of the step of each (column that is left, length): from one to before another. */
  readonly from: Uint16Array;
  readonly to: Uint16Array;
  /** Where its row stands: the number of its piece times the size of one, and its place in it; -1 for none. */
  private readonly at: Int32Array;
  private readonly pieces: Float64Array[] = [];
  private readonly room: Room;
  private readonly stretch: number;
  private used = 0;

  /** @param stretch numbers at which a stretch is full */
  constructor(room: Room, steps: number, stretch: number) {
    this.room = room;
    this.stretch = stretch;
    this.from = room.take("from", Uint16Array, steps);
    this.to = room.take("to", Uint16Array, steps);
    this.at = room.take("at", Int32Array, steps).fill(-1, 0, steps);
  }

  /** Begins another stretch in the place of the one before. */
  begin(): void {
    this.used = 0;
  }

  get full(): boolean {
    return this.used >= this.stretch;
  }

  /** Whether a step was taken, in whatever stretch. */
  has(step: number): boolean {
    return this.at[step]! >= 0;
  }

  add(step: number, row: Float64Array, from: number, to: number): void {
    const left = PIECE - (this.used & (PIECE - 1));
    if (to - from > left) this.used += left;
    const piece = this.pieceOf(this.used);
    let at = this.used & (PIECE - 1);
    this.at[step] = this.used;
    this.from[step] = from;
    this.to[step] = to;
    this.used += to - from;
    for (let p = from; p < to; p++) piece[at++] = row[p]!;
  }

  /** The piece in which the row of a step of this stretch stands, and where in it. */
  pieceFor(step: number): Float64Array {
    return this.pieceOf(this.at[step]!);
  }

  placeOf(step: number): number {
    return this.at[step]! & (PIECE - 1);
  }

  private pieceOf(at: number): Float64Array {
    const which = Math.floor(at / PIECE);
    let piece = this.pieces[which];
    if (piece === undefined) {
      piece = this.room.take(`piece ${which}`, Float64Array, PIECE);
      this.pieces[which] = piece;
    }
    return piece;
  }
}
