/** Hand shapes as JSON, to hand from teacher to teacher. */
import { DEGREES, type Degree, QUALITIES, type Quality } from "../chart/types.ts";
import { type Finger, Problem } from "../take/index.ts";
import { checkShape } from "./check-shape.ts";
import type { AnchorDegree, HandShape } from "./shape.ts";

/** A file of shapes says what it is. */
const KIND = "ledgerline hand shapes";

/** Longest text read, in characters; a thousand shapes are shorter. */
const LONGEST = 1_000_000;

/** The shapes as JSON text that `parseShapes` reads. */
export function shapesJson(shapes: readonly HandShape[]): string {
  return `${JSON.stringify({ kind: KIND, version: 1, shapes }, null, 2)}\n`;
}

/**
 * Reads shapes from JSON text: a file of `shapesJson`, or a bare list of shapes. Each is checked as `checkShape` does.
 *
 * @throws Problem "not-shapes" where the text is no such list, "bad-shape" where a hand cannot hold one; both say which
 */
export function parseShapes(json: string): HandShape[] {
  if (json.length > LONGEST) {
    throw new Problem(
      "not-shapes",
      "the file is too long for hand shapes",
      null,
      "Give at most a thousand shapes.",
    );
  }
  let value: unknown;
  try {
    value = JSON.parse(json);
  } catch (error) {
    throw new Problem(
      "not-shapes",
      `the file is not JSON: ${error instanceof Error ? error.message : String(error)}`,
      null,
      "Give a file that was exported from here.",
    );
  }
  const list = Array.isArray(value) ? value : isRecord(value) ? value.shapes : null;
  if (!Array.isArray(list)) {
    throw new Problem(
      "not-shapes",
      "the file has no list of shapes",
      null,
      "Give a file that was exported from here.",
    );
  }
  const shapes = list.map((entry, n) => readShape(entry, `shape ${n + 1}`));
  const names = new Set<string>();
  for (const { name } of shapes) {
    if (names.has(name)) {
      throw new Problem(
        "bad-shape",
        "two shapes have the same name",
        `shape "${name}"`,
        "Rename one of them.",
      );
    }
    names.add(name);
  }
  return shapes;
}

function readShape(entry: unknown, where: string): HandShape {
  if (!isRecord(entry)) throw missing(where, "is not an object");
  const { name, fingers, semitones, anchorFinger, anchorDegrees } = entry;
  if (typeof name !== "string" || name.trim() === "" || name.length > 60) {
    throw missing(where, "needs a name of 1 to 60 letters");
  }
  const place = `shape "${name}"`;
  if (!isNumbers(fingers)) throw missing(place, "needs a list of fingers");
  if (!isNumbers(semitones)) throw missing(place, "needs a list of semitones");
  if (typeof anchorFinger !== "number") throw missing(place, "needs an anchor finger");
  if (!Array.isArray(anchorDegrees)) throw missing(place, "needs a list of anchor degrees (it may be empty)");
  const shape: HandShape = {
    name,
    fingers: fingers as Finger[],
    semitones,
    anchorFinger: anchorFinger as Finger,
    anchorDegrees: anchorDegrees.map((one) => readAnchorDegree(one, place)),
  };
  checkShape(shape);
  return shape;
}

function readAnchorDegree(entry: unknown, where: string): AnchorDegree {
  if (!isRecord(entry) || !isOneOf<Degree>(entry.degree, DEGREES)) {
    throw missing(where, `has an anchor degree that is none of ${DEGREES.join(" ")}`);
  }
  const qualities = entry.qualities ?? [];
  if (!Array.isArray(qualities) || !qualities.every((one) => isOneOf<Quality>(one, QUALITIES))) {
    throw missing(where, `has a chord quality that is none of ${QUALITIES.join(", ")}`);
  }
  return { degree: entry.degree, qualities };
}

function missing(where: string, what: string): Problem {
  return new Problem("not-shapes", `${where} ${what}`, where, "Correct it and import again.");
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function isNumbers(value: unknown): value is number[] {
  return Array.isArray(value) && value.every((one) => typeof one === "number");
}

function isOneOf<T extends string>(value: unknown, list: readonly T[]): value is T {
  return typeof value === "string" && (list as readonly string[]).includes(value);
}
