import type { AccountNote } from "../account.ts";
import type { Shared } from "./comparison-schema.ts";
import type { Sample } from "./sample.ts";
import { sharesOf } from "./shares.ts";

/** Fewest intervals of a shared line: five notes are the shortest that a listener would call the same line. [practice] */
const LEAST_INTERVALS = 4;

/** Below this share of a side a label is not called its own. */
const LEAST_SHARE = 0.05;

export function sharedOf(sides: readonly Sample[]): Shared {
  return {
    lines: sharedLines(sides),
    motifs: sharedMotifs(sides),
    placements: common(sides.map((side) => sharesOf(side.units.flatMap((unit) => unit.placements)))),
    degrees: common(sides.map((side) => sharesOf(side.notes.map((note) => note.degree)))),
  };
}

function common(shares: readonly Readonly<Record<string, number>>[]): string[] {
  const [first, ...others] = shares;
  if (first === undefined) return [];
  return Object.keys(first).filter(
    (label) => first[label]! >= LEAST_SHARE && others.every((one) => (one[label] ?? 0) >= LEAST_SHARE),
  );
}

function sharedMotifs(sides: readonly Sample[]): Shared["motifs"] {
  const keys = sides.map((side) => new Map(side.motifs.map((motif) => [motifKey(motif), motif])));
  const [first, ...others] = keys;
  if (first === undefined) return [];
  return [...first]
    .filter(([key]) => others.every((one) => one.has(key)))
    .map(([, motif]) => ({ viewpoint: motif.viewpoint, pattern: motif.pattern }));
}

function motifKey(motif: { viewpoint: string; pattern: readonly (number | string)[] }): string {
  return `${motif.viewpoint}:${JSON.stringify(motif.pattern)}`;
}

/** Interval sequences inside phrases, by length from long to short; a line inside a longer shared one is not said again. */
function sharedLines(sides: readonly Sample[]): Shared["lines"] {
  const found: Shared["lines"][number][] = [];
  const covered = new Set<string>();
  for (let length = 12; length >= LEAST_INTERVALS; length--) {
    const tables = sides.map((side) => linesOf(side, length));
    const [first, ...others] = tables;
    if (first === undefined) return [];
    for (const [key, notes] of first) {
      if (!others.every((table) => table.has(key))) continue;
      const fresh = notes.some((run) => run.some((note) => !covered.has(note.id)));
      if (!fresh) continue;
      for (const run of notes) for (const note of run) covered.add(note.id);
      found.push({
        intervals: key.split(",").map(Number),
        starts: tables.map((table) => table.get(key)!.map((run) => run[0]!.id)),
        places: tables.map((table) =>
          table.get(key)!.map((run) => ({
            chorus: run[0]!.chorus,
            bar: run[0]!.bar,
            beat: run[0]!.beat,
            notes: run.map((note) => note.spelling),
          })),
        ),
      });
    }
  }
  return found;
}

function linesOf(side: Sample, length: number): Map<string, AccountNote[][]> {
  const table = new Map<string, AccountNote[][]>();
  for (const { notes } of side.units) {
    for (let i = 0; i + length < notes.length; i++) {
      const run = notes.slice(i, i + length + 1);
      const key = run
        .slice(1)
        .map((note, k) => note.pitch - run[k]!.pitch)
        .join(",");
      const list = table.get(key);
      if (list === undefined) table.set(key, [run]);
      else list.push(run);
    }
  }
  return table;
}
