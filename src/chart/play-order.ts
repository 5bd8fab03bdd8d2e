/** Plays out repeats, endings, D.C., D.S., Coda and Fine. */
import { type Bracket, endingBrackets } from "./ending-brackets.ts";
import type { RoadMarks, RoadNotice } from "./road.ts";

/** One bar as it is played: which written bar, and for the how-manieth time. */
export interface PlayedBar {
  /** Index of the written bar. */
  readonly bar: number;
  /** 0 the first time, 1 the second, ... */
  readonly pass: number;
  /** Pass of the repeat that it stands in, from 1: decides between endings and "time-only" notes. */
  readonly time: number;
}

export interface PlayOrder {
  readonly order: readonly PlayedBar[];
  /** What was understood rather than read. */
  readonly warnings: readonly RoadNotice[];
  /** Indexes of the written bars that are never played, rising. */
  readonly unplayed: readonly number[];
}

/**
 * The order in which written bars are played.
 *
 * As players do [practice]: a repeat without a beginning goes back to the end of the last one or to the start; after
 * D.C. or D.S. repeats that have been heard are not taken again (unless marked "after-jump") and of several endings
 * the one with the Fine or the way to the coda is played, else the last; what is new then, as a coda, is played with
 * its repeats. "To Coda" and "Fine" count only after a jump and at the end of their bar; each jump is taken once.
 *
 * @param written Road marks of each bar.
 * @param most Bars that may be played in all.
 * @param tooMany Makes the error that is thrown when there are more.
 */
export function playOrder(written: readonly RoadMarks[], most: number, tooMany: () => Error): PlayOrder {
  const {
    over: brackets,
    marks: bracketed,
    warnings: understood,
  } = endingBrackets(withWrittenSigns(written));
  const { marks, warnings: counted } = withTimesInWords(bracketed);
  const warnings = [...understood, ...counted];
  const segnos = signsOf(marks, (mark) => mark.segno);
  const codas = signsOf(marks, (mark) => mark.coda);
  const order: PlayedBar[] = [];
  const passes = new Array<number>(marks.length).fill(0);
  const taken = { jumps: new Set<number>(), ways: new Set<number>() };
  let start = 0;
  let time = 1;
  /** The bar whose D.C. or D.S. was taken last. */
  let jump: RoadMarks | null = null;
  /** True where a passage is heard again after a jump. */
  let again = false;
  /** The bracket in which a repeat of its own began: its number no longer counts. */
  let inside: Bracket | null = null;
  let at = 0;
  const goTo = (bar: number) => {
    at = bar;
    start = bar;
    time = 1;
    inside = null;
  };
  while (at < marks.length) {
    const mark = marks[at]!;
    const bracket = brackets[at] ?? null;
    const entered = bracket !== null && at === bracket.first && bracket !== inside;
    if (entered && !isPlayed(bracket, time, again, jump?.toEnding ?? null)) {
      const over = again || time >= bracket.group.lastPass;
      at = bracket.last + 1;
      // Behind the last bracket of a group the repeat is over.
      if (over && brackets[at]?.group !== bracket.group) goTo(at);
      continue;
    }
    if (mark.repeatStart && at !== start) {
      goTo(at);
      inside = bracket;
    }
    if (order.length >= most) throw tooMany();
    if (time === 1) again = jump !== null && !jump.withRepeats && passes[at]! > 0;
    order.push({ bar: at, pass: passes[at]!, time });
    passes[at]!++;

    const own = bracket === null || inside === bracket ? null : bracket;
    if (mark.repeatEnd > 0 && (!again || mark.repeatAfterJump)) {
      if (time < (own === null ? mark.repeatEnd : timesOf(own, mark.repeatEnd))) {
        time++;
        at = start;
        continue;
      }
    }
    const leaves = own !== null && at === own.last && brackets[at + 1]?.group !== own.group;
    if (mark.repeatEnd > 0 || (leaves && (again || time >= own.group.lastPass))) {
      start = at + 1;
      time = 1;
      inside = null;
    }
    if (jump !== null && (mark.fine || endsPiece(own, at, jump.toEnding))) break;
    const target = jumpFrom(at, mark, { segnos, codas, taken, afterJump: jump !== null }, warnings);
    if (target !== null) {
      if (mark.daCapo || mark.dalSegno !== null) jump = mark;
      goTo(target);
      continue;
    }
    at++;
  }
  return { order, warnings, unplayed: passes.flatMap((times, bar) => (times === 0 ? [bar] : [])) };
}

