/** What stands on the chorus page, row by row: a row is one chorus in one line of bars, put there and taken away whole. */
import type { AccountNote } from "../../src/account.ts";
import { isSure } from "../../src/take/index.ts";
import { markSigns } from "../draw/selection-highlight.ts";
import { s } from "../shell/dom.ts";
import { barLineHandles } from "./bar-lines.ts";
import type { ChorusState } from "./chorus-controls.ts";
import { drawHeads, drawRow, markFields } from "./chorus-fields.ts";
import { type ChorusLayout, HEAD, type Line } from "./chorus-layout.ts";
import { drawContour, drawUnder } from "./chorus-line.ts";
import type { Mark, Paper, Point, Reading } from "./readings/reading.ts";
import type { Drawing, Marked, Scene, Scrolled } from "./view.ts";

interface RowPlace {
  /** Top of its fields. */
  readonly y: number;
  readonly line: Line;
  readonly chorus: number;
}

export interface ChorusRows {
  readonly paper: Paper;
  /** Where rows are, from the top down. */
  readonly places: readonly RowPlace[];
  /** Notes that have a place, in order of time, and their places. */
  readonly shown: readonly AccountNote[];
  readonly points: readonly Point[];
  /** Draws rows that are not there yet. */
  put(places: readonly RowPlace[]): void;
  /** Draws the rows that are wanted and takes the others away. */
  keep(wanted: readonly RowPlace[]): void;
  readonly mark: Drawing["mark"];
}

/** What was drawn for one row. */
interface Held {
  readonly elements: SVGElement[];
  readonly marks: Mark[];
  readonly notes: readonly number[];
  readonly fields: Map<string, SVGRectElement>;
}

/** From the back to the front. */
const LAYERS = ["ground", "behind", "under", "line", "notes", "over", "handles"] as const;
type Layer = (typeof LAYERS)[number];

export function chorusRows(
  svg: SVGSVGElement,
  scene: Scene,
  layout: ChorusLayout,
  state: ChorusState,
  reading: Reading,
): ChorusRows {
  const { index, store } = scene;
  let now: ReadonlySet<number> = new Set();
  const paper: Paper = { index, layout, store, shows: (y) => now.has(y) };
  const at = (note: AccountNote): Point | null => (reading.at ? reading.at(paper, note) : layout.point(note));
  const shown = index.solo.filter((note) => at(note) !== null);
  const points = shown.map((note) => at(note)!);
  const inRow = notesByRow(shown, layout);
  const held = new Map<number, Held>();
  const signs = new Map<string, SVGElement>();
  const layers = new Map(LAYERS.map((name) => [name, s("g", { class: name })]));
  const add = (layer: Layer, y: number, element: SVGElement) => {
    layers.get(layer)!.append(element);
    held.get(y)?.elements.push(element);
  };
  svg.append(...layout.lines.map((line) => drawHeads(paper, line, line.y)), ...layers.values());
  const markNotes = markSigns(svg, signs, (id) => {
    const note = index.note.get(id);
    return note?.solo ? at(note) : null;
  });
  let last: Marked | null = null;
  const mark: Drawing["mark"] = (marked, change) => {
    markNotes(marked, change);
    if (change !== "selection") return;
    last = marked;
    for (const row of held.values()) {
      markFields(row.fields, marked);
      for (const one of row.marks)
        one.element.classList.toggle(
          "on",
          one.notes.some((note) => marked.notes?.has(note) ?? false),
        );
    }
  };

  const painter: Painter = { svg, scene, paper, state, reading, shown, points, inRow, held, signs, add };
  const put = (places: readonly RowPlace[]) => {
    now = new Set(places.map((place) => place.y));
    paintRows(painter, places);
    if (last !== null) mark(last, "selection");
  };
  return {
    paper,
    places: placesOf(layout),
    shown,
    points,
    put,
    keep(wanted) {
      const stay = new Set(wanted.map((place) => place.y));
      for (const [y, row] of held) {
        if (stay.has(y)) continue;
        for (const element of row.elements) element.remove();
        for (const i of row.notes) signs.delete(shown[i]!.id);
        held.delete(y);
      }
      const missing = wanted.filter((place) => !held.has(place.y));
      if (missing.length > 0) put(missing);
    },
    mark,
  };
}

interface Painter extends Pick<ChorusRows, "paper" | "shown" | "points"> {
  readonly svg: SVGSVGElement;
  readonly scene: Scene;
  readonly state: ChorusState;
  readonly reading: Reading;
  /** Places in `shown` of the notes of each row. */
  readonly inRow: ReadonlyMap<number, readonly number[]>;
  readonly held: Map<number, Held>;
  readonly signs: Map<string, SVGElement>;
  add(layer: Layer, y: number, element: SVGElement): void;
}

