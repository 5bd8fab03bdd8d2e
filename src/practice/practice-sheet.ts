import type { Analysis } from "../account.ts";
import {
  type Chart,
  type Key,
  keyName,
  type Meter,
  parseChart,
  parseKey,
  transposeChart,
} from "../chart/index.ts";
import type { HandShape } from "../hands/shape.ts";
import type { Exercise, PracticeSheet } from "./exercise.ts";
import { bestIdea, type Idea } from "./idea.ts";
import type { PracticeKind } from "./kinds.ts";
import { FOR_EVERYBODY, makeExercise, ofLens, type Wanted } from "./make-exercise.ts";
import { pulseOf } from "./pulse.ts";

export interface PracticeOptions {
  /** Other keys in which the exercises are wanted as well ("Eb", "Cm"). */
  readonly keys?: readonly string[];
  /** Exercises for these findings; all when left out. */
  readonly findings?: readonly string[];
  /** Most exercises in one key. */
  readonly most?: number;
}

const LEAST = 3;

/** Quarter notes a minute where the take has no beat. */
const MEDIUM = 100;

/**
 * An exercise in notation, with fingering, for every finding that leads to one, in the chart's key and in the others
 * that are asked for. The student's own best idea is used throughout. Exercises that a key has no keys for (slides)
 * are left out in that key.
 *
 * @param shapes all shapes that the take was explained by (built-in and the teacher's own)
 * @throws Problem when a key is not a key
 */
export function practiceSheet(
  analysis: Analysis,
  shapes: readonly HandShape[],
  options: PracticeOptions = {},
): PracticeSheet {
  const plan = planOf(analysis, shapes, options);
  const { keys, idea } = plan;
  return {
    title: `Practice for ${analysis.source.title ?? analysis.source.name}`,
    chart: analysis.chart.name ?? "Chart",
    keys: keys.map(keyName),
    idea: idea.notes,
    exercises: keys.flatMap((_, key) => plan.wanted.flatMap((_, one) => made(plan, key, one) ?? [])),
  };
}

/**
 * One exercise of the sheet by its id, made by itself; null when the sheet has none of that id. Arguments and errors
 * as for `practiceSheet`.
 */
export function exerciseNamed(
  analysis: Analysis,
  shapes: readonly HandShape[],
  options: PracticeOptions,
  id: string,
): Exercise | null {
  const plan = planOf(analysis, shapes, options);
  const place = Number(id) - 1;
  const count = plan.wanted.length;
  if (!Number.isInteger(place) || place < 0 || place >= count * plan.keys.length) return null;
  return made(plan, Math.floor(place / count), place % count);
}

/** Everything that is decided before the first bar is written. */
interface Plan {
  readonly analysis: Analysis;
  readonly chart: Chart;
  readonly keys: readonly Key[];
  readonly shapes: readonly HandShape[];
  readonly idea: Idea;
  readonly wanted: readonly Wanted[];
}

function planOf(analysis: Analysis, shapes: readonly HandShape[], options: PracticeOptions): Plan {
  const chart = parseChart(analysis.chart.text);
  return {
    analysis,
    chart,
    keys: [chart.key, ...(options.keys ?? []).map(parseKey)],
    shapes: shapesByUse(analysis, shapes),
    idea: bestIdea(analysis),
    wanted: wantedOf(analysis, options),
  };
}

/** One exercise of a kind is enough; the lens comes first, and findings before what is there for everybody. */
function wantedOf({ findings, lens }: Analysis, options: PracticeOptions): Wanted[] {
  const ofFindings = findings
    .filter((finding) => finding.practice !== null)
    .map(
      ({ id, practice }): Wanted => ({
        finding: id,
        kind: practice!.kind as PracticeKind,
        title: practice!.title,
        text: practice!.text,
      }),
    );
  const asked = [...ofLens(lens), ...ofFindings].filter(
    ({ finding }) => options.findings === undefined || options.findings.includes(finding!),
  );
  const added = options.findings === undefined ? FOR_EVERYBODY : [];
  const kinds = new Set<PracticeKind>();
  const all = [...asked, ...added].filter(({ kind }) => (kinds.has(kind) ? false : kinds.add(kind)));
  return all.slice(0, options.most ?? Math.max(LEAST, Math.min(6, asked.length + 1)));
}

/**
 * The exercise at one place of the sheet; null where its key has no keys for it. Its id is its place among all that
 * were wanted, so that it stays the same whether the ones before it could be made or not.
 */
function made(plan: Plan, key: number, one: number): Exercise | null {
  const { analysis, shapes, idea } = plan;
  const chart = key === 0 ? plan.chart : transposeChart(plan.chart, plan.keys[key]!);
  return makeExercise(plan.wanted[one]!, String(key * plan.wanted.length + one + 1), {
    ...{ chart, shapes, idea },
    swingRatio: swingOf(analysis, chart.meter),
    tempo: analysis.alignment.tempo?.median ?? MEDIUM,
  });
}

/** From this ratio on pairs of eighths are heard as swung. [practice] */
const SWUNG = 1.2;
/** A ratio beyond a dotted pair is not written as swing. */
const MOST_SWUNG = 3;

/** The take's own swing, which the play-along takes over; null where eighths are even, and in meters of threes. */
function swingOf(analysis: Analysis, meter: Meter): number | null {
  const median = analysis.rhythm.swing?.median ?? 1;
  return median < SWUNG || pulseOf(meter) > 1 ? null : Math.min(MOST_SWUNG, median);
}

/** The shapes that explain most of the student's notes first; those that never do, last. */
function shapesByUse(analysis: Analysis, shapes: readonly HandShape[]): HandShape[] {
  const { byShape } = analysis.handFit;
  return [...shapes].sort((a, b) => (byShape[b.name] ?? 0) - (byShape[a.name] ?? 0));
}
