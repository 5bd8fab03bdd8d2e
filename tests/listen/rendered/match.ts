/** Notes that were heard against those that were played. [lit: the usual measure of transcription, e.g. MIREX: same pitch, onset within 50 ms] */

export interface Played {
  readonly pitch: number;
  readonly onset: number;
  readonly end: number;
}

const WITHIN = 0.05;

/** For each played note the index of the heard one that is it, or -1; each heard note is one played note at most. */
export function matchNotes(played: readonly Played[], heard: readonly Played[]): number[] {
  const pairs: { readonly i: number; readonly j: number; readonly off: number }[] = [];
  for (const [i, note] of played.entries()) {
    for (const [j, other] of heard.entries()) {
      const off = Math.abs(other.onset - note.onset);
      if (other.pitch === note.pitch && off <= WITHIN) pairs.push({ i, j, off });
    }
  }
  pairs.sort((a, b) => a.off - b.off);
  const found = played.map(() => -1);
  const used = new Set<number>();
  for (const { i, j } of pairs) {
    if (found[i] !== -1 || used.has(j)) continue;
    found[i] = j;
    used.add(j);
  }
  return found;
}

/** An end is right within 50 ms or a fifth of the note's length, whichever is more. */
export function endIsRight(played: Played, heard: Played): boolean {
  return Math.abs(heard.end - played.end) <= Math.max(0.05, 0.2 * (played.end - played.onset));
}

export function f(right: number, played: number, heard: number): number {
  return played + heard === 0 ? 0 : (2 * right) / (played + heard);
}
