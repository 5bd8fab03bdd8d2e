/** The main picture: choruses as rows, the chart's bars as columns, the same bar of every chorus in one column. */
import type { AccountNote } from "../../src/account.ts";
import { isSure } from "../../src/take/index.ts";
import { capital, count } from "../../src/words/index.ts";
import { nearestOf, pointIn } from "../draw/nearest.ts";
import { markSigns } from "../draw/selection-highlight.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { s } from "../shell/dom.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { addBarLineHandles } from "./bar-lines.ts";
import { type ChorusState, chorusControls } from "./chorus-controls.ts";
import { drawLine, markFields } from "./chorus-fields.ts";
import { type ChorusLayout, layChoruses } from "./chorus-layout.ts";
import { drawContour, drawUnder } from "./chorus-line.ts";
import { READINGS_SHOWN } from "./readings/index.ts";
import type { Mark, Paper, Point, Reading } from "./readings/reading.ts";
import type { Drawing, KeyEntry, Scene, View } from "./view.ts";

/** @param store whose reading is shown: the picture says what that reading shows, and is drawn anew with another one */
export function chorusPage(store: Pick<SelectionStore, "reading">): View {
  const state: ChorusState = { zoom: null, over: null };
  const reading = () => READINGS_SHOWN[store.reading];
  return {
    id: "chorus-page",
    readings: true,
    title: (index) =>
      `${capital(count(index.choruses.length, "chorus", "choruses"))}, the same bar under the same chord`,
    units: (index) =>
      reading().empty?.(index) ??
      `${reading().units(index)} Across: the chart's bars. Down: one row a chorus; within a field, time runs right and ${store.reading === "time" ? "lateness down" : "pitch up, a rule at every C"}.`,
    empty: (index) =>
      index.solo.length === 0
        ? "No note of this take belongs to the solo. Choose another part or hand above."
        : null,
    key: (index) =>
      reading().empty?.(index) ? [] : [...reading().key(index), ...unsureKey(index), ...unheardKey(index)],
    draw: (scene) => draw(scene, state, reading()),
    controls: (scene, redraw) => chorusControls(scene, state, redraw),
    table: (index) => reading().table(index),
  };
}

/** Bars whose place is uncertain have their entry where there are any. */
function unsureKey(index: AccountIndex): KeyEntry[] {
  if (!index.analysis.alignment.bars.some((bar) => bar.confidence < 0.75)) return [];
  return [
    {
      sign: s("path", { class: "hatch", d: "M-11,2L-3,-6M-9,6L3,-6M-3,6L9,-6M3,6L11,-2" }),
      words: "the bar's place is uncertain",
    },
  ];
}

/** Notes of a recording that were not heard surely have a broken ring, whatever the reading. */
function unheardKey(index: AccountIndex): KeyEntry[] {
  if (index.solo.every(isSure)) return [];
  return [{ sign: s("circle", { class: "unsure-ring", r: 7 }), words: "not heard surely: played or not?" }];
}

function draw(scene: Scene, state: ChorusState, reading: Reading): Drawing {
  const { index, store, width } = scene;
  const { over } = state;
  const layout = layChoruses(index, width, {
    zoom: state.zoom,
    rows: over ? [over[0]] : index.choruses,
    above: reading.above?.(index) ?? 0,
    right: reading.right?.(width) ?? 0,
  });
  const paper: Paper = { index, layout, store };
  const svg = s("svg", { viewBox: `0 0 ${layout.width} ${layout.height}`, class: "chorus-page" });
  svg.dataset.reading = reading.name;
  const fields = new Map<string, SVGRectElement>();
  const nameOf = (chorus: number) =>
    over ? `${over[0]} on ${over[1]}` : layout.margin > 40 ? `Chorus ${chorus}` : `${chorus}`;
  for (const line of layout.lines) svg.append(drawLine(paper, line, fields, nameOf, reading.axis));

  const at = (note: AccountNote): Point | null => (reading.at ? reading.at(paper, note) : layout.point(note));
  const shown = index.solo.filter((note) => at(note) !== null);
  const points = shown.map((note) => at(note)!);
  const behind = reading.behind?.(paper) ?? [];
  svg.append(...behind.map((mark) => mark.element));
  if (over) {
    const under = index.solo.filter((note) => note.chorus === over[1]);
    svg.append(drawUnder(under, layout, over[0]));
  }
  if (reading.joined) svg.append(drawContour(shown, layout, index.barQuarters));
  const signs = drawSigns(svg, shown, points, reading, radiusIn(layout, state), index);
  const above = reading.over?.(paper) ?? [];
  svg.append(...above.map((mark) => mark.element));

  follow(svg, scene, shown, points);
  if (!over && state.zoom === null) addBarLineHandles(svg, scene, layout);
  const markNotes = markSigns(svg, signs, (id) => {
    const note = index.note.get(id);
    return note?.solo ? at(note) : null;
  });
  const marks: readonly Mark[] = [...behind, ...above].filter((mark) => mark.notes.length > 0);
  return {
    svg,
    mark(marked, change) {
      markNotes(marked, change);
      if (change !== "selection") return;
      markFields(fields, marked);
      for (const mark of marks)
        mark.element.classList.toggle(
          "on",
          mark.notes.some((note) => marked.notes?.has(note) ?? false),
        );
    },
  };
}

/** Half the size of a sign in pixels: larger where one bar is looked at, smaller in narrow bars. */
const radiusIn = (layout: ChorusLayout, state: ChorusState) =>
  state.zoom !== null ? 6 : layout.columnWidth < 60 ? 3.2 : 3.8;

function drawSigns(
  svg: SVGSVGElement,
  shown: readonly AccountNote[],
  points: readonly Point[],
  reading: Reading,
  radius: number,
  index: AccountIndex,
): Map<string, SVGElement> {
  const signs = new Map<string, SVGElement>();
  const layer = s("g", { class: "notes" });
  shown.forEach((note, i) => {
    const sign = reading.sign(note, points[i]!, radius, index);
    signs.set(note.id, sign);
    layer.append(sign);
    if (!isSure(note)) {
      const { x, y } = points[i]!;
      layer.append(s("circle", { class: "unsure-ring", cx: x.toFixed(1), cy: y.toFixed(1), r: radius + 4 }));
    }
  });
  svg.append(layer);
  return signs;
}

/** The pointer shows the note it is near, and a click selects it, or the bar or the chorus that it falls on. */
function follow(
  svg: SVGSVGElement,
  { store }: Scene,
  shown: readonly AccountNote[],
  points: readonly Point[],
): void {
  const nearest = nearestOf(points);
  const noteAt = (event: MouseEvent, reach: number) => {
    const { x, y } = pointIn(svg, event);
    const hit = nearest.find(x, y, reach);
    return hit === null ? null : shown[hit]!.id;
  };
  svg.addEventListener("pointermove", (event) => store.point(noteAt(event, 16)));
  svg.addEventListener("pointerleave", () => store.point(null));
  svg.addEventListener("click", (event) => {
    const note = noteAt(event, 12);
    const target = (event.target as Element).closest<SVGElement>("[data-bar],[data-row]");
    if (note !== null) store.select({ kind: "note", note });
    else if (target?.dataset.row) store.select({ kind: "chorus", chorus: Number(target.dataset.row) });
    else if (target?.dataset.bar) {
      const chorus = target.dataset.chorus;
      store.select({ kind: "bar", chorus: chorus ? Number(chorus) : null, bar: Number(target.dataset.bar) });
    } else store.select({ kind: "none" });
  });
}
