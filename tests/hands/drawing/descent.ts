/** The least value of a smooth function by its slopes: limited-memory BFGS. [lit: Nocedal and Wright, ch. 7; memory] */

/** Steps remembered. */
const MEMORY = 8;
/** Share of what the slope promises that a step must bring, and by how much a step is shortened that does not. */
const ENOUGH = 1e-4;
const SHORTER = 0.4;
/** A step that brings less than this share of the value is the last. */
const LEAST_GAIN = 1e-4;

interface Remembered {
  readonly move: Float64Array;
  readonly turn: Float64Array;
  readonly curve: number;
}

/** @param slopes writes the slopes at a point into its second argument and returns the value there */
export function descend(
  slopes: (at: Float64Array, out: Float64Array) => number,
  start: Float64Array,
  steps: number,
): Float64Array {
  let at = Float64Array.from(start);
  let slope = new Float64Array(at.length);
  let value = slopes(at, slope);
  const memory: Remembered[] = [];
  for (let step = 0; step < steps; step++) {
    const way = direction(slope, memory);
    const promised = -dot(slope, way);
    const next = { at: new Float64Array(at.length), slope: new Float64Array(at.length), value: 0 };
    let size = 1;
    for (let tries = 0; tries < 12; tries++, size *= SHORTER) {
      for (let k = 0; k < at.length; k++) next.at[k] = at[k]! + size * way[k]!;
      next.value = slopes(next.at, next.slope);
      if (next.value <= value - ENOUGH * size * promised) break;
    }
    if (!(next.value < value)) break;
    const move = next.at.map((one, k) => one - at[k]!);
    const turn = next.slope.map((one, k) => one - slope[k]!);
    const curve = dot(move, turn);
    if (curve > 1e-10) memory.push({ move, turn, curve });
    if (memory.length > MEMORY) memory.shift();
    const gain = value - next.value;
    at = next.at;
    slope = next.slope;
    value = next.value;
    if (gain < LEAST_GAIN * Math.abs(value)) break;
  }
  return at;
}

/** Down the slope, by the curvature that the last steps showed. */
function direction(slope: Float64Array, memory: readonly Remembered[]): Float64Array {
  const way = slope.map((one) => -one);
  const parts: number[] = [];
  for (let k = memory.length - 1; k >= 0; k--) {
    const { move, turn, curve } = memory[k]!;
    parts[k] = dot(move, way) / curve;
    add(way, turn, -parts[k]!);
  }
  const last = memory[memory.length - 1];
  const scale =
    last === undefined ? 1 / Math.sqrt(dot(slope, slope) + 1) : last.curve / dot(last.turn, last.turn);
  for (let k = 0; k < way.length; k++) way[k]! *= scale;
  memory.forEach(({ move, turn, curve }, k) => {
    add(way, move, parts[k]! - dot(turn, way) / curve);
  });
  return way;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
}

function add(to: Float64Array, what: Float64Array, times: number): void {
  for (let k = 0; k < to.length; k++) to[k]! += times * what[k]!;
}