interface Jumps {
  readonly segnos: Signs;
  readonly codas: Signs;
  /** Bars whose D.C. or D.S. has been taken, and those whose way to the coda has. */
  readonly taken: { readonly jumps: Set<number>; readonly ways: Set<number> };
  readonly afterJump: boolean;
}

/** Where a D.C., D.S. or, after one, a way to the coda leads from the end of a bar; null for on to the next. */
function jumpFrom(
  at: number,
  mark: RoadMarks,
  { segnos, codas, taken, afterJump }: Jumps,
  warnings: RoadNotice[],
): number | null {
  if (afterJump && mark.toCoda !== null && !taken.ways.has(at)) {
    taken.ways.add(at);
    const coda = find(codas, at, mark.toCoda, "behind");
    if (coda !== null) return coda;
    warnings.push({
      code: "no-coda",
      bar: at,
      message: "The score says To Coda, but it has no coda sign; it was played on.",
    });
  }
  if ((!mark.daCapo && mark.dalSegno === null) || taken.jumps.has(at)) return null;
  const target = mark.dalSegno === null ? 0 : find(segnos, at, mark.dalSegno, "up to");
  if (target === null) {
    warnings.push({
      code: "no-segno",
      bar: at,
      message: "The score says D.S., but it has no segno; it was played on.",
    });
    return null;
  }
  taken.jumps.add(at);
  return target;
}

/** "D.C. al 2nd ending": the piece ends with the last bar of that ending. */
function endsPiece(bracket: Bracket | null, bar: number, ending: number | null): boolean {
  return ending !== null && bracket?.last === bar && bracket.passes.includes(ending);
}

/**
 * Whether the bracket is for this pass of the repeat.
 *
 * @param again True where the passage is heard again after a jump.
 * @param ending The ending that the jump names; null where it names none.
 */
function isPlayed({ passes, group }: Bracket, time: number, again: boolean, ending: number | null): boolean {
  if (group.always) return true;
  const last = group.alone ? group.lastPass + 1 : group.lastPass;
  return passes.includes(again && !group.afterJump ? (ending ?? group.wayOut ?? last) : time);
}

/** A bracket that stands alone ("1." only) is left out the last time; in a group the last bracket is played then. */
function timesOf({ group }: Bracket, stated: number): number {
  return Math.max(group.alone ? group.lastPass + 1 : group.lastPass, stated > 2 ? stated : 0);
}

/** "3x" over a passage between repeat signs says how often it is played, where its signs do not [practice]. */
function withTimesInWords(written: readonly RoadMarks[]): {
  readonly marks: readonly RoadMarks[];
  readonly warnings: readonly RoadNotice[];
} {
  const marks = [...written];
  const warnings: RoadNotice[] = [];
  let open: number | null = null;
  written.forEach((mark, bar) => {
    if (mark.repeatStart) open = null;
    if (mark.times !== null) open = bar;
    if (open === null || mark.repeatEnd === 0) return;
    const times = written[open]!.times!;
    if (mark.repeatEnd === 2 && times !== 2) {
      marks[bar] = { ...mark, repeatEnd: times };
      warnings.push({
        code: "times-in-words",
        bar,
        message: `Words say that the passage is played ${times} times; its repeat sign gives no number.`,
      });
    }
    open = null;
  });
  return { marks, warnings };
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
