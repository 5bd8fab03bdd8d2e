/** Placements against the chart: used and unused on each chord, late shifts, placements that two chords share. */
import type { HandFit } from "../account.ts";
import type { Chord, ChordSpan } from "../chart/index.ts";
import { mod12 } from "../pitch/index.ts";
import type { PlacedNote } from "../take/index.ts";
import { fingerName } from "../words/index.ts";
import type { FitMaterial } from "./fit-material.ts";
import type { HandLine } from "./hand-line.ts";
import { keyNameOn } from "./key-names.ts";
import { anchorPitch, degreeOn, fitsChord } from "./placements.ts";
import type { HandShape } from "./shape.ts";
import { IDIOMATIC, placementOf } from "./shape-states.ts";

type ByChord = HandFit["byChord"][number];
type NamedPlacement = ByChord["used"][number];
type Counted = NamedPlacement & { notes: number };

/** Shares and placements of every chord of the chart that notes were played on, in the chart's order. */
export function byChord({ notes, lines, spans, shapes }: FitMaterial): ByChord[] {
  const counts = new Map<string, { chord: Chord; all: number; placed: number; used: Map<string, Counted> }>();
  for (const { chord } of spans) {
    if (chord !== null && !counts.has(chord.symbol)) {
      counts.set(chord.symbol, { chord, all: 0, placed: 0, used: new Map() });
    }
  }
  const countOf = (note: PlacedNote) => counts.get(spans[note.span]?.chord?.symbol ?? "");
  for (const note of notes) {
    const count = countOf(note);
    if (count !== undefined) count.all++;
  }
  for (const line of lines) {
    for (const run of line.runs) {
      const placement = placementOf(line.view, run.state);
      const anchor = anchorPitch(placement);
      const key = `${placement.held.shape.name}:${mod12(anchor)}`;
      for (const index of run.notes) {
        const count = countOf(notes[index]!);
        if (count === undefined) continue;
        count.placed++;
        const used = count.used.get(key);
        if (used !== undefined) used.notes++;
        else count.used.set(key, { ...namedPlacement(placement.held.shape, count.chord, anchor), notes: 1 });
      }
    }
  }
  return [...counts.values()]
    .filter(({ all }) => all > 0)
    .map(({ chord, all, placed, used }) => ({
      chord: chord.symbol,
      share: placed / all,
      used: [...used.values()].sort((a, b) => b.notes - a.notes),
      unused: idiomaticPlacements(shapes, chord)
        .filter(({ shape, anchorClass }) => !used.has(`${shape.name}:${anchorClass}`))
        .map(({ shape, anchorClass }) => namedPlacement(shape, chord, anchorClass)),
    }));
}

function namedPlacement(shape: HandShape, chord: Chord, anchor: number): NamedPlacement {
  return {
    shape: shape.name,
    anchorDegree: degreeOn(chord, anchor),
    anchor: keyNameOn(chord, anchor),
    notes: 0,
  };
}

/** All places that the shapes have on a chord, by pitch class of the anchor, rising from the chord's root. */
export function idiomaticPlacements(
  shapes: readonly HandShape[],
  chord: Chord,
): { readonly shape: HandShape; readonly anchorClass: number }[] {
  return shapes.flatMap((shape) =>
    Array.from({ length: 12 }, (_, semitones) => (chord.rootClass + semitones) % 12)
      .filter((anchorClass) => fitsChord(shape, anchorClass, chord))
      .map((anchorClass) => ({ shape, anchorClass })),
  );
}

/** Notes still in a placement of the chord before, where it has no place on the chord that now sounds. */
export function lateNotes({ notes, lines, spans }: FitMaterial): string[] {
  const late: { index: number; id: string }[] = [];
  for (const line of lines) {
    for (const run of line.runs) {
      const first = notes[run.notes[0]!]!;
      if (line.idiom.of(run.state, first.span) !== IDIOMATIC || spans[first.span]?.chord === null) continue;
      // Late is the chord right after one that the placement fits; later ones are a choice.
      let lastFitting = first.span;
      for (const index of run.notes) {
        const { span, id } = notes[index]!;
        if (line.idiom.of(run.state, span) === IDIOMATIC) lastFitting = span;
        else if (span === (lastFitting + 1) % spans.length) late.push({ index, id });
      }
    }
  }
  return late.sort((a, b) => a.index - b.index).map(({ id }) => id);
}

