import { type Chart, isKey, type Key, keyName } from "../chart/index.ts";
import type { HandShape } from "../hands/shape.ts";
import { signatureOf } from "../pitch/index.ts";
import { contextOf, type PracticeContext } from "./context.ts";
import type { Exercise, ExerciseBar } from "./exercise.ts";
import type { Idea } from "./idea.ts";
import type { PracticeKind } from "./kinds.ts";
import { MAKERS } from "./makers.ts";
import { tempoPlan } from "./tempo-plan.ts";

/** An exercise that is asked for, with its words. */
export interface Wanted {
  /** What it follows from, as `Exercise.finding` has it. */
  readonly finding: string | null;
  readonly kind: PracticeKind;
  readonly title: string;
  readonly text: string;
}

/** What an exercise is made of. */
export interface Material {
  readonly chart: Chart;
  /** Shapes in use, the most used first. */
  readonly shapes: readonly HandShape[];
  readonly idea: Idea;
  /** First part of a swung pair over the second; null where eighths are even. */
  readonly swingRatio: number | null;
  /** The tempo that it leads to, in quarter notes a minute. */
  readonly tempo: number;
}

/** There for every student. [practice] */
export const FOR_EVERYBODY: readonly Wanted[] = [
  {
    finding: null,
    kind: "placements",
    title: "Every place on every chord",
    text: "Chord by chord, first in free time, then with the click: the shape on each of its places.",
  },
  {
    finding: null,
    kind: "motif to every placement",
    title: "One idea, every place",
    text: "The same fingers on every place of the form; listen to what each chord makes of them.",
  },
  {
    finding: null,
    kind: "call and answer",
    title: "Ask and answer",
    text: "The printed bar asks; answer it in the empty bar, first with the same rhythm, then with your own.",
  },
];

/** The exercises of a lens. */
export function ofLens(
  lens: { readonly exercises: readonly { kind: string; title: string; text: string }[] } | null | undefined,
): Wanted[] {
  return (lens?.exercises ?? []).map(({ kind, ...words }) => ({
    finding: "lens",
    kind: kind as PracticeKind,
    ...words,
  }));
}

const CAUTION =
  "Wide shapes: small hands leave the outer finger out. Stop at pain, numbness or tingling and ask a licensed clinician or an experienced teacher.";

/** The exercise under this id; null where the chart's key has no keys for it (slides). */
export function makeExercise(wanted: Wanted, id: string, material: Material): Exercise | null {
  const { chart, shapes, idea, swingRatio, tempo } = material;
  const maker = MAKERS[wanted.kind];
  const context = contextOf(chart, shapes, idea);
  const bars = maker.bars(context);
  if (!maker.open && !bars.some((bar) => bar.notes.length > 0)) return null;
  const wide = new Set(shapes.filter(isWide).map((shape) => shape.name));
  const reaches = bars.some((bar) => bar.notes.some((note) => wide.has(note.placement?.shape ?? "")));
  return {
    ...wanted,
    id,
    ...keysOf(context, bars),
    meter: chart.meter,
    swing: swingRatio !== null,
    swingRatio,
    bars: inLines(bars),
    tempoPlan: tempoPlan(tempo, maker.freeFirst, maker.click),
    caution: reaches ? CAUTION : null,
  };
}

/**
 * The key that an exercise begins in, and where it changes: each bar stands in the key in which the chart has its
 * first chord; where it has it in several, in the one of the bar before, else in the first of them.
 */
function keysOf(
  { chart, spans }: PracticeContext,
  bars: readonly ExerciseBar[],
): Pick<Exercise, "key" | "fifths" | "mode" | "keyChanges"> {
  let before: Key | null = null;
  const changes = bars.flatMap(({ chords }, i) => {
    const keys = spans.filter(({ symbol }) => symbol === chords[0]?.symbol).map(({ key }) => key);
    const last: Key | null = before;
    const key: Key = keys.find((one) => isKey(last, one)) ?? keys[0] ?? last ?? chart.key;
    before = key;
    return last !== null && isKey(last, key) ? [] : [{ bar: i + 1, ...signed(key) }];
  });
  const { bar: _, ...first } = changes[0] ?? { bar: 1, ...signed(chart.key) };
  return { ...first, keyChanges: changes.slice(1) };
}

function signed(key: Key) {
  return { key: keyName(key), fifths: signatureOf(key), mode: key.mode };
}

/** Bars of a line that a page holds well; a break that would leave a shorter line is not kept. [practice] */
const LINE = 4;

function inLines(bars: readonly ExerciseBar[]): ExerciseBar[] {
  let since = 0;
  return bars.map((bar) => {
    const newLine = bar.newLine && since >= LINE;
    since = newLine ? 1 : since + 1;
    return { ...bar, newLine };
  });
}

/** More than an octave from the first to the last finger. */
function isWide(shape: HandShape): boolean {
  return shape.semitones[shape.semitones.length - 1]! > 12;
}
