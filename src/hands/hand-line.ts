/** One hand's line explained: its events, its runs in placements, and a finger for every note. */
import type { ChordSpan } from "../chart/index.ts";
import type { Finger, Hand, PlacedNote } from "../take/index.ts";
import { FREEDOM, type Freedom } from "./costs.ts";
import { handEvents } from "./events.ts";
import { fillFingers } from "./finger-path.ts";
import { changeOnRepeats, keepOnSlides, slidTo } from "./fingers-kept.ts";
import type { HandEvent } from "./hand-event.ts";
import { PATH_WEIGHTS, type PathWeights } from "./line-weights.ts";
import { cheapestPath } from "./placement-viterbi.ts";
import type { HandShape } from "./shape.ts";
import { chooseShapes } from "./shape-choice.ts";
import {
  IdiomTable,
  indexOn,
  lowOf,
  type ShapeStates,
  shapeOf,
  shapeStates,
  stateOf,
} from "./shape-states.ts";
import { StepCosts } from "./step-costs.ts";
import { Strain } from "./strain.ts";
import { FREE, type Path, type Step, ViterbiColumns } from "./viterbi-columns.ts";

/** The hand in one placement, from the first to the last event that it plays there. */
export interface PlacementRun {
  readonly state: number;
  /** Indices of events; notes outside may lie between them. */
  readonly first: number;
  readonly last: number;
  /** Indices of the notes that the placement holds, in time order. */
  readonly notes: readonly number[];
}

/** What is known of one note of the line. */
export interface PlayedNote {
  /** Index of the run, or null outside. */
  readonly run: number | null;
  readonly finger: Finger | null;
  readonly printed: boolean;
  /** Index of the note that this one slides into. */
  readonly slidesTo: number | null;
}

export interface HandLine {
  readonly hand: Hand;
  readonly view: ShapeStates;
  readonly idiom: IdiomTable;
  readonly costs: StepCosts;
  readonly strain: Strain;
  readonly freedom: Freedom;
  readonly events: readonly HandEvent[];
  readonly steps: readonly Step[];
  readonly runs: readonly PlacementRun[];
  /** By index of the note among all that were given. */
  readonly played: ReadonlyMap<number, PlayedNote>;
  readonly cost: number;
}

/** Explains the notes with these indices, in time order, as one hand's line. */
export function explainLine(
  notes: readonly PlacedNote[],
  indices: readonly number[],
  hand: Hand,
  shapes: readonly HandShape[],
  spans: readonly ChordSpan[],
  evidence = false,
  weights: PathWeights = PATH_WEIGHTS,
): HandLine {
  const events = handEvents(notes, indices, hand, spans);
  const view = shapeStates(shapes, hand);
  const idiom = new IdiomTable(view, spans);
  const costs = new StepCosts(view, idiom);
  const strain = new Strain(events, weights);
  const path = likeliestPath(events, costs, strain, evidence);
  const steps = joinRelatives(path.steps, events, view);
  const runs = runsOf(events, steps, view);
  const played = playNotes(events, steps, runs, view, (known) =>
    fillFingers(events, known, weights, strain.points),
  );
  return {
    hand,
    view,
    idiom,
    costs,
    strain,
    freedom: FREEDOM.known,
    events,
    steps,
    runs,
    played,
    cost: path.cost,
  };
}

/**
 * The cheapest path with the few shapes that the player is likely to know. Where shapes are only offered (`evidence`)
 * the line must first show that they are known: what they explain must be worth more than the free hand does it for,
 * by the margins of `FREEDOM.offered`; if it is not, no shape is used.
 */
function likeliestPath(
  events: readonly HandEvent[],
  costs: StepCosts,
  strain: Strain,
  evidence: boolean,
): Path {
  const freedom = FREEDOM.known;
  const rows = new ViterbiColumns(32 * events.length);
  const all = costs.view.held.map((_, shape) => shape);
  const path = cheapestPath(events, costs, strain, freedom, all, rows);
  const steps = joinRelatives(path.steps, events, costs.view);
  const runs = runsOf(events, steps, costs.view);
  const used = new Set(runs.map(({ state }) => shapeOf(state)));
  if (used.size < (evidence ? 1 : 2)) return path;
  const material = { events, costs, strain, steps, freedom: evidence ? FREEDOM.offered : freedom };
  const kept = chooseShapes(material, runs, evidence);
  if (kept.length === used.size) return path;
  const paths = [kept, ...withoutOuterFinger(kept, used, costs.view)].map((set) =>
    cheapestPath(events, costs, strain, freedom, set, rows),
  );
  return paths.reduce((best, one) => (one.cost < best.cost ? one : best));
}

/** For every kept shape that holds more fingers than another which was used and dropped: the set with that one instead. */
function withoutOuterFinger(
  kept: readonly number[],
  used: ReadonlySet<number>,
  view: ShapeStates,
): number[][] {
  return kept.flatMap((shape) =>
    view.relatives[shape]!.map((relative) => relative.shape)
      .filter((part) => used.has(part) && !kept.includes(part))
      .filter((part) => view.fingers[part]!.length < view.fingers[shape]!.length)
      .map((part) => kept.map((one) => (one === shape ? part : one))),
  );
}

