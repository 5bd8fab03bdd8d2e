import type { Piece } from "./cut-bars.ts";

/** Notes that start and end together on one stem. */
export interface Chord {
  readonly tick: number;
  readonly ticks: number;
  readonly pieces: readonly Piece[];
}

export interface Voice {
  readonly name: string;
  readonly staff: number;
  /** In order of time, without overlap. */
  readonly chords: readonly Chord[];
  /** Grace notes, in order; each stands before the chord at its tick. */
  readonly graces: readonly Piece[];
}

/** At most so many voices share a staff by themselves; further overlaps are cut into tied notes. */
const VOICES = 4;

/**
 * Shares the notes of one bar and staff between voices. A note that names its voice stays in it: where it overlaps
 * another one there, both are cut into tied pieces, so that every chord has one length. Other notes go to the first
 * voice that is free.
 */
export function shareVoices(pieces: readonly Piece[], staff: number): Voice[] {
  const voices = new Map<string, Piece[]>();
  const free: { end: number; tick: number; ticks: number; name: string }[] = [];
  const ordered = [...pieces].sort((a, b) => a.tick - b.tick || b.ticks - a.ticks);
  for (const piece of ordered) {
    const name = piece.note.voice ?? freeVoice(free, piece, staff);
    const list = voices.get(name);
    if (list === undefined) voices.set(name, [piece]);
    else list.push(piece);
  }
  return [...voices]
    .sort(([a], [b]) => a.localeCompare(b, "en", { numeric: true }))
    .map(([name, list]) => ({
      name,
      staff,
      chords: chordsOf(list.filter((piece) => piece.ticks > 0)),
      // Sorting by length has no meaning for grace notes: they keep the order of the model.
      graces: pieces.filter((piece) => piece.ticks === 0 && list.includes(piece)),
    }));
}

function freeVoice(
  free: { end: number; tick: number; ticks: number; name: string }[],
  piece: Piece,
  staff: number,
): string {
  const end = piece.tick + piece.ticks;
  const fits = (one: { end: number; tick: number; ticks: number }) =>
    one.end <= piece.tick || (one.tick === piece.tick && one.ticks === piece.ticks) || piece.ticks === 0;
  const main = piece.ticks === 0 ? free.find((one) => one.tick === piece.tick) : undefined;
  const voice = main ?? free.find(fits);
  if (voice !== undefined) {
    if (piece.ticks > 0) Object.assign(voice, { end, tick: piece.tick, ticks: piece.ticks });
    return voice.name;
  }
  if (free.length >= VOICES) return free.at(-1)!.name;
  const name = String((staff - 1) * VOICES + free.length + 1);
  free.push({ end, tick: piece.tick, ticks: piece.ticks, name });
  return name;
}

function chordsOf(pieces: readonly Piece[]): Chord[] {
  const edges = [...new Set(pieces.flatMap((piece) => [piece.tick, piece.tick + piece.ticks]))].sort(
    (a, b) => a - b,
  );
  const chords = new Map<number, { ticks: number; pieces: Piece[] }>();
  let from = 0;
  for (const piece of pieces) {
    const end = piece.tick + piece.ticks;
    while (edges[from]! < piece.tick) from++;
    for (let at = from; edges[at]! < end; at++) {
      const [tick, next] = [edges[at]!, edges[at + 1]!];
      const cut = {
        note: piece.note,
        tick,
        ticks: next - tick,
        tieStop: piece.tieStop || tick > piece.tick,
        tieStart: piece.tieStart || next < end,
      };
      const chord = chords.get(tick);
      if (chord === undefined) chords.set(tick, { ticks: next - tick, pieces: [cut] });
      else chord.pieces.push(cut);
    }
  }
  return [...chords].sort(([a], [b]) => a - b).map(([tick, chord]) => ({ tick, ...chord }));
}