function paintRows(painter: Painter, places: readonly RowPlace[]): void {
  const { svg, scene, paper, state, reading, shown, inRow, held, add } = painter;
  const { index, layout } = paper;
  for (const { y, line, chorus } of places) {
    const fields = new Map<string, SVGRectElement>();
    held.set(y, { elements: [], marks: [], notes: inRow.get(y) ?? [], fields });
    add("ground", y, drawRow(paper, line, chorus, fields, rowName(chorus, state, layout), reading.axis));
  }
  const addMarks = (layer: Layer, marks: readonly Mark[]) => {
    for (const one of marks) {
      add(layer, one.y, one.element);
      if (one.notes.length > 0) held.get(one.y)?.marks.push(one);
    }
  };
  addMarks("behind", reading.behind?.(paper) ?? []);
  if (state.over) addUnder(paper, state.over, (y, element) => add("under", y, element));
  if (reading.joined)
    for (const { y } of places) {
      const notes = (inRow.get(y) ?? []).map((i) => shown[i]!);
      add("line", y, drawContour(notes, layout, index.barQuarters));
    }
  paintNotes(painter, places);
  addMarks("over", reading.over?.(paper) ?? []);
  if (!state.over && state.zoom === null) addMarks("handles", barLineHandles(svg, scene, paper));
}

/** In order of time, whichever rows they stand in. */
function paintNotes(painter: Painter, places: readonly RowPlace[]): void {
  const { paper, state, reading, shown, points, inRow, signs, add } = painter;
  const radius = radiusIn(paper.layout, state);
  for (const i of places.flatMap(({ y }) => inRow.get(y) ?? []).sort((a, b) => a - b)) {
    const [note, point] = [shown[i]!, points[i]!];
    const { y } = paper.layout.cell(note.chorus, note.bar)!;
    const sign = reading.sign(note, point, radius, paper.index);
    signs.set(note.id, sign);
    add("notes", y, sign);
    if (!isSure(note)) add("notes", y, unsureRing(point, radius));
  }
}

/** Pixels above and below what is seen that are drawn beforehand, so that scrolling does not run into blank paper. */
const AHEAD = 250;

/** Draws only the rows that are seen; the chord names of the line that is looked at stay at the top. */
export function scrolledRows(rows: ChorusRows, layout: ChorusLayout): Scrolled {
  const head = s("svg", { class: "chorus-heads", viewBox: `0 0 ${layout.width} ${HEAD}` });
  let pinned: Line | null = null;
  const lineAt = (top: number): Line | null => {
    const line = layout.lines.findLast((one) => one.y < top) ?? null;
    const end = rows.places.findLast((place) => place.line === line);
    return end && end.y + layout.rowHeight > top + HEAD ? line : null;
  };
  return {
    head,
    headHeight: HEAD,
    show(top, bottom) {
      rows.keep(rows.places.filter(({ y }) => y + layout.rowHeight >= top - AHEAD && y <= bottom + AHEAD));
      const line = lineAt(top);
      if (line === pinned) return;
      pinned = line;
      head.replaceChildren(
        ...(line
          ? [
              s("rect", { class: "behind-heads", width: layout.width, height: HEAD }),
              drawHeads(rows.paper, line, 0),
            ]
          : []),
      );
    },
    rowOf(id) {
      const note = rows.paper.index.note.get(id);
      const cell = note && layout.cell(note.chorus, note.bar);
      return cell ? { top: cell.y, bottom: cell.y + layout.rowHeight } : null;
    },
  };
}

function placesOf({ lines, cell }: ChorusLayout): RowPlace[] {
  return lines.flatMap((line) =>
    line.rows.flatMap((chorus) => {
      const first = line.bars.map((bar) => cell(chorus, bar)).find((one) => one !== null);
      return first ? [{ y: first.y, line, chorus }] : [];
    }),
  );
}

/** Places in `shown` of the notes of each row. */
function notesByRow(shown: readonly AccountNote[], layout: ChorusLayout): Map<number, number[]> {
  const rows = new Map<number, number[]>();
  shown.forEach((note, i) => {
    const cell = layout.cell(note.chorus, note.bar);
    if (cell === null) return;
    const row = rows.get(cell.y);
    if (row) row.push(i);
    else rows.set(cell.y, [i]);
  });
  return rows;
}

const rowName = (chorus: number, { over }: ChorusState, { margin }: ChorusLayout): string =>
  over ? `${over[0]} on ${over[1]}` : margin > 40 ? `Chorus ${chorus}` : `${chorus}`;

/** Half the size of a sign in pixels: larger where one bar is looked at, smaller in narrow bars. */
const radiusIn = (layout: ChorusLayout, state: ChorusState) =>
  state.zoom !== null ? 6 : layout.columnWidth < 60 ? 3.2 : 3.8;

const unsureRing = ({ x, y }: Point, radius: number) =>
  s("circle", { class: "unsure-ring", cx: x.toFixed(1), cy: y.toFixed(1), r: radius + 4 });

/** The notes of the chorus that lies under another one, row by row. */
function addUnder(
  { index, layout, shows }: Paper,
  [over, under]: readonly [number, number],
  add: (y: number, element: SVGElement) => void,
): void {
  for (const bar of index.bars) {
    const cell = layout.cell(over, bar);
    if (cell && shows(cell.y)) add(cell.y, drawUnder(index.inBar(under, bar), layout, over));
  }
}
