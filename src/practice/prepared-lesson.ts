/** A lesson without a take: a chart, a level, shapes and a lens become a sheet to learn from and to play along with. */
import { z } from "zod";
import { type Frozen, type Lens, lensSchema } from "../account.ts";
import { type Chart, chartText, chordSpans, keyName } from "../chart/index.ts";
import { placementMap } from "../hands/placement-map.ts";
import { placementMapSchema } from "../hands/placement-map-schema.ts";
import type { HandShape } from "../hands/shape.ts";
import { type Exercise, exerciseSchema } from "./exercise.ts";
import type { PracticeKind } from "./kinds.ts";
import { LEVEL_IDS, type Level, levelOf } from "./levels.ts";
import { FOR_EVERYBODY, makeExercise, ofLens, type Wanted } from "./make-exercise.ts";
import { pulseOf } from "./pulse.ts";

export const FEELS = ["swing", "even"] as const;

export const preparedLessonSchema = z
  .object({
    title: z.string().describe("its title"),
    chart: z
      .object({
        name: z.string().nullable().describe("name of the chart; null for none"),
        key: z.string().describe('its key: "F", "Gm"'),
        text: z.string().describe("chart text"),
      })
      .describe("the chart, in the key of the lesson"),
    level: z.enum(LEVEL_IDS).describe("how far the student has come"),
    feel: z.enum(FEELS).describe("how pairs of eighths are played"),
    lens: lensSchema
      .pick({ id: true, name: true, about: true })
      .nullable()
      .describe("what is worked on; null for none"),
    map: placementMapSchema.describe("where the hand may stand on each chord"),
    exercises: z
      .array(exerciseSchema)
      .describe("exercises of the lens or for everybody, call and answer, and a chorus to improvise on"),
  })
  .meta({ id: "PreparedLesson", description: "a lesson that is prepared without a take" });

export type PreparedLesson = Frozen<z.output<typeof preparedLessonSchema>>;

/** What a lesson is made of. */
export interface LessonWish {
  readonly chart: Chart;
  readonly level: Level["id"];
  readonly feel: (typeof FEELS)[number];
  /** At least one, the most important first. */
  readonly shapes: readonly HandShape[];
  readonly lens: Lens | null;
}

/** Soloists' eighths stand at about this ratio on the average. [lit: Corcoran & Frieler 2021] */
const SOLOISTS = 1.3;

const IMPROVISE: Wanted = {
  finding: null,
  kind: "improvisation",
  title: "Your own chorus",
  text: "Nothing is printed but the chords, and where the hand may stand. Play a chorus; then record one.",
};

/** The lesson, whole. */
export function preparedLesson(wish: LessonWish): PreparedLesson {
  const { chart, level, feel, shapes, lens } = wish;
  const key = keyName(chart.key);
  return {
    title: `${chart.name ?? "A chart"} in ${key}${lens === null ? "" : `: ${lens.name}`}`,
    chart: { name: chart.name, key, text: chartText(chart) },
    level,
    feel,
    lens: lens === null ? null : { id: lens.id, name: lens.name, about: lens.about },
    map: placementMap(chart, chordSpans(chart), shapes),
    exercises: wantedOf(lens).flatMap((_, place) => made(wish, place) ?? []),
  };
}

/** One exercise of the lesson by its id, made by itself; null when the lesson has none of that id. */
export function lessonExercise(wish: LessonWish, id: string): Exercise | null {
  const place = Number(id) - 1;
  return Number.isInteger(place) && place >= 0 && place < wantedOf(wish.lens).length
    ? made(wish, place)
    : null;
}

/** The lens's own exercises, or everybody's; then call and answer, and a chorus of one's own. One of a kind. */
function wantedOf(lens: Lens | null): readonly Wanted[] {
  const own = ofLens(lens);
  const asked = FOR_EVERYBODY.filter(({ kind }) => own.length === 0 || kind === "call and answer");
  const kinds = new Set<PracticeKind>();
  return [...own, ...asked, IMPROVISE].filter(({ kind }) => (kinds.has(kind) ? false : kinds.add(kind)));
}

function made({ chart, level, feel, shapes, lens }: LessonWish, place: number): Exercise | null {
  const { idea, tempo } = levelOf(level);
  const swingRatio = feel === "swing" && pulseOf(chart.meter) === 1 ? SOLOISTS : null;
  return makeExercise(wantedOf(lens)[place]!, String(place + 1), {
    ...{ chart, shapes, idea, swingRatio, tempo },
  });
}
