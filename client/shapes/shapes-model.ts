/** The hand shapes: the teacher's own, and why one could not be added. */
import type { ShapeRow } from "../../server/contract/library.ts";
import { degreeName } from "../../src/chart/index.ts";
import type { HandShape } from "../../src/hands/shape.ts";
import { capital, fingerName } from "../../src/words/index.ts";

export interface ShapesState {
  readonly own: readonly ShapeRow[];
  /** Why the last shape was not added; null when it was. */
  readonly refused: unknown;
}

export function ownRead(state: ShapesState, own: readonly ShapeRow[]): ShapesState {
  return { ...state, own };
}

export function shapeRefused(state: ShapesState, refused: unknown): ShapesState {
  return { ...state, refused };
}

/** @throws Error in words where a shape of one's own has the name already: takes are explained by shapes by name */
export function checkName({ own }: ShapesState, { name }: HandShape): void {
  if (own.some((row) => row.name === name)) {
    throw new Error(
      `There is a shape of your own named “${name}” already. Delete it first, or give this one another name.`,
    );
  }
}

/** What is said of a file that could not be read. */
export function unreadable(file: string, error: unknown): Error {
  const why = error instanceof Error ? error.message : String(error);
  return new Error(`“${file}” could not be imported: ${why}. Give a file that was exported here.`);
}

export function shapeName({ name }: HandShape): string {
  return capital(name);
}

/** "Fingers 1 2 3 5 on 0 3 6 10 semitones; index finger on the root or the fifth." */
export function shapeWords({ fingers, semitones, anchorFinger, anchorDegrees }: HandShape): string {
  const degrees = [...new Set(anchorDegrees.map(({ degree }) => `the ${degreeName(degree)}`))];
  const where = degrees.length > 0 ? degrees.join(" or ") : "any degree";
  return `Fingers ${fingers.join(" ")} on ${semitones.join(" ")} semitones; ${fingerName(anchorFinger)} on ${where}.`;
}

/** The shape for those who do not see its picture. */
export function pictureWords({ name, fingers, semitones }: HandShape): string {
  return `${name}: fingers ${fingers.join(" ")} on semitones ${semitones.join(" ")}`;
}
