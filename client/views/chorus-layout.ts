/** Where each bar of each chorus stands on the chorus page. */
import { scaleLinear } from "d3";
import type { AccountNote } from "../../src/account.ts";
import type { AccountIndex } from "../shell/account-index.ts";

export interface ChorusLayout {
  readonly width: number;
  readonly height: number;
  /** Space for the names of the choruses. */
  readonly margin: number;
  /** Width of a bar, but for a line that is closer set. */
  readonly columnWidth: number;
  readonly rowHeight: number;
  /** Space at the top of each field for what stands over its notes. */
  readonly above: number;
  readonly lines: readonly Line[];
  readonly rows: readonly number[];
  /** Lowest and highest pitch of the fields. */
  readonly low: number;
  readonly high: number;
  /** Top left corner of a field; its `y` is that of its row, and no two rows have the same. */
  cell(chorus: number, bar: number): Cell | null;
  /** Place of a note's sign. */
  point(note: AccountNote): { x: number; y: number } | null;
  /** Height of a pitch in its field, from the field's top. */
  depth(pitch: number): number;
}

export interface Cell {
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

export interface Line {
  readonly bars: readonly number[];
  /** Choruses that have a row in it: of a line before or after the form only those that play there. */
  readonly rows: readonly number[];
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
  /** These lines of the page alone; all of them where it is left out. */
  readonly lines?: readonly Pick<Line, "bars">[];
}

/** Lays out the page for `width` pixels. */
export function layChoruses(
  index: AccountIndex,
  width: number,
  { zoom, rows, above, right, lines: wanted }: ChorusWish,
): ChorusLayout {
  const margin = width < 600 ? 26 : (rows.at(-1) ?? 1) > 9 ? 70 : 62;
  const room = width - margin - 2 - right;
  const before = index.bars.filter((bar) => bar < 1);
  const after = index.bars.filter((bar) => bar > index.chartBars);
  // On a narrow page a column that only the first line fills would cost every line its width: that line alone is narrower.
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
    if (alone && before.length > 1) lists.unshift(before);
    else lists[0]?.unshift(...before);
    for (let i = 0; i < after.length; i += per) lists.push(after.slice(i, i + per));
  }
  let y = 0;
  const places = new Map<string, Cell>();
  const drawn = (wanted?.map((line) => line.bars) ?? lists)
    .map((bars) => ({ bars, rows: rowsIn(index, bars, rows) }))
    .filter((line) => line.rows.length > 0);
  const lines = drawn.map(({ bars, rows: own }): Line => {
    const line = { bars, rows: own, y };
    const shift = zoom === null && (bars[0] ?? 1) >= 1 ? extra : 0;
    const barWidth = alone && bars.length > per ? room / bars.length : columnWidth;
    own.forEach((chorus, row) => {
      bars.forEach((bar, i) => {
        places.set(`${chorus}.${bar}`, {
          x: margin + (i + shift) * barWidth,
          width: barWidth,
          y: y + HEAD + row * (rowHeight + GAP),
        });
      });
    });
    y += lineHeight(own.length, rowHeight);
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
        x: cell.x + PAD + index.within(note) * (cell.width - PAD),
        y: cell.y + depth(note.pitch),
      };
    },
  };
  return layout;
}

/** The choruses of `rows` that play in a line; in a line of the form all of them, played or not. */
function rowsIn(index: AccountIndex, bars: readonly number[], rows: readonly number[]): readonly number[] {
  if (bars.some((bar) => bar >= 1 && bar <= index.chartBars)) return rows;
  return rows.filter((chorus) => bars.some((bar) => index.inBar(chorus, bar).length > 0));
}

const lineHeight = (rows: number, rowHeight: number) => HEAD + rows * (rowHeight + GAP) + BETWEEN;

/** A piece of the page that fits a sheet of paper: these lines of these choruses. */
export interface PagePiece {
  readonly rows: readonly number[];
  readonly lines: readonly Line[];
}

/**
 * The page cut between its rows and lines into pieces of at most `tallest` pixels, in the order in which they are
 * read: all lines of as many choruses as fit, or, where not even one fits, as many lines as do. A line in which only
 * a chorus or two play, before or after the form, is not reckoned with.
 */
export function piecesForPaper(
  { lines, rows, rowHeight }: Pick<ChorusLayout, "lines" | "rows" | "rowHeight">,
  tallest: number,
): PagePiece[] {
  const fitting = (lineCount: number) =>
    Math.floor((tallest / lineCount - HEAD - BETWEEN) / (rowHeight + GAP));
  const whole = lines.filter((line) => line.rows.length === rows.length).length;
  const many = Math.max(1, Math.min(rows.length, fitting(fitting(whole) >= 1 ? whole : 1)));
  const deep = Math.max(1, Math.floor(tallest / lineHeight(many, rowHeight)));
  const parts = whole <= deep ? [lines] : inChunks(lines, deep);
  return inChunks(rows, many).flatMap((part) => parts.map((own) => ({ rows: part, lines: own })));
}

const inChunks = <T>(all: readonly T[], size: number): T[][] =>
  Array.from({ length: Math.ceil(all.length / size) }, (_, i) => all.slice(i * size, (i + 1) * size));

/** As many bars on a line as fit at 70 pixels each, in a number that divides the form where one does. */
function perLine(bars: number, room: number, extra: number): number {
  const most = Math.max(1, Math.floor(room / 70) - extra);
  if (bars <= most && bars <= 16) return bars;
  for (const n of [16, 12, 8, 6, 4, 3, 2]) if (n <= most && bars % n === 0) return n;
  return Math.min(4, most);
}
