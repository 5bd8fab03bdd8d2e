import type { PlacedNote } from "../take/index.ts";

export const SUBDIVISIONS = ["quarters", "eighths", "triplets", "sixteenths", "finer"] as const;

export type Subdivision = (typeof SUBDIVISIONS)[number];

/** How near a place must be to a grid to be on it, in quarter-note beats. */
const NEAR = 0.02;

/**
 * Share of onsets by how finely their beat is divided: an onset on the beat counts to the triplets when its beat is
 * played in triplets. Swung eighths are eighths.
 *
 * @param positions snapped chart positions in quarter-note beats, rising
 * @returns shares that sum to 1; empty for no positions
 */
export function subdivisionShares(positions: readonly number[]): Record<string, number> {
  const counts = new Map<Subdivision, number>();
  let start = 0;
  for (let i = 1; i <= positions.length; i++) {
    const beat = Math.floor(positions[start]! + NEAR);
    if (i < positions.length && Math.floor(positions[i]! + NEAR) === beat) continue;
    const fineness = divisionOf(positions.slice(start, i).map((p) => p - beat));
    counts.set(fineness, (counts.get(fineness) ?? 0) + i - start);
    start = i;
  }
  return Object.fromEntries(
    SUBDIVISIONS.filter((name) => counts.has(name)).map((name) => [
      name,
      counts.get(name)! / positions.length,
    ]),
  );
}

function divisionOf(fractions: readonly number[]): Subdivision {
  const on = (parts: number) =>
    fractions.every((f) => Math.abs(f * parts - Math.round(f * parts)) < NEAR * parts);
  if (on(1)) return "quarters";
  if (on(2)) return "eighths";
  if (on(3)) return "triplets";
  if (on(4)) return "sixteenths";
  return "finer";
}

/**
 * Share of onsets that fall on a weak place and are held over the next stronger one (Longuet-Higgins & Lee 1984).
 *
 * @param notes with positions, in time order
 * @param barBeats quarter-note beats in a bar
 * @returns null for no notes
 */
export function syncopationShare(notes: readonly PlacedNote[], barBeats: number): number | null {
  if (notes.length === 0) return null;
  const held = notes.filter((note) => {
    const stronger = nextStronger(note.position!, barBeats);
    return stronger !== null && note.position! + (note.beats ?? 0) > stronger + NEAR;
  });
  return held.length / notes.length;
}

/** The next place of the bar that weighs more than this one; null on the first beat of a bar. */
function nextStronger(position: number, barBeats: number): number | null {
  if (!Number.isInteger(position)) {
    const half = Math.floor(position) + 0.5;
    return position < half - NEAR ? half : Math.floor(position) + 1;
  }
  const inBar = ((position % barBeats) + barBeats) % barBeats;
  if (inBar === 0) return null;
  const toBar = barBeats - inBar;
  return position + (barBeats === 4 && inBar === 1 ? 1 : toBar);
}
