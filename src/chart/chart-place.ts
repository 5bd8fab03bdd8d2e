/** Where in a chart's text something stands, and problems that say so. */
import { Problem } from "../take/index.ts";

export interface Place {
  readonly line: number;
  /** Bar as written, from 1; 0 in a heading. */
  readonly bar: number;
}

export function chartProblem(code: string, message: string, place: Place, todo: string): Problem {
  return new Problem(code, message, placeText(place), todo);
}

/** "line 2, bar 5", or "line 1" in a heading. */
export function placeText({ line, bar }: Place): string {
  return bar === 0 ? `line ${line}` : `line ${line}, bar ${bar}`;
}

/** Lets a problem of a part be told with its place in the chart. */
export function placed<T>(place: Place, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    throw chartProblem(error.code, error.message, place, error.todo);
  }
}
