import type { AccountPlacement, HandFit } from "../account.ts";
import type { Chart, ChordSpan, Degree } from "../chart/index.ts";
import type { Finger, Hand, PlacedNote } from "../take/index.ts";
import type { HandSize } from "./comfort.ts";
import { describeFit } from "./fit.ts";
import { explainLine, type HandLine } from "./hand-line.ts";
import type { PathWeights } from "./line-weights.ts";
import { RunCosts } from "./placement-run-costs.ts";
import { anchorPitch, degreeOn } from "./placements.ts";
import type { HandShape } from "./shape.ts";
import { IDIOMATIC, placementOf } from "./shape-states.ts";

/** A solo note as the hand sees it. */
export interface HandNote extends PlacedNote {
  readonly degree: Degree | null;
}

export interface ExplainOptions {
  readonly shapes: readonly HandShape[];
  /** The shapes are only offered: they are used where the line gives evidence of them. */
  readonly evidence?: boolean;
  /** The player's hand: what is wide for it. Middle when left out. */
  readonly size?: HandSize;
  /** False where nobody will read what else the hand might have done. */
  readonly alternatives?: boolean;
  /** Other points than those in use: for who measures them. */
  readonly weights?: PathWeights;
}

export interface HandAccount {
  /** Parallel to the notes. `placement` null: outside every placement. `slide`: id of the note that this one slides into. */
  readonly notes: readonly {
    readonly placement: string | null;
    readonly finger: Finger | null;
    readonly fingerSource: "printed" | "inferred" | "corrected";
    readonly slide: string | null;
  }[];
  readonly placements: AccountPlacement[];
  readonly handFit: HandFit;
}

/**
 * The hand that played a line: for every note a placement and a finger, or the word that it is outside, from the
 * cheapest path through the placements of the shapes (`placement-viterbi.ts`). Fingering is inferred; where it is printed it is
 * taken as truth.
 *
 * @param notes the solo notes, in time order
 * @param options.hand the hand that carries the line
 */
export function explainHand(
  notes: readonly HandNote[],
  spans: readonly ChordSpan[],
  chart: Chart,
  options: ExplainOptions & { readonly hand: Hand },
): HandAccount {
  const all = notes.map((_, i) => i);
  return account(
    notes,
    [explainLine(notes, all, options.hand, options.shapes, spans, options.evidence, options.weights)],
    spans,
    chart,
    options,
  );
}

/** As `explainHand`, each note with the hand that it is marked with: for lines that pass from hand to hand. */
export function explainHands(
  notes: readonly HandNote[],
  spans: readonly ChordSpan[],
  chart: Chart,
  options: ExplainOptions,
): HandAccount {
  const lines = (["right", "left"] as const)
    .map((hand) => ({ hand, indices: notes.flatMap((note, i) => (note.hand === hand ? [i] : [])) }))
    .filter(({ indices }) => indices.length > 0)
    .map(({ hand, indices }) =>
      explainLine(notes, indices, hand, options.shapes, spans, options.evidence, options.weights),
    );
  return account(notes, lines, spans, chart, options);
}

function account(
  notes: readonly HandNote[],
  lines: readonly HandLine[],
  spans: readonly ChordSpan[],
  chart: Chart,
  { shapes, size = "middle", alternatives = true }: ExplainOptions,
): HandAccount {
  const ids = placementIds(lines);
  const rows: HandAccount["notes"][number][] = new Array(notes.length).fill(UNPLAYED);
  lines.forEach((line, l) => {
    for (const [index, played] of line.played) {
      rows[index] = {
        placement: played.run === null ? null : ids[l]![played.run]!,
        finger: played.finger,
        fingerSource:
          notes[index]!.corrected?.finger !== undefined
            ? "corrected"
            : played.printed
              ? "printed"
              : "inferred",
        slide: played.slidesTo === null ? null : notes[played.slidesTo]!.id,
      };
    }
  });
  const placements = lines
    .flatMap((line, l) => {
      const costs = new RunCosts(line);
      return line.runs.map(({ notes: [first] }, s) => ({ first: first!, line, s, id: ids[l]![s]!, costs }));
    })
    .sort((a, b) => a.first - b.first)
    .map(({ line, s, id, costs }) => describeStay(notes, line, s, id, spans, costs));
  return {
    notes: rows,
    placements,
    handFit: describeFit({ notes, lines, ids, spans, chart, shapes, size, alternatives }),
  };
}

/** A note that no line holds. */
const UNPLAYED: HandAccount["notes"][number] = {
  placement: null,
  finger: null,
  fingerSource: "inferred",
  slide: null,
};

/** "p1", "p2", ... in order of the first note over all hands; one row a hand. */
function placementIds(lines: readonly HandLine[]): string[][] {
  const all = lines.flatMap((line, l) => line.runs.map((run, s) => ({ l, s, first: run.notes[0]! })));
  all.sort((a, b) => a.first - b.first);
  const ids: string[][] = lines.map(() => []);
  all.forEach(({ l, s }, k) => {
    ids[l]![s] = `p${k + 1}`;
  });
  return ids;
}

function describeStay(
  notes: readonly HandNote[],
  line: HandLine,
  s: number,
  id: string,
  spans: readonly ChordSpan[],
  costs: RunCosts,
): AccountPlacement {
  const run = line.runs[s]!;
  const first = notes[run.notes[0]!]!;
  const placement = placementOf(line.view, run.state);
  const pitch = anchorPitch(placement);
  const chord = spans[first.span]?.chord ?? null;
  const coming = line.events[run.first]!.comingSpan;
  const fits = Math.min(line.idiom.of(run.state, first.span), line.idiom.of(run.state, coming)) === IDIOMATIC;
  return {
    id,
    shape: placement.held.shape.name,
    anchorPitch: pitch,
    anchorFinger: placement.held.fingers[placement.held.anchor]!,
    anchorDegree: chord === null ? null : degreeOn(chord, pitch),
    chord: chord?.symbol ?? null,
    chorus: first.chorus,
    bar: first.bar,
    beat: first.beat,
    firstNote: first.id,
    lastNote: notes[run.notes[run.notes.length - 1]!]!.id,
    notes: run.notes.length,
    shift: s === 0 ? null : shiftBetween(line, s - 1, s),
    fitsChord: fits,
    overFree: Math.round(costs.overFree(run) * 100) / 100,
  };
}

/** Semitones by which the hand moves up from one run to another: by its thumb, so that shapes can be compared. */
function shiftBetween(line: HandLine, from: number, to: number): number {
  const { places } = line.view;
  const seen = places[line.runs[to]!.state]! - places[line.runs[from]!.state]!;
  return line.hand === "right" ? seen : -seen + 0;
}