/**
 * Chord changes between two notes of a hand in placements, at which some placement serves both chords: was it kept?
 * Names the placement that was kept, or else the shared one nearest to where the hand stood.
 */
export function commonPlacements({ notes, lines, spans, shapes }: FitMaterial): HandFit["shifts"]["common"] {
  const found: { index: number; row: HandFit["shifts"]["common"][number] }[] = [];
  const shared = sharedPlacements(shapes, spans);
  for (const line of lines) {
    const order = line.runs.flatMap((run, s) => run.notes.map((index) => ({ index, s })));
    order.sort((a, b) => a.index - b.index);
    for (let k = 1; k < order.length; k++) {
      const [before, after] = [order[k - 1]!, order[k]!];
      const [from, to] = [notes[before.index]!, notes[after.index]!];
      const next = spans[to.span];
      if (next === undefined || (from.span === to.span && from.chorus === to.chorus)) continue;
      if (spans[from.span]?.chord?.symbol === next.chord?.symbol) continue;
      const both = shared(from.span, to.span);
      if (both.length === 0) continue;
      const { shape, anchor } = standing(line, before.s);
      const kept = standing(line, after.s);
      const taken =
        shape === kept.shape &&
        anchor === kept.anchor &&
        both.some((one) => one.shape === shape && one.anchorClass === mod12(anchor));
      const nearest = taken ? { shape, anchorClass: mod12(anchor) } : nearestTo(both, shape, anchor);
      found.push({
        index: after.index,
        row: {
          chorus: to.chorus,
          bar: next.bar,
          beat: next.beat,
          taken,
          placement: placementName(nearest.shape, keyNameOn(next.chord!, nearest.anchorClass)),
        },
      });
    }
  }
  return found.sort((a, b) => a.index - b.index).map(({ row }) => row);
}

/** @example placementName(thirdAndSteps, "G")   // "third-and-steps, index finger on G" */
export function placementName(shape: HandShape, anchor: string, finger = shape.anchorFinger): string {
  return `${shape.name}, ${fingerName(finger)} on ${anchor}`;
}

interface SharedPlacement {
  readonly shape: HandShape;
  readonly anchorClass: number;
}

/** Placements that fit both chords, looked up once for every pair of spans. */
function sharedPlacements(
  shapes: readonly HandShape[],
  spans: readonly ChordSpan[],
): (a: number, b: number) => readonly SharedPlacement[] {
  const known = new Map<number, readonly SharedPlacement[]>();
  return (a, b) => {
    const key = a * spans.length + b;
    const stored = known.get(key);
    if (stored !== undefined) return stored;
    const [from, to] = [spans[a]?.chord ?? null, spans[b]?.chord ?? null];
    const both =
      from === null || to === null
        ? []
        : idiomaticPlacements(shapes, from).filter(({ shape, anchorClass }) =>
            fitsChord(shape, anchorClass, to),
          );
    known.set(key, both);
    return both;
  };
}

function standing(line: HandLine, s: number): { readonly shape: HandShape; readonly anchor: number } {
  const placement = placementOf(line.view, line.runs[s]!.state);
  return { shape: placement.held.shape, anchor: anchorPitch(placement) };
}

/** The shared placement nearest to where the hand stands, the same shape before another. */
function nearestTo(both: readonly SharedPlacement[], shape: HandShape, anchor: number): SharedPlacement {
  const distance = (one: SharedPlacement) => {
    const up = mod12(one.anchorClass - anchor);
    return Math.min(up, 12 - up) + (one.shape === shape ? 0 : 12);
  };
  return both.reduce((best, one) => (distance(one) < distance(best) ? one : best));
}
