/** What the hand's line tells: see `HandFit` in the account. Each part has its own file. */
import { median } from "d3-array";
import type { HandFit } from "../account.ts";
import type { PlacedNote } from "../take/index.ts";
import { alternativeStays } from "./alternatives.ts";
import { cautionFor, findBeyond, findStretches } from "./comfort.ts";
import { FREEDOM } from "./costs.ts";
import { byChord, commonPlacements, lateNotes } from "./fit-chords.ts";
import type { FitMaterial } from "./fit-material.ts";
import { freeAlternatives } from "./free-alternatives.ts";
import type { HandLine } from "./hand-line.ts";
import { movedFingerings } from "./moved.ts";
import { registersOf } from "./registers.ts";
import { placementOf, shapeOf } from "./shape-states.ts";
import { describeSlides } from "./slides.ts";

export function describeFit(material: FitMaterial): HandFit {
  const { notes, lines, shapes } = material;
  const placed = lines.reduce((sum, line) => sum + placedIn(line), 0);
  const shifts = shiftDistances(lines);
  const stretches = findStretches(notes, lines);
  const beyond = findBeyond(notes, lines, material.size);
  const used = new Set(lines.flatMap((line) => line.runs.map((run) => shapeOf(run.state))));
  return {
    share: notes.length === 0 ? 0 : placed / notes.length,
    byShape: sharesByShape(notes, lines),
    byChorus: sharesByChorus(notes, lines),
    byChord: byChord(material),
    shifts: {
      count: shifts.length,
      distance: shifts.reduce((sum, distance) => sum + distance, 0),
      median: median(shifts) ?? null,
      late: lateNotes(material),
      common: commonPlacements(material),
    },
    slides: describeSlides(material),
    moved: movedFingerings(notes, lines),
    margin: FREEDOM.known.margin,
    cost: lines.reduce((sum, line) => sum + line.cost, 0),
    alternatives: material.alternatives ? alternativeStays(notes, lines) : [],
    freeAlternatives: material.alternatives ? freeAlternatives(notes, lines) : [],
    stretches,
    beyond,
    caution: cautionFor(
      beyond.length > 0,
      shapes.filter((_, shape) => used.has(shape)),
      material.size,
    ),
    registers: registersOf(notes),
  };
}

function placedIn(line: HandLine): number {
  return line.runs.reduce((sum, run) => sum + run.notes.length, 0);
}

function sharesByShape(notes: readonly PlacedNote[], lines: readonly HandLine[]): Record<string, number> {
  const shares: Record<string, number> = {};
  for (const line of lines) {
    for (const run of line.runs) {
      const { name } = placementOf(line.view, run.state).held.shape;
      shares[name] = (shares[name] ?? 0) + run.notes.length / notes.length;
    }
  }
  return Object.fromEntries(Object.entries(shares).map(([name, share]) => [name, Math.min(1, share)]));
}

function sharesByChorus(
  notes: readonly PlacedNote[],
  lines: readonly HandLine[],
): { chorus: number; share: number }[] {
  const counts = new Map<number, { all: number; placed: number }>();
  for (const note of notes) {
    const count = counts.get(note.chorus) ?? { all: 0, placed: 0 };
    counts.set(note.chorus, count);
    count.all++;
  }
  for (const line of lines) {
    for (const run of line.runs) for (const index of run.notes) counts.get(notes[index]!.chorus)!.placed++;
  }
  return [...counts]
    .sort((a, b) => a[0] - b[0])
    .map(([chorus, { all, placed }]) => ({ chorus, share: placed / all }));
}

/** Semitones of every move from one placement to the next, those that stay on the spot left out. */
function shiftDistances(lines: readonly HandLine[]): number[] {
  return lines.flatMap((line) => {
    const places = line.runs.map(({ state }) => line.view.places[state]!);
    return places.slice(1).flatMap((place, s) => {
      const distance = Math.abs(place - places[s]!);
      return distance === 0 ? [] : [distance];
    });
  });
}
