/**
 * The F-measure of the beat-tracking literature (Dixon 2007; Davies, Degara & Plumbley 2009): an estimated beat is
 * right when it lies within 70 ms of an annotated one, each annotated beat being met at most once.
 * Beat times in seconds, rising.
 */

/** Seconds on either side of an annotated beat. */
export const BEAT_WINDOW = 0.07;

export interface BeatScore {
  readonly hits: number;
  readonly precision: number;
  readonly recall: number;
  readonly f: number;
}

/**
 * Scores estimated beats against annotated ones. Two empty rows agree fully; one empty row scores 0.
 *
 * @param skip beats before this moment are left out on both sides (5 s is usual for audio, 0 here)
 */
export function scoreBeats(
  annotated: readonly number[],
  estimated: readonly number[],
  window: number = BEAT_WINDOW,
  skip = 0,
): BeatScore {
  const reference = annotated.filter((t) => t >= skip);
  const found = estimated.filter((t) => t >= skip);
  if (reference.length === 0 && found.length === 0) return { hits: 0, precision: 1, recall: 1, f: 1 };
  if (reference.length === 0 || found.length === 0) return { hits: 0, precision: 0, recall: 0, f: 0 };
  // Both rows rise and the window is one size, so meeting the earliest free beat first is the largest matching.
  let hits = 0;
  let i = 0;
  let j = 0;
  while (i < reference.length && j < found.length) {
    const late = found[j]! - reference[i]!;
    if (Math.abs(late) <= window) {
      hits++;
      i++;
      j++;
    } else if (late < 0) j++;
    else i++;
  }
  const precision = hits / found.length;
  const recall = hits / reference.length;
  return { hits, precision, recall, f: hits === 0 ? 0 : (2 * precision * recall) / (precision + recall) };
}

/** Beats and first beats of bars, in seconds. */
export interface BeatMarks {
  readonly beats: readonly number[];
  readonly downbeats: readonly number[];
}

/**
 * Reads beat annotations: one beat a line, seconds, then optionally (after a tab or spaces) a mark. The first beat of
 * a bar is marked 1, or with a word that holds "db" or "downbeat". Empty lines and lines that begin with # are left out.
 *
 * @throws RangeError naming the line whose first column is no number
 */
export function readBeatMarks(text: string): BeatMarks {
  const beats: number[] = [];
  const downbeats: number[] = [];
  text.split(/\r?\n/).forEach((line, i) => {
    if (line.trim() === "" || line.startsWith("#")) return;
    const columns = line.trim().split(/[\t ,]+/);
    const seconds = Number(columns[0]);
    if (!Number.isFinite(seconds))
      throw new RangeError(`line ${i + 1}: "${columns[0]}" is no time in seconds`);
    beats.push(seconds);
    if (columns.slice(1).some((mark) => /^1(\.0*)?$|db|downbeat/i.test(mark))) downbeats.push(seconds);
  });
  return { beats: beats.sort((a, b) => a - b), downbeats: downbeats.sort((a, b) => a - b) };
}
