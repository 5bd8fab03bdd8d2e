/** One hand's line explained: its events, its stays in placements, and a finger for every note. */
import type { ChordSpan } from "../chart/index.ts";
import type { Finger, Hand, PlacedNote } from "../take/index.ts";
import { type HandEvent, handEvents } from "./events.ts";
import { fillFingers } from "./free-fingers.ts";
import { cheapestPath, FREE, type Path, type Step } from "./path.ts";
import type { HandShape } from "./shape.ts";
import { chooseShapes } from "./shape-choice.ts";
import { StepCosts } from "./step-costs.ts";
import { IdiomTable, indexOn, lowOf, type ShapeView, shapeOf, shapeView, stateOf } from "./view.ts";

/** The hand in one placement, from the first to the last event that it plays there. */
export interface Stay {
  readonly state: number;
  /** Indices of events; notes outside may lie between them. */
  readonly first: number;
  readonly last: number;
  /** Indices of the notes that the placement holds, in time order. */
  readonly notes: readonly number[];
}

/** What is known of one note of the line. */
export interface PlayedNote {
  /** Index of the stay, or null outside. */
  readonly stay: number | null;
  readonly finger: Finger | null;
  readonly printed: boolean;
  /** Index of the note that this one slides into. */
  readonly slidesTo: number | null;
}

export interface HandLine {
  readonly hand: Hand;
  readonly view: ShapeView;
  readonly idiom: IdiomTable;
  readonly costs: StepCosts;
  readonly events: readonly HandEvent[];
  readonly steps: readonly Step[];
  readonly stays: readonly Stay[];
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
): HandLine {
  const events = handEvents(notes, indices, hand, spans);
  const view = shapeView(shapes, hand);
  const idiom = new IdiomTable(view, spans);
  const costs = new StepCosts(view, idiom);
  const path = likeliestPath(events, costs);
  const steps = joinRelatives(path.steps, view);
  const stays = staysOf(events, steps, view);
  const played = playNotes(events, steps, stays, view);
  return { hand, view, idiom, costs, events, steps, stays, played, cost: path.cost };
}

/** The cheapest path with the few shapes that the player is likely to know. */
function likeliestPath(events: readonly HandEvent[], costs: StepCosts): Path {
  const path = cheapestPath(events, costs);
  const material = { events, costs, steps: path.steps };
  const stays = staysOf(events, path.steps, costs.view);
  const used = new Set(stays.map(({ state }) => shapeOf(state)));
  if (used.size < 2) return path;
  const kept = chooseShapes(material, stays);
  return kept.length === used.size ? path : cheapestPath(events, costs, kept);
}

/** Neighbouring stays in one place that differ only by an outer finger become one stay in the larger shape. */
function joinRelatives(steps: readonly Step[], view: ShapeView): Step[] {
  const joined = [...steps];
  const runs: { start: number; end: number; state: number }[] = [];
  steps.forEach((step, i) => {
    const run = runs[runs.length - 1];
    if (run !== undefined && run.state === step.state) run.end = i + 1;
    else runs.push({ start: i, end: i + 1, state: step.state });
  });
  for (let r = 1; r < runs.length; r++) {
    const [before, run] = [runs[r - 1]!, runs[r]!];
    if (before.state === FREE || run.state === FREE) continue;
    const related = view.relatives[shapeOf(before.state)]!.some(
      ({ shape, offset }) => stateOf(shape, lowOf(before.state) + offset) === run.state,
    );
    if (!related) continue;
    const larger =
      view.fingers[shapeOf(before.state)]!.length > view.fingers[shapeOf(run.state)]!.length
        ? before.state
        : run.state;
    runs[r] = { start: before.start, end: run.end, state: larger };
    for (let i = before.start; i < run.end; i++) joined[i] = { ...joined[i]!, state: larger };
  }
  return joined;
}

function staysOf(events: readonly HandEvent[], steps: readonly Step[], view: ShapeView): Stay[] {
  const stays: { state: number; first: number; last: number; notes: number[] }[] = [];
  let open: (typeof stays)[number] | null = null;
  steps.forEach((step, i) => {
    if (step.state === FREE || (open !== null && open.state !== step.state)) open = null;
    if (step.manner === "outside" || step.manner === "free") return;
    const held = events[i]!.notes.filter((_, n) => isHeld(events[i]!, n, step, view));
    if (held.length === 0) return;
    if (open === null) {
      open = { state: step.state, first: i, last: i, notes: [] };
      stays.push(open);
    }
    open.last = i;
    open.notes.push(...held);
  });
  return stays;
}

/** True where the placement gives the n-th note of the event its finger. */
function isHeld(event: HandEvent, n: number, step: Step, view: ShapeView): boolean {
  if (step.manner === "slide" || step.manner === "finger change") return true;
  if (step.manner !== "held") return false;
  const index = indexOn(view, step.state, event.keys[n]!);
  if (index < 0) return false;
  const printed = event.printed[n];
  return !printed || printed.includes(view.fingers[shapeOf(step.state)]![index]!);
}

function playNotes(
  events: readonly HandEvent[],
  steps: readonly Step[],
  stays: readonly Stay[],
  view: ShapeView,
): Map<number, PlayedNote> {
  const stayOf = new Map<number, number>();
  stays.forEach((stay, s) => {
    for (const note of stay.notes) stayOf.set(note, s);
  });
  const known = events.map((event, i) =>
    event.keys.map((key, n): Finger | null => {
      const printed = event.printed[n];
      if (printed) return printed[0]!;
      if (!stayOf.has(event.notes[n]!)) return null;
      const step = steps[i]!;
      if (step.manner !== "held") return step.finger;
      return view.fingers[shapeOf(step.state)]![indexOn(view, step.state, key)]!;
    }),
  );
  const fingers = fillFingers(events, known);
  const played = new Map<number, PlayedNote>();
  events.forEach((event, i) => {
    event.notes.forEach((note, n) => {
      const finger = fingers[i]![n]!;
      played.set(note, {
        stay: stayOf.get(note) ?? null,
        finger,
        printed: event.printed[n] !== null,
        slidesTo: steps[i + 1]?.manner === "slide" ? events[i + 1]!.notes[0]! : null,
      });
    });
  });
  return played;
}