/** From this share of a run's notes on, an outer finger belongs to the hand's shape; below it, it is added now and then. */
const OWN_FINGER_SHARE = 0.12;

interface StateRun {
  readonly state: number;
  readonly start: number;
  readonly end: number;
}

/**
 * Neighbouring runs in one place that differ only by an outer finger are one run: in the larger shape, or, where the
 * finger hardly plays, in the smaller one with a finger added.
 */
function joinRelatives(path: readonly Step[], events: readonly HandEvent[], view: ShapeStates): Step[] {
  const steps = [...path];
  const runs = stateRuns(path);
  for (let r = 0; r < runs.length; ) {
    let end = r + 1;
    while (end < runs.length && isRelated(runs[end - 1]!.state, runs[end]!.state, view)) end++;
    if (end - r > 1) joinRuns(steps, events, runs.slice(r, end), view);
    r = end;
  }
  return steps;
}

function stateRuns(steps: readonly Step[]): StateRun[] {
  const runs: StateRun[] = [];
  let start = 0;
  for (let end = 1; end <= steps.length; end++) {
    const { state } = steps[start]!;
    if (steps[end]?.state === state) continue;
    runs.push({ state, start, end });
    start = end;
  }
  return runs;
}

function isRelated(a: number, b: number, view: ShapeStates): boolean {
  if (a === FREE || b === FREE) return false;
  return view.relatives[shapeOf(a)]!.some(({ shape, offset }) => stateOf(shape, lowOf(a) + offset) === b);
}

function joinRuns(
  steps: Step[],
  events: readonly HandEvent[],
  runs: readonly StateRun[],
  view: ShapeStates,
): void {
  const size = (state: number) => view.fingers[shapeOf(state)]!.length;
  const states = runs.map(({ state }) => state).sort((a, b) => size(a) - size(b));
  const [smallest, largest] = [states[0]!, states[states.length - 1]!];
  const [start, end] = [runs[0]!.start, runs[runs.length - 1]!.end];
  const added = (i: number) =>
    steps[i]!.manner === "held" && events[i]!.keys.some((key) => indexOn(view, smallest, key) < 0);
  let count = 0;
  for (let i = start; i < end; i++) if (added(i)) count++;
  const larger = count >= OWN_FINGER_SHARE * (end - start);
  for (let i = start; i < end; i++) {
    const step = steps[i]!;
    if (larger) steps[i] = { ...step, state: largest };
    else
      steps[i] = {
        ...step,
        state: smallest,
        manner: added(i) && events[i]!.keys.length === 1 ? "added finger" : step.manner,
      };
  }
}

function runsOf(events: readonly HandEvent[], steps: readonly Step[], view: ShapeStates): PlacementRun[] {
  const runs: { state: number; first: number; last: number; notes: number[] }[] = [];
  let open: (typeof runs)[number] | null = null;
  steps.forEach((step, i) => {
    if (step.state === FREE || (open !== null && open.state !== step.state)) open = null;
    if (step.manner === "outside" || step.manner === "free") return;
    const event = events[i]!;
    for (let n = 0; n < event.notes.length; n++) {
      if (!isHeld(event, n, step, view)) continue;
      if (open === null) {
        open = { state: step.state, first: i, last: i, notes: [] };
        runs.push(open);
      }
      open.last = i;
      open.notes.push(event.notes[n]!);
    }
  });
  return runs;
}

/** True where the placement gives the n-th note of the event its finger. */
function isHeld(event: HandEvent, n: number, step: Step, view: ShapeStates): boolean {
  if (step.manner === "slide" || step.manner === "finger change" || step.manner === "added finger")
    return true;
  if (step.manner !== "held") return false;
  const index = indexOn(view, step.state, event.keys[n]!);
  if (index < 0) return false;
  const printed = event.printed[n];
  return !printed || printed.includes(view.fingers[shapeOf(step.state)]![index]!);
}

function playNotes(
  events: readonly HandEvent[],
  steps: readonly Step[],
  runs: readonly PlacementRun[],
  view: ShapeStates,
  fill: (known: (Finger | null)[][]) => (Finger | null)[][],
): Map<number, PlayedNote> {
  const runOf = new Map<number, number>();
  runs.forEach((run, s) => {
    for (const note of run.notes) runOf.set(note, s);
  });
  const known = events.map((event, i) =>
    event.keys.map((key, n): Finger | null => {
      const printed = event.printed[n];
      if (printed) return printed[0]!;
      if (!runOf.has(event.notes[n]!)) return null;
      const step = steps[i]!;
      if (step.manner !== "held") return step.finger;
      return view.fingers[shapeOf(step.state)]![indexOn(view, step.state, key)]!;
    }),
  );
  const fingers = fill(known);
  changeOnRepeats(events, fingers);
  keepOnSlides(events, fingers, runOf);
  const played = new Map<number, PlayedNote>();
  events.forEach((event, i) => {
    event.notes.forEach((note, n) => {
      const finger = fingers[i]![n]!;
      played.set(note, {
        run: runOf.get(note) ?? null,
        finger,
        printed: event.printed[n] !== null,
        slidesTo: steps[i + 1]?.manner === "slide" ? events[i + 1]!.notes[0]! : slidTo(events, fingers, i, n),
      });
    });
  });
  return played;
}
