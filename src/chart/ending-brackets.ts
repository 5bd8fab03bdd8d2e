/**
 * The brackets of first and second endings over the bars of a score, made whole where their signs are not: a bracket
 * that stops before its repeat sign, two brackets with the same number, a repeat sign left out [practice].
 */
import type { RoadMarks, RoadNotice } from "./road.ts";

/** Brackets that follow each other: the endings of one repeat. */
interface Group {
  /** The highest pass that any bracket of the group is for. */
  lastPass: number;
  /** True when repeats of the group are taken after a jump, too. */
  afterJump: boolean;
  /** True when there is one bracket only: the last time it is left out. */
  alone: boolean;
  /** Pass of the bracket that holds the Fine or the way to the coda; null when none does. */
  wayOut: number | null;
  /** True when its first bracket is for a later pass and the repeat is over: then it is played in any case. */
  always: boolean;
}

export interface Bracket {
  readonly first: number;
  readonly last: number;
  readonly passes: readonly number[];
  readonly group: Group;
}

/** The bracket over each bar, or null; the bars' signs as they are understood; and what was understood. */
export function endingBrackets(written: readonly RoadMarks[]): {
  readonly over: readonly (Bracket | null)[];
  readonly marks: readonly RoadMarks[];
  readonly warnings: readonly RoadNotice[];
} {
  const marks = [...written];
  const warnings: RoadNotice[] = [];
  const over: (Bracket | null)[] = new Array(marks.length).fill(null);
  let before: Bracket | null = null;
  for (let at = 0; at < marks.length; at++) {
    if (marks[at]!.endingStart.length === 0) continue;
    const next: boolean = before !== null && before.last + 1 === at;
    const group: Group = next
      ? before!.group
      : { lastPass: 0, afterJump: false, alone: true, wayOut: null, always: false };
    const passes = passesOf(marks[at]!.endingStart, next ? group : null, at, warnings);
    if (next) {
      group.alone = false;
      understandRepeat(marks, before!, passes, warnings);
    } else if (!passes.includes(1) && at > 0 && marks[at - 1]!.repeatEnd > 0) {
      group.always = true;
      warnings.push({
        code: "ending-without-first",
        bar: at,
        message: `An ending ${passes.join(", ")} has no first ending before it; it is played after the repeat.`,
      });
    }
    const bracket: Bracket = { first: at, last: lastBarOf(marks, at, next, warnings), passes, group };
    for (let bar = bracket.first; bar <= bracket.last; bar++) {
      over[bar] = bracket;
      if (marks[bar]!.fine || marks[bar]!.toCoda !== null) group.wayOut ??= passes[0]!;
    }
    group.lastPass = Math.max(group.lastPass, ...passes);
    group.afterJump ||= marks[bracket.last]!.repeatAfterJump;
    before = bracket;
    at = bracket.last;
  }
  return { over, marks, warnings };
}

/** The passes of a bracket; one that says again what the bracket before it says is for the next pass. */
function passesOf(
  stated: readonly number[],
  group: Group | null,
  bar: number,
  warnings: RoadNotice[],
): readonly number[] {
  if (group === null || stated.some((pass) => pass > group.lastPass)) return stated;
  warnings.push({
    code: "ending-numbered-anew",
    bar,
    message: `Two endings in a row are numbered ${stated.join(", ")}; the second was taken as ending ${group.lastPass + 1}.`,
  });
  return [group.lastPass + 1];
}

/** Between a first and a second ending one goes back, whether the sign is there or not. */
function understandRepeat(
  marks: RoadMarks[],
  before: Bracket,
  passes: readonly number[],
  warnings: RoadNotice[],
): void {
  const mark = marks[before.last]!;
  const jumps = mark.daCapo || mark.dalSegno !== null || mark.toCoda !== null || mark.fine;
  if (mark.repeatEnd > 0 || jumps || passes[0] !== before.group.lastPass + 1) return;
  marks[before.last] = { ...mark, repeatEnd: 2 };
  warnings.push({
    code: "repeat-understood",
    bar: before.last,
    message: "An ending has no repeat sign, though another one follows; it was played as if it had one.",
  });
}

/**
 * The last bar under a bracket that starts at a bar. It stops where its end stands, at a repeat sign or before the
 * next bracket or repeat. A first ending whose end comes before its repeat sign reaches on to the sign.
 *
 * @param later True when another ending stands right before it.
 */
function lastBarOf(
  marks: readonly RoadMarks[],
  first: number,
  later: boolean,
  warnings: RoadNotice[],
): number {
  const isBorder = (bar: number) =>
    bar >= marks.length || marks[bar]!.endingStart.length > 0 || (bar > first && marks[bar]!.repeatStart);
  let last = first;
  while (!marks[last]!.endingStop && marks[last]!.repeatEnd === 0 && !isBorder(last + 1)) last++;
  const { endingStop, repeatEnd } = marks[last]!;
  if (repeatEnd > 0) return last;
  if (!endingStop) {
    // An end that never comes would swallow the rest of the piece: then the bracket is one bar.
    return last + 1 === marks.length || later ? first : last;
  }
  if (later) return last;
  let sign = last + 1;
  while (!isBorder(sign) && marks[sign]!.repeatEnd === 0) sign++;
  if (isBorder(sign)) return last;
  warnings.push({
    code: "ending-reaches-on",
    bar: first,
    message:
      "The bracket of a first ending stops before its repeat sign; all bars up to the sign were taken as the ending.",
  });
  return sign;
}
