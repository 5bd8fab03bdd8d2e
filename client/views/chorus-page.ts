/** The main picture: choruses as rows, the chart's bars as columns, the same bar of every chorus in one column. */
import { isSure } from "../../src/take/index.ts";
import { capital, count } from "../../src/words/index.ts";
import { nearestOf, pointIn } from "../draw/nearest.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { s } from "../shell/dom.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { type ChorusState, chorusControls } from "./chorus-controls.ts";
import { UNSURE } from "./chorus-fields.ts";
import { type ChorusLayout, layChoruses, type PagePiece, piecesForPaper } from "./chorus-layout.ts";
import { type ChorusRows, chorusRows, scrolledRows } from "./chorus-rows.ts";
import { READINGS_SHOWN } from "./readings/index.ts";
import type { Reading } from "./readings/reading.ts";
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
    pieces: (scene, height) =>
      piecesForPaper(lay(scene, state, reading()), height).map((piece) =>
        draw({ ...scene, tallest: Number.POSITIVE_INFINITY }, state, reading(), piece),
      ),
    controls: (scene, redraw) => chorusControls(scene, state, redraw),
    table: (index) => reading().table(index),
  };
}

/** Bars whose place is uncertain have their entry where there are any. */
function unsureKey(index: AccountIndex): KeyEntry[] {
  if (!index.analysis.alignment.bars.some((bar) => bar.confidence < UNSURE)) return [];
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

function lay({ index, width }: Scene, state: ChorusState, reading: Reading, piece?: PagePiece): ChorusLayout {
  return layChoruses(index, width, {
    zoom: state.zoom,
    rows: state.over ? [state.over[0]] : index.choruses,
    above: reading.above?.(index) ?? 0,
    right: reading.right?.(width) ?? 0,
    ...piece,
  });
}

function draw(scene: Scene, state: ChorusState, reading: Reading, piece?: PagePiece): Drawing {
  const layout = lay(scene, state, reading, piece);
  const svg = s("svg", { viewBox: `0 0 ${layout.width} ${layout.height}`, class: "chorus-page" });
  svg.dataset.reading = reading.name;
  const rows = chorusRows(svg, scene, layout, state, reading);
  follow(svg, scene, rows);
  if (layout.height > scene.tallest) {
    const scrolled = scrolledRows(rows, layout);
    scrolled.head.addEventListener("click", (event) => selectAt(event, scene));
    return { svg, mark: rows.mark, scrolled };
  }
  rows.put(rows.places);
  return { svg, mark: rows.mark };
}

/** The pointer shows the note it is near, and a click selects it, or the bar or the chorus that it falls on. */
function follow(svg: SVGSVGElement, scene: Scene, { shown, points }: ChorusRows): void {
  const { store } = scene;
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
    if (note !== null) store.select({ kind: "note", note });
    else selectAt(event, scene);
  });
}

/** Selects the bar or the chorus whose name or field was hit; nothing beside them. */
function selectAt(event: MouseEvent, { store }: Scene): void {
  const target = (event.target as Element).closest<SVGElement>("[data-bar],[data-row]");
  if (target?.dataset.row) store.select({ kind: "chorus", chorus: Number(target.dataset.row) });
  else if (target?.dataset.bar) {
    const chorus = target.dataset.chorus;
    store.select({ kind: "bar", chorus: chorus ? Number(chorus) : null, bar: Number(target.dataset.bar) });
  } else store.select({ kind: "none" });
}
