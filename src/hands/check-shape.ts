import { Problem } from "../take/index.ts";
import { fingerSpan } from "./finger-spans.ts";
import type { HandShape } from "./shape.ts";

/**
 * Refuses a shape that no hand can hold: throws `Problem` ("bad-shape") when it has no name, when fingers and
 * semitones differ in number, are doubled or out of order, when the anchor finger is not in the shape, or when two
 * fingers lie further apart or closer together than can be played (Parncutt et al. 1997, MinPrac and MaxPrac).
 */
export function checkShape(shape: HandShape): void {
  const refuse = (message: string, todo: string): never => {
    throw new Problem("bad-shape", message, shape.name === "" ? null : `shape "${shape.name}"`, todo);
  };
  if (shape.name.trim() === "") refuse("a hand shape has no name", "give it a name of its own");
  if (shape.fingers.length < 2) {
    refuse(`a hand shape has ${shape.fingers.length} fingers`, "press two keys or more");
  }
  if (shape.fingers.length !== shape.semitones.length) {
    refuse(
      `the shape has ${shape.fingers.length} fingers on ${shape.semitones.length} keys`,
      "give each key one finger",
    );
  }
  if (shape.semitones[0] !== 0) {
    refuse("the semitones do not start from 0", "count them from the lowest finger's key");
  }
  for (let i = 0; i < shape.fingers.length; i++) {
    const [finger, key] = [shape.fingers[i]!, shape.semitones[i]!];
    if (![1, 2, 3, 4, 5].includes(finger)) refuse(`there is no finger ${finger}`, "use fingers 1 to 5");
    if (!Number.isInteger(key)) refuse(`${key} is not a whole number of semitones`, "use whole semitones");
    if (i === 0) continue;
    if (finger === shape.fingers[i - 1]) {
      refuse(`finger ${finger} is given two keys`, "give each finger one key");
    }
    if (key === shape.semitones[i - 1]) {
      refuse(`two fingers are given the same key, ${key} semitones up`, "give each finger a key of its own");
    }
    if (finger < shape.fingers[i - 1]! || key < shape.semitones[i - 1]!) {
      refuse("fingers and keys do not both rise", "list them from the lowest key up, thumb first");
    }
  }
  for (let i = 0; i < shape.fingers.length; i++) {
    for (let j = i + 1; j < shape.fingers.length; j++) {
      const [a, b] = [shape.fingers[i]!, shape.fingers[j]!];
      const semitones = shape.semitones[j]! - shape.semitones[i]!;
      const span = fingerSpan(a, b);
      if (semitones > span.maxPrac || semitones < span.minPrac) {
        refuse(
          `fingers ${a} and ${b} are ${semitones} semitones apart, outside what a hand can hold (${Math.max(1, span.minPrac)} to ${span.maxPrac})`,
          "bring them within reach",
        );
      }
    }
  }
  if (!shape.fingers.includes(shape.anchorFinger)) {
    refuse(
      `the anchor finger ${shape.anchorFinger} is not in the shape`,
      "choose one of its fingers as anchor",
    );
  }
}
