import { Problem } from "../../take/index.ts";
import { LIMITS } from "../limits.ts";
import type { Notices } from "../notices.ts";
import type { RoadMarks } from "./bar-content.ts";

/** One bar as it is played: which written bar, and for the how-manieth time. */
export interface PlayedBar {
  /** Index of the written bar. */
  readonly bar: number;
  /** 0 the first time, 1 the second, ... */
  readonly pass: number;
  /** Pass of the repeat that it stands in, from 1: decides between endings and "time-only" notes. */
  readonly time: number;
}

/**
 * Plays out repeats, endings, D.C., D.S., Coda and Fine.
 *
 * As players do [practice]: a repeat without a beginning goes back to the end of the last one or to the start; after
 * D.C. or D.S. repeats are not taken again (unless marked "after-jump") and of several endings the last is played;
 * "To Coda" and "Fine" count only after a jump and at the end of their bar; each jump is taken once.
 *
 * @param written Road marks of each bar, all parts together.
 * @throws Problem when the played bars exceed the limit.
 */
export function playOrder(written: readonly RoadMarks[], notices: Notices): PlayedBar[] {
  const marks = withWrittenSigns(written);
  const brackets = endingBrackets(marks);
  const segnos = signsOf(marks, (mark) => mark.segno);
  const codas = signsOf(marks, (mark) => mark.coda);
  const played: PlayedBar[] = [];
  const passes = new Array<number>(marks.length).fill(0);
  const jumped = new Set<number>();
  let start = 0;
  let time = 1;
  let afterJump = false;
  let at = 0;
  while (at < marks.length) {
    const mark = marks[at]!;
    if (mark.repeatStart && at !== start) {
      start = at;
      time = 1;
    }
    const bracket = brackets[at] ?? null;
    if (bracket !== null && at === bracket.first) {
      const last = bracket.alone ? bracket.lastPass + 1 : bracket.lastPass;
      const wanted = afterJump && !bracket.afterJump ? last : time;
      if (!bracket.passes.includes(wanted)) {
        at = bracket.last + 1;
        // Behind the last bracket of a group the repeat is over.
        if (brackets[at]?.group !== bracket.group) {
          start = at;
          time = 1;
        }
        continue;
      }
    }
    if (played.length >= LIMITS.bars) {
      throw new Problem(
        "too-many-bars",
        `With its repeats the score has more than ${LIMITS.bars} bars`,
        null,
        "Take the repeats out, or cut the score.",
      );
    }
    played.push({ bar: at, pass: passes[at]!, time });
    passes[at]!++;

    if (mark.repeatEnd > 0 && (!afterJump || mark.repeatAfterJump)) {
      const times = bracket === null ? mark.repeatEnd : timesOf(bracket, mark.repeatEnd);
      if (time < times) {
        time++;
        at = start;
        continue;
      }
    }
    if (
      mark.repeatEnd > 0 ||
      (bracket !== null && at === bracket.last && brackets[at + 1]?.group !== bracket.group)
    ) {
      start = at + 1;
      time = 1;
    }
    if (afterJump && mark.fine) break;
    if (afterJump && mark.toCoda !== null) {
      const coda = find(codas, at, mark.toCoda, "behind");
      if (coda !== null) {
        at = coda;
        start = coda;
        time = 1;
        continue;
      }
      notices.add(
        "no-coda",
        `bar ${at + 1}`,
        () => "The score says To Coda, but it has no coda sign; it was played on.",
      );
    }
    if ((mark.daCapo || mark.dalSegno !== null) && !jumped.has(at)) {
      const target = mark.dalSegno === null ? 0 : find(segnos, at, mark.dalSegno, "up to");
      if (target === null) {
        notices.add(
          "no-segno",
          `bar ${at + 1}`,
          () => "The score says D.S., but it has no segno; it was played on.",
        );
      } else {
        jumped.add(at);
        afterJump = true;
        at = target;
        start = target;
        time = 1;
        continue;
      }
    }
    at++;
  }
  return played;
}

/** A bracket that stands alone ("1." only) is left out the last time; in a group the last bracket is played then. */
function timesOf(bracket: Bracket, stated: number): number {
  return Math.max(bracket.alone ? bracket.lastPass + 1 : bracket.lastPass, stated > 2 ? stated : 0);
}

