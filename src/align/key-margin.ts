/** How much better a line fits its chart than the same chart in any other key, wherever in the form that would be laid. */
import type { Chart } from "../chart/types.ts";
import { mod, mod12 } from "../pitch/index.ts";
import type { PlacedNote } from "../take/index.ts";
import { type FormBeats, formBeats } from "./lattice/form-beats.ts";
import { LINE_POWERS } from "./lattice/lay-line.ts";
import { strokesOf } from "./lattice/line-features.ts";
import { chordRow, EARLY, type LineTables, SECOND_HALF } from "./lattice/line-model.ts";
import { LINE_TABLES } from "./lattice/line-tables.ts";
import { logSum } from "./lattice/log-sum.ts";
import { ELSEWHERE } from "./lattice/settle-turn.ts";

/**
 * A chart is laid where it fits best, and a wrong one as well; what else the line might be has to be asked where *that*
 * fits best. So the form is turned under the line by whole bars, in all keys, and what the turns of a key say is summed;
 * as where bars are settled (`settleTurn`), a bar may be played over something else.
 *
 * @param solo the notes of the line in time order, as they were laid
 * @param tables of lines; a report weighs a line by those of others
 * @returns nats a note over the best other key; 0 for a line without notes
 */
export function keyMargin(
  solo: readonly PlacedNote[],
  chart: Chart,
  tables: LineTables = LINE_TABLES,
): number {
  if (solo.length === 0) return 0;
  const form = formBeats(chart);
  const halves = solo.map((note) => halfBeatOf(note, form));
  const leaves = leavingsOf(solo);
  const shares = sharesOf(tables);
  const turns = chart.bars.length;
  const sums = new Float64Array(12 * turns);
  const inBar = new Float64Array(12 * turns);
  const sofar = new Float64Array(12 * turns).fill(1);
  const barOf = (i: number) => Math.floor(halves[i]! / (2 * form.bar));
  let bars = 0;
  for (let from = 0; from < solo.length; bars++) {
    let to = from;
    inBar.fill(1);
    for (; to < solo.length && to - from < TOGETHER && barOf(to) === barOf(from); to++) {
      addNote(inBar, solo[to]!.pitch, halves[to]!, leaves[to]!, form, shares);
    }
    for (let k = 0; k < sofar.length; k++) sofar[k]! *= (1 - ELSEWHERE) * inBar[k]! + ELSEWHERE;
    if (bars % AT_ONCE === 0) logOf(sofar, sums);
    from = to;
  }
  logOf(sofar, sums);
  const keys = Array.from({ length: 12 }, (_, above) =>
    logSum(sums.subarray(above * turns, (above + 1) * turns)),
  );
  return (keys[0]! - Math.max(...keys.slice(1))) / solo.length;
}

/**
 * Notes of a bar that are judged together, and bars whose shares are multiplied before their logarithm is taken: shares
 * are 8 at most, and so many of them stay within the range of numbers.
 */
const TOGETHER = 32;
const AT_ONCE = 8;

/** Adds the logarithms of products, which begin anew. */
function logOf(products: Float64Array, into: Float64Array): void {
  for (let k = 0; k < into.length; k++) into[k]! += Math.log(products[k]!);
  products.fill(1);
}

/** Shares of the rows of `LineTables.chord` to their powers, each row twice over: none has to be gone round. */
function sharesOf({ chord }: LineTables): Float64Array {
  return Float64Array.from({ length: 2 * chord.length }, (_, k) => {
    const row = Math.floor(k / 24);
    return Math.exp(LINE_POWERS.chord[row % 3]! * chord[12 * row + (k % 12)]!);
  });
}

/** Half beat from the form's first in which a note stands; in rubato only its bar is known. */
function halfBeatOf({ position, chorus, bar }: PlacedNote, form: FormBeats): number {
  const bars = (chorus - 1) * (form.count / form.bar) + bar - 1;
  const beats = position === null ? bars * form.bar : position / form.quarters;
  const beat = Math.floor(beats + EARLY);
  return 2 * beat + (beats - beat < SECOND_HALF ? 0 : 1);
}

/** How each note is left, as the tables have it (`Strokes.leave`). */
function leavingsOf(solo: readonly PlacedNote[]): Uint8Array {
  const strokes = strokesOf(
    solo,
    solo.map(() => ({ hand: "right", solo: true, margin: 1 })),
  );
  const leaves = new Uint8Array(solo.length);
  strokes.members.forEach((members, s) => {
    for (const i of members) leaves[i] = strokes.leave[s]!;
  });
  return leaves;
}

/** Multiplies by what a note says of each key and turn of the form: `into[above * turns + turn]`. */
function addNote(
  into: Float64Array,
  pitch: number,
  half: number,
  leave: number,
  form: FormBeats,
  shares: Float64Array,
): void {
  const turns = into.length / 12;
  const [halves, step] = [2 * form.count, 2 * form.bar];
  let at = mod(half, halves);
  for (let turn = 0; turn < turns; turn++) {
    const which = form.chord[at]!;
    const chord = form.chords[which];
    if (chord != null) {
      const spot = at % 2 === 1 ? 2 : form.change[at] === 1 ? 0 : 1;
      const first = 2 * chordRow(form.family[which]!, spot, leave) + 12 + mod12(pitch - chord.rootClass);
      for (let above = 0; above < 12; above++) into[above * turns + turn]! *= shares[first - above]!;
    }
    at = at + step < halves ? at + step : at + step - halves;
  }
}
