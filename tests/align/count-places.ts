/** Places of notes in the beats that people annotated, held against where our grid puts them. */
import { snapOnsets, swingFeel } from "../../src/align/grid.ts";
import { beatClock, drawnSolos, type OpenNote, type OpenSolo } from "../outside/open-solos.ts";

/** Places that are nearer than this, in beats, are one. */
const SAME = 0.01;

export interface PlaceFigures {
  notes: number;
  /** Notes on one place with the note before or after. */
  shared: number;
  /** Notes on their annotated place. */
  right: number;
  /** Notes of beats that are annotated in five parts or more, and those on their place. */
  fine: number;
  fineRight: number;
  /** Sum of squared displacements, in beats. */
  squares: number;
}

const TEMPOS = [
  { name: "under 100", to: 100 },
  { name: "100 to 180", to: 180 },
  { name: "over 180", to: Number.POSITIVE_INFINITY },
] as const;

/** Figures over all solos of a half in simple meters, and by tempo. */
export function placeFigures(half: 0 | 1, most = Number.POSITIVE_INFINITY): Record<string, PlaceFigures> {
  const figures: Record<string, PlaceFigures> = {};
  for (const solo of simpleSolos(half, most)) {
    const tempo = TEMPOS.find(({ to }) => Number(solo.facts.tempo) < to)!.name;
    const own = figuresOf(solo);
    for (const name of ["all", tempo]) {
      const sum = figures[name] ?? { notes: 0, shared: 0, right: 0, fine: 0, fineRight: 0, squares: 0 };
      for (const key of Object.keys(own) as (keyof PlaceFigures)[]) sum[key] += own[key];
      figures[name] = sum;
    }
  }
  return figures;
}

/** For each division, its share of all beats and the share of its parts that are struck. */
export function divisionsCounted(
  half: 0 | 1,
  divisions: readonly number[],
): { parts: number; beats: number; struck: number }[] {
  const counts = divisions.map((parts) => ({ parts, beats: 0, strokes: 0 }));
  for (const solo of simpleSolos(half)) {
    for (const notes of beatsOf(solo).values()) {
      const { division } = notes[0]!;
      if (notes.some((note) => note.division !== division)) continue;
      const parts = asEighths(notes) ? 2 : division;
      const count = counts.find((one) => one.parts >= parts) ?? counts.at(-1)!;
      count.beats += 1;
      count.strokes += notes.length;
    }
  }
  const all = counts.reduce((sum, { beats }) => sum + beats, 0);
  return counts.map(({ parts, beats, strokes }) => ({
    parts,
    beats: beats / all,
    struck: strokes / beats / parts,
  }));
}

function simpleSolos(half: 0 | 1, most = Number.POSITIVE_INFINITY): OpenSolo[] {
  return drawnSolos(half, most).filter(({ facts }) => facts.meter!.endsWith("/4"));
}

function beatsOf({ notes }: OpenSolo): Map<string, OpenNote[]> {
  const beats = new Map<string, OpenNote[]>();
  for (const note of notes) {
    const key = `${note.bar}:${note.beat}`;
    beats.set(key, [...(beats.get(key) ?? []), note]);
  }
  return beats;
}

/** A note on the beat alone, and the long and short of a swung pair, which the annotation has in three parts. */
function asEighths(notes: readonly OpenNote[]): boolean {
  if (notes.every(({ tatum }) => tatum === 1)) return true;
  return notes[0]!.division === 3 && notes.length <= 2 && notes.every(({ tatum }) => tatum !== 2);
}

function figuresOf(solo: OpenSolo): PlaceFigures {
  const [first, last] = [solo.beats[0]!, solo.beats.at(-1)!];
  const clock = beatClock(solo.beats);
  const line = solo.notes.filter(({ onset }) => onset >= first.seconds && onset <= last.seconds);
  const phases = line.map(({ onset }) => clock(onset));
  const feel = swingFeel(phases);
  const length = (i: number) => {
    const k = Math.min(solo.beats.length - 2, Math.floor(phases[i]!));
    return solo.beats[k + 1]!.seconds - solo.beats[k]!.seconds;
  };
  const places = snapOnsets(
    phases,
    () => false,
    length,
    (i) => feel.at(Math.floor(phases[i]!)),
  );
  const beats = beatsOf(solo);
  const perBar = Number(solo.facts.meter!.split("/")[0]);
  const figures = { notes: line.length, shared: 0, right: 0, fine: 0, fineRight: 0, squares: 0 };
  line.forEach((note, i) => {
    const { written, played } = places[i]!;
    const swung = note.tatum > 1 && asEighths(beats.get(`${note.bar}:${note.beat}`)!);
    const within = swung ? 0.5 : (note.tatum - 1) / note.division;
    const truth = (note.bar - first.bar) * perBar + note.beat - first.beat + within;
    const right = Math.abs(written - truth) < SAME ? 1 : 0;
    if (places[i - 1]?.written === written || places[i + 1]?.written === written) figures.shared++;
    figures.right += right;
    figures.squares += (phases[i]! - played) ** 2;
    if (note.division >= 5) {
      figures.fine++;
      figures.fineRight += right;
    }
  });
  return figures;
}
