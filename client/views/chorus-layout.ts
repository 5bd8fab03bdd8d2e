/** Where each bar of each chorus stands on the chorus page. */
import { scaleLinear } from "d3";
import type { AccountNote } from "../../src/account.ts";
import type { AccountIndex } from "../shell/account-index.ts";

export interface ChorusLayout {
  readonly width: number;
  readonly height: number;
  /** Space for the names of the choruses. */
  readonly margin: number;
  readonly columnWidth: number;
  readonly rowHeight: number;
  /** Space at the top of each field for what stands over its notes. */
  readonly above: number;
  readonly lines: readonly Line[];
  readonly rows: readonly number[];
  /** Lowest and highest pitch of the fields. */
  readonly low: number;
  readonly high: number;
  cell(chorus: number, bar: number): { x: number; y: number } | null;
  /** Place of a note's sign. */
  point(note: AccountNote): { x: number; y: number } | null;
  /** Height of a pitch in its field, from the field's top. */
  depth(pitch: number): number;
}

export interface Line {
  readonly bars: readonly number[];
  /** Top of the chord names. */
  readonly y: number;
}

export const HEAD = 38;
const GAP = 5;
const BETWEEN = 20;
const PAD = 7;

export interface ChorusWish {
  /** This bar alone; null for all of them. */
  readonly zoom: number | null;
  /** The choruses to draw. */
  readonly rows: readonly number[];
  /** Pixels that a reading needs over the notes of each field, and right of the last field. */
  readonly above: number;
  readonly right: number;
}

/** Lays out the page for `width` pixels. */
export function layChoruses(
  index: AccountIndex,
  width: number,
  { zoom, rows, above, right }: ChorusWish,
): ChorusLayout {
  const margin = width < 600 ? 26 : 58;
  const room = width - margin - 2 - right;
  const before = index.bars.filter((bar) => bar < 1);
  const after = index.bars.filter((bar) => bar > index.chartBars);
  // On a narrow page a column that only the first line fills would cost every line its width.
  const alone = before.length > 0 && width < 600;
  const extra = alone ? 0 : before.length;
  const per = perLine(index.chartBars, room, extra);
  const columns = zoom === null ? per + extra : 1;
  const columnWidth = room / columns;
  const pitches = index.solo.map((note) => note.pitch);
  const low = pitches.length === 0 ? 60 : pitches.reduce((a, b) => Math.min(a, b)) - 2;
  const high = pitches.length === 0 ? 72 : pitches.reduce((a, b) => Math.max(a, b)) + 2;
  const fieldHeight = zoom === null ? Math.round(Math.min(132, Math.max(70, (high - low) * 3.4))) : 190;
  const rowHeight = fieldHeight + above;

  const lists: number[][] = [];
  if (zoom !== null) lists.push([zoom]);
  else {
    const form = Array.from({ length: index.chartBars }, (_, i) => i + 1);
    for (let i = 0; i < form.length; i += per) lists.push(form.slice(i, i + per));
    if (alone) lists.unshift(before.slice(-per));
    else lists[0]?.unshift(...before);
    for (let i = 0; i < after.length; i += per) lists.push(after.slice(i, i + per));
  }
  let y = 0;
  const places = new Map<string, { x: number; y: number }>();
  const lines = lists.map((bars): Line => {
    const line = { bars, y };
    const shift = zoom === null && (bars[0] ?? 1) >= 1 ? extra : 0;
    rows.forEach((chorus, row) => {
      bars.forEach((bar, i) => {
        places.set(`${chorus}.${bar}`, {
          x: margin + (i + shift) * columnWidth,
          y: y + HEAD + row * (rowHeight + GAP),
        });
      });
    });
    y += HEAD + rows.length * (rowHeight + GAP) + BETWEEN;
    return line;
  });
  const depth = scaleLinear([low, high], [rowHeight - 4, above + 4]);
  const layout: ChorusLayout = {
    width,
    height: Math.max(60, y - BETWEEN + 4),
    margin,
    columnWidth,
    rowHeight,
    above,
    lines,
    rows,
    low,
    high,
    cell: (chorus, bar) => places.get(`${chorus}.${bar}`) ?? null,
    depth: (pitch) => depth(pitch),
    point(note) {
      const cell = places.get(`${note.chorus}.${note.bar}`);
      if (!cell) return null;
      return {
        x: cell.x + PAD + index.within(note) * (columnWidth - PAD),
        y: cell.y + depth(note.pitch),
      };
    },
  };
  return layout;
}

/** As many bars on a line as fit at 72 pixels each, in a number that divides the form where one does. */
function perLine(bars: number, room: number, extra: number): number {
  const most = Math.max(1, Math.floor(room / 72) - extra);
  if (bars <= most && bars <= 16) return bars;
  for (const n of [16, 12, 8, 6, 4, 3, 2]) if (n <= most && bars % n === 0) return n;
  return Math.min(4, most);
}
