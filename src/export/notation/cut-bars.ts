import type { ScoreModel, ScoreNote } from "../score-model.ts";

/** The part of a note that stands in one bar. */
export interface Piece {
  readonly note: ScoreNote;
  /** From the bar line. */
  readonly tick: number;
  readonly ticks: number;
  readonly tieStop: boolean;
  readonly tieStart: boolean;
}

/** Cuts the notes of one part at bar lines; one list for each bar. A note that outlasts the last bar ends with it. */
export function cutAtBarLines(score: ScoreModel, part: string): Piece[][] {
  const first = score.parts[0]?.id;
  const bars = score.bars.map((): Piece[] => []);
  score.bars.forEach((bar, index) => {
    for (const note of bar.notes) {
      if ((note.part ?? first) !== part) continue;
      let left = note.ticks;
      let tick = note.tick;
      let tieStop = false;
      for (let at = index; at < bars.length; at++) {
        const room = score.bars[at]!.ticks - tick;
        const ticks = Math.min(left, Math.max(0, room));
        const tieStart = left > ticks && at + 1 < bars.length;
        if (ticks > 0 || note.ticks === 0) bars[at]!.push({ note, tick, ticks, tieStop, tieStart });
        left -= ticks;
        if (left <= 0) break;
        tieStop = tieStop || ticks > 0;
        tick = 0;
      }
    }
  });
  return bars;
}