interface Bracket {
  readonly first: number;
  last: number;
  readonly passes: readonly number[];
  /** Index of the group of brackets that follow each other. */
  readonly group: number;
  /** The highest pass that any bracket of the group is for. */
  lastPass: number;
  afterJump: boolean;
  alone: boolean;
}

/** The bracket over each bar; a bracket without an end reaches to the next bracket or to the repeat sign. */
function endingBrackets(marks: readonly RoadMarks[]): (Bracket | null)[] {
  const over: (Bracket | null)[] = new Array(marks.length).fill(null);
  const brackets: Bracket[] = [];
  let group = -1;
  for (let at = 0; at < marks.length; at++) {
    if (marks[at]!.endingStart.length === 0) continue;
    const before = brackets.at(-1);
    if (before === undefined || before.last + 1 !== at) group++;
    let last = at;
    while (
      last + 1 < marks.length &&
      !marks[last]!.endingStop &&
      marks[last]!.repeatEnd === 0 &&
      marks[last + 1]!.endingStart.length === 0 &&
      !marks[last + 1]!.repeatStart
    ) {
      last++;
    }
    // An end that never comes would swallow the rest of the piece: then the bracket is one bar.
    if (!marks[last]!.endingStop && marks[last]!.repeatEnd === 0 && last + 1 === marks.length) last = at;
    const bracket = {
      first: at,
      last,
      passes: marks[at]!.endingStart,
      group,
      lastPass: 0,
      afterJump: false,
      alone: true,
    };
    brackets.push(bracket);
    for (let bar = at; bar <= last; bar++) over[bar] = bracket;
    at = last;
  }
  const lastPass = new Map<number, number>();
  const afterJump = new Set<number>();
  const sizes = new Map<number, number>();
  for (const { group: of, passes, last } of brackets) {
    sizes.set(of, (sizes.get(of) ?? 0) + 1);
    lastPass.set(of, Math.max(lastPass.get(of) ?? 1, ...passes));
    if (marks[last]!.repeatAfterJump) afterJump.add(of);
  }
  for (const bracket of brackets) {
    bracket.lastPass = lastPass.get(bracket.group)!;
    bracket.afterJump = afterJump.has(bracket.group);
    bracket.alone = sizes.get(bracket.group) === 1;
  }
  return over;
}

/** Bars with a sign, and its label. */
type Signs = readonly { readonly bar: number; readonly label: string }[];

function signsOf(marks: readonly RoadMarks[], labelOf: (mark: RoadMarks) => string | null): Signs {
  return marks.flatMap((mark, bar) => {
    const label = labelOf(mark);
    return label === null ? [] : [{ bar, label }];
  });
}

/** The nearest bar with that label, behind a bar or up to it; where none fits, any sign will do. */
function find(signs: Signs, from: number, label: string, side: "behind" | "up to"): number | null {
  const same = signs.filter((sign) => sign.label === label);
  const candidates = same.length > 0 ? same : signs;
  const nearest =
    side === "behind"
      ? candidates.find(({ bar }) => bar > from)
      : candidates.findLast(({ bar }) => bar <= from);
  return (nearest ?? candidates.at(-1))?.bar ?? null;
}

/** Uses words and symbols where the document states no jump for players. */
function withWrittenSigns(written: readonly RoadMarks[]): RoadMarks[] {
  const stated = written.some((mark) => mark.daCapo || mark.dalSegno !== null || mark.toCoda !== null);
  const codaSigns = written.filter((mark) => mark.written.includes("coda")).length;
  const toCoda = written.some((mark) => mark.written.includes("to coda"));
  let codas = 0;
  return written.map((mark) => {
    const signs = mark.written;
    const targets = {
      ...mark,
      segno: mark.segno ?? (signs.includes("segno") ? "" : null),
      fine: mark.fine || signs.includes("fine"),
    };
    if (signs.includes("coda")) codas++;
    // Two coda signs and no words: the first is where one leaves, the second where one goes on.
    const leaves = !stated && !toCoda && codaSigns >= 2 && codas === 1 && signs.includes("coda");
    const coda = mark.coda ?? (signs.includes("coda") && !leaves ? "" : null);
    if (stated) return { ...targets, coda };
    return {
      ...targets,
      coda,
      toCoda: leaves || signs.includes("to coda") ? "" : null,
      daCapo: signs.includes("da capo"),
      dalSegno: signs.includes("dal segno") ? "" : null,
    };
  });
}
