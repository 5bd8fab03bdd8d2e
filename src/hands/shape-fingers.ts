/** Every finger of the shapes that are searched, in columns, shape by shape and from the lowest key up: made for speed. */
import { type ShapeStates, stateOf } from "./shape-states.ts";
import type { StepCosts } from "./step-costs.ts";

export interface ShapeFingers {
  readonly count: number;
  /** State of the shape that has the finger on key 0; the state that has it on another key lies as far above. */
  readonly states: Int32Array;
  readonly fingers: Uint8Array;
  /** What a note under a finger of the shape costs. */
  readonly held: Float64Array;
  /** Where each searched shape begins, and after the last. */
  readonly starts: Int32Array;
}

export function shapeFingers(view: ShapeStates, costs: StepCosts, shapes: readonly number[]): ShapeFingers {
  const rows = shapes.flatMap((shape) =>
    view.semitones[shape]!.map((semitones, k) => ({ shape, semitones, finger: view.fingers[shape]![k]! })),
  );
  const starts = new Int32Array(shapes.length + 1);
  shapes.forEach((shape, s) => {
    starts[s + 1] = starts[s]! + view.semitones[shape]!.length;
  });
  return {
    count: rows.length,
    states: Int32Array.from(rows, ({ shape, semitones }) => stateOf(shape, -semitones)),
    fingers: Uint8Array.from(rows, ({ finger }) => finger),
    held: Float64Array.from(rows, ({ shape }) => costs.held(shape)),
    starts,
  };
}
