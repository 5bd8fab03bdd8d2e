/** Whether the line may lie in another hand than the one that was taken: facts of what the hands do, and a question. */
import type { Hand, Warning } from "../take/index.ts";
import { counted, percent } from "../words/index.ts";
import { PARTING_COSTS, type PartedInput } from "./costs.ts";
import { groupNotes } from "./strokes.ts";

/** What one hand does. */
interface Doing {
  readonly strokes: number;
  /** Share of its strokes that are single keys. */
  readonly single: number;
}

/** Single keys from this share on are a line, up to that one chords. [practice] */
const SINGLE = { line: 0.85, chords: 0.5 } as const;
/** A line moves while chords stand: at least so many strokes to one of the other hand, and so many at all. */
const BUSIER = 1.3;
const LEAST_STROKES = 12;

/** True where one hand plays a line of single keys and the other, which is taken for the higher one, mostly chords. */
export function isLineUnderChords(left: readonly PartedInput[], right: readonly PartedInput[]): boolean {
  const [line, chords] = [doing(left), doing(right)];
  const isLine = line.strokes >= LEAST_STROKES && line.single >= SINGLE.line;
  return isLine && chords.single <= SINGLE.chords && line.strokes >= BUSIER * chords.strokes;
}

/**
 * A question where the left hand plays a line under the chords of the right: the right one, higher, is taken for the
 * solo unless somebody says otherwise.
 */
export function leftHandQuestion(notes: readonly PartedInput[], hands: readonly Hand[]): Warning[] {
  const [left, right] = (["left", "right"] as const).map((hand) =>
    notes.filter((_, i) => hands[i] === hand),
  ) as [PartedInput[], PartedInput[]];
  if (!isLineUnderChords(left, right)) return [];
  const [line, chords] = [doing(left), doing(right)];
  return [
    {
      code: "line-in-left-hand",
      message:
        `Is the solo in the left hand? It plays single keys (${percent(line.single)} of ${counted(line.strokes, "stroke")}),` +
        ` the right hand mostly chords (${counted(chords.strokes, "stroke")}); the right hand was taken. Say which hand` +
        " carries the line (soloHand: left)",
      where: null,
    },
  ];
}

/** MIDI number of middle C, under which lies the left hand's half of the keyboard. */
const MIDDLE_C = 60;

/**
 * Share of a line under middle C from which it is asked about. Of 17 fingered scores no right hand has more than .28
 * of its notes there, the left hands .58 at the median.
 */
const LOW = 0.75;

/** A question where a line that was taken for the right hand's lies low, in the left hand's half of the keyboard. */
export function lowLineQuestion(notes: readonly PartedInput[]): Warning[] {
  const low = notes.filter(({ pitch }) => pitch < MIDDLE_C).length;
  if (notes.length < LEAST_STROKES || low < LOW * notes.length) return [];
  return [
    {
      code: "line-lies-low",
      message:
        `Is the solo in the left hand? ${percent(low / notes.length)} of ${counted(notes.length, "note")} lie below middle C;` +
        " the right hand was taken. Say which hand carries the line (soloHand: left)",
      where: null,
    },
  ];
}

/** So many leaps of a line that no one hand can make, and this share of all its steps, are asked about. */
const TOO_FAR = { least: 3, share: 0.02 } as const;

/**
 * A question where a line that was taken for one hand's leaps further than a hand gets to in the time: by the reach
 * and speed of `PARTING_COSTS`.
 */
export function twoHandsQuestion(notes: readonly PartedInput[]): Warning[] {
  let [leaps, steps] = [0, 0];
  for (let i = 1; i < notes.length; i++) {
    const [before, note] = [notes[i - 1]!, notes[i]!];
    const apart = note.onset - before.onset;
    steps++;
    // Struck with or soon after the other: what lies under one hand is all that it has.
    const reached = Math.max(PARTING_COSTS.possible, PARTING_COSTS.atHand + PARTING_COSTS.speed * apart);
    if (Math.abs(note.pitch - before.pitch) > reached) leaps++;
  }
  if (leaps < TOO_FAR.least || leaps < TOO_FAR.share * steps) return [];
  return [
    {
      code: "line-for-two-hands",
      message:
        `Do both hands share the line? It leaps ${counted(leaps, "time")} further than one hand gets to in the time;` +
        " one hand was taken for all of it. Say that both play it (soloHand: both)",
      where: null,
    },
  ];
}

/** A question where most strokes of a line are of two keys and more, all within the reach of the hand that was taken. */
export function doubledQuestion(notes: readonly PartedInput[]): Warning[] {
  const { strokes, single } = doing(notes);
  if (strokes < LEAST_STROKES || single >= SINGLE.chords) return [];
  return [
    {
      code: "doubled-line",
      message:
        `Do both hands play the line? ${percent(1 - single)} of ${counted(strokes, "stroke")} are of two` +
        " keys and more; all lie within one hand's reach, and one hand was taken for them. Say that both play it" +
        " (soloHand: both)",
      where: null,
    },
  ];
}

/** What is told of a line that both hands share: how much each of them plays, and how often it is passed on. */
export function sharedLine(hands: readonly Hand[]): Warning[] {
  const right = hands.filter((hand) => hand === "right").length;
  const left = hands.length - right;
  if (right === 0 || left === 0) return [];
  const passed = hands.slice(1).filter((hand, i) => hand !== hands[i]).length;
  return [
    {
      code: "line-shared",
      message:
        `Both hands share the line: ${counted(right, "note")} in the right hand, ${counted(left, "note")} in the left;` +
        ` it is passed on ${counted(passed, "time")}, and each hand is fingered for itself`,
      where: null,
    },
  ];
}

function doing(notes: readonly PartedInput[]): Doing {
  const strokes = groupNotes(notes);
  const single = strokes.filter((stroke) => stroke.length === 1).length;
  return { strokes: strokes.length, single: strokes.length === 0 ? 0 : single / strokes.length };
}
