/** The main picture: choruses as rows, the chart's bars as columns, the same bar of every chorus in one column. */
import type { AccountNote } from "../../src/account.ts";
import { beatInFigures, capital, count, withAccidentals } from "../../src/words/index.ts";
import { nearestOf, pointIn } from "../draw/nearest.ts";
import { roleClass, roleMark, signPath } from "../draw/role-marks.ts";
import { markSigns } from "../draw/selection-highlight.ts";
import { h, s } from "../shell/dom.ts";
import { addBarLineHandles } from "./bar-lines.ts";
import { type ChorusLayout, HEAD, layChoruses } from "./chorus-layout.ts";
import { LINE_ROLE_LETTERS } from "./line-role-letters.ts";
import type { Drawing, Marked, Scene, View } from "./view.ts";

/** What the sign of a note says. */
type Sign = "role" | "line role" | "finger";

/** Bars whose place is less sure than this are hatched. */
const UNSURE = 0.75;

export function chorusPage(): View {
  const state = { sign: "role" as Sign, zoom: null as number | null, over: null as [number, number] | null };
  return {
    id: "chorus-page",
    title: (index) =>
      `Every note of ${count(index.choruses.length, "chorus", "choruses")}, the same bar under the same chord`,
    units: () =>
      "Across: the chart's bars. Down: one row a chorus; within a field, time runs right and pitch up, a rule at every C.",
    empty: (index) =>
      index.solo.length === 0
        ? "No note of this take belongs to the solo. Choose another part or hand above."
        : null,
    draw: (scene) => draw(scene, state),
    controls: (scene, redraw) => controls(scene, state, redraw),
    table: (index) => ({
      columns: [
        "Note",
        "Chorus",
        "Bar",
        "Beat",
        "Chord",
        "Degree",
        "Role",
        "Line role",
        "Finger",
        "In words",
      ],
      rows: index.solo.map((note) => [
        withAccidentals(note.spelling),
        note.chorus,
        note.bar,
        note.beat === null ? "no beat" : beatInFigures(note.beat),
        withAccidentals(note.chord ?? "none"),
        withAccidentals(note.degree ?? ""),
        note.role ?? "",
        note.lineRole ?? "",
        note.finger ?? "",
        note.account,
      ]),
    }),
  };
}

interface State {
  sign: Sign;
  zoom: number | null;
  over: [number, number] | null;
}

function draw(scene: Scene, state: State): Drawing {
  const { index, store, width } = scene;
  const rows = state.over ? [state.over[0]] : index.choruses;
  const layout = layChoruses(index, width, state.zoom, rows);
  const svg = s("svg", { viewBox: `0 0 ${layout.width} ${layout.height}`, class: "chorus-page" });
  const cells = new Map<string, SVGRectElement>();
  for (const line of layout.lines) drawLine(scene, layout, line, svg, cells, state);

  const shown = index.solo.filter((note) => layout.point(note) !== null);
  const under = state.over ? index.solo.filter((note) => note.chorus === state.over?.[1]) : [];
  if (state.over) svg.append(drawUnder(under, layout, state.over[0]));
  svg.append(drawContour(shown, layout, index.barQuarters));

  const signs = new Map<string, SVGElement>();
  const points = shown.map((note) => layout.point(note)!);
  const layer = s("g", { class: "notes" });
  const radius = state.zoom === null ? (layout.columnWidth < 60 ? 3.2 : 3.8) : 6;
  shown.forEach((note, i) => {
    const sign = drawSign(note, points[i]!, radius, state.sign);
    signs.set(note.id, sign);
    layer.append(sign);
  });
  svg.append(layer);

  const nearest = nearestOf(points);
  svg.addEventListener("pointermove", (event) => {
    const { x, y } = pointIn(svg, event);
    const hit = nearest.find(x, y, 16);
    store.point(hit === null ? null : shown[hit]!.id);
  });
  svg.addEventListener("pointerleave", () => store.point(null));
  svg.addEventListener("click", (event) => {
    const { x, y } = pointIn(svg, event);
    const hit = nearest.find(x, y, 12);
    const target = (event.target as Element).closest<SVGElement>("[data-bar],[data-row]");
    if (hit !== null) store.select({ kind: "note", note: shown[hit]!.id });
    else if (target?.dataset.row) store.select({ kind: "chorus", chorus: Number(target.dataset.row) });
    else if (target?.dataset.bar) {
      const chorus = target.dataset.chorus;
      store.select({ kind: "bar", chorus: chorus ? Number(chorus) : null, bar: Number(target.dataset.bar) });
    } else store.select({ kind: "none" });
  });
  if (!state.over && state.zoom === null) addBarLineHandles(svg, scene, layout);

  const markNotes = markSigns(svg, signs, (id) => {
    const note = index.note.get(id);
    return note?.solo ? layout.point(note) : null;
  });
  return {
    svg,
    mark(marked, change) {
      markNotes(marked, change);
      if (change === "selection") markCells(cells, marked);
    },
  };
}

function drawLine(
  scene: Scene,
  layout: ChorusLayout,
  line: ChorusLayout["lines"][number],
  svg: SVGSVGElement,
  cells: Map<string, SVGRectElement>,
  state: State,
): void {
  const { index } = scene;
  const group = s("g", { class: "line" });
  for (const bar of line.bars) {
    const first = layout.cell(layout.rows[0] ?? 1, bar);
    if (!first) continue;
    const w = layout.columnWidth;
    const head = s("g", { class: "head", "data-bar": bar });
    head.append(
      s("rect", { class: "head-field", x: first.x, y: line.y, width: w, height: HEAD - 2 }),
      s("text", { class: "bar-number", x: first.x + 5, y: line.y + 11 }, bar < 1 ? "pickup" : String(bar)),
    );
    const chords = index.chords(bar);
    const beats = index.analysis.chart.meter.beats;
    for (const chord of chords) {
      head.append(
        s(
          "text",
          {
            class: chords.length > 2 ? "chord small" : "chord",
            x: first.x + 5 + ((chord.beat - 1) / beats) * (w - 5),
            y: line.y + 29,
            ...(chords.length > 1 && w / chords.length < 52
              ? { "font-size": chords.length > 2 ? 9 : 11 }
              : {}),
          },
          withAccidentals(chord.symbol),
        ),
      );
    }
    group.append(head);
    for (const chorus of layout.rows) {
      const cell = layout.cell(chorus, bar);
      if (cell) group.append(drawCell(scene, layout, chorus, bar, cell, cells));
    }
  }
  layout.rows.forEach((chorus) => {
    const cell = layout.cell(chorus, line.bars.find((bar) => bar >= 1) ?? line.bars[0]!);
    if (!cell) return;
    const wide = layout.margin > 40;
    const label = state.over
      ? `${state.over[0]} on ${state.over[1]}`
      : wide
        ? `Chorus ${chorus}`
        : `${chorus}`;
    group.append(
      s("text", { class: "row-name", x: 0, y: cell.y + 12, "data-row": chorus }, label),
      ...(wide ? pitchNames(layout, cell.y) : []),
    );
  });
  svg.append(group);
}

function pitchNames(layout: ChorusLayout, y: number): SVGTextElement[] {
  const names: SVGTextElement[] = [];
  for (let pitch = Math.ceil(layout.low / 12) * 12; pitch <= layout.high; pitch += 12) {
    const depth = layout.depth(pitch);
    if (depth < 22) continue;
    names.push(
      s(
        "text",
        { class: "pitch-name", x: layout.margin - 5, y: y + depth + 3, "text-anchor": "end" },
        `C${pitch / 12 - 1}`,
      ),
    );
  }
  return names;
}

function drawCell(
  scene: Scene,
  layout: ChorusLayout,
  chorus: number,
  bar: number,
  at: { x: number; y: number },
  cells: Map<string, SVGRectElement>,
): SVGGElement {
  const { index } = scene;
  const [w, height] = [layout.columnWidth, layout.rowHeight];
  const time = index.bar(chorus, bar);
  const unsure = time !== null && time.confidence < UNSURE;
  const field = s("rect", {
    class: `field${unsure ? " unsure" : ""}`,
    x: at.x,
    y: at.y,
    width: w,
    height,
    "data-bar": bar,
    "data-chorus": chorus,
    "data-notes": index.inBar(chorus, bar).length,
    "data-confidence": time ? time.confidence : null,
  });
  cells.set(`${chorus}.${bar}`, field);
  const rules: string[] = [];
  for (let pitch = Math.ceil(layout.low / 12) * 12; pitch <= layout.high; pitch += 12) {
    rules.push(`M${at.x},${(at.y + layout.depth(pitch)).toFixed(1)}h${w}`);
  }
  const { beats } = index.analysis.chart.meter;
  const ticks = Array.from(
    { length: beats - 1 },
    (_, i) => `M${(at.x + 7 + ((i + 1) / beats) * (w - 7)).toFixed(1)},${at.y + height}v-5`,
  );
  return s(
    "g",
    { class: "cell" },
    field,
    unsure ? s("path", { class: "hatch", d: hatch(at.x, at.y, w, height) }) : null,
    s("path", { class: "rule", d: rules.join("") }),
    s("path", { class: "tick", d: ticks.join("") }),
    s("path", { class: `bar-line${unsure ? " unsure" : ""}`, d: `M${at.x},${at.y}v${height}` }),
  );
}

function hatch(x: number, y: number, w: number, height: number): string {
  const parts: string[] = [];
  for (let a = 8; a < w + height; a += 9) {
    const x1 = Math.min(a, w);
    const y1 = a - x1;
    const y2 = Math.min(a, height);
    const x2 = a - y2;
    parts.push(
      `M${(x + x1).toFixed(1)},${(y + y1).toFixed(1)}L${(x + x2).toFixed(1)},${(y + y2).toFixed(1)}`,
    );
  }
  return parts.join("");
}

/** The line as a hand would write it: each note held as long as it was, joined to the next one of its phrase. */
function drawContour(notes: readonly AccountNote[], layout: ChorusLayout, barQuarters: number): SVGGElement {
  const joins: string[] = [];
  const holds: string[] = [];
  const barWidth = layout.columnWidth - 7;
  notes.forEach((note, i) => {
    const at = layout.point(note)!;
    const next = notes[i + 1];
    const to = next && next.phrase === note.phrase ? layout.point(next) : null;
    const sameLine = to !== null && to.x > at.x && Math.abs(to.y - at.y) < layout.rowHeight;
    const held = note.beats === null ? 0 : (note.beats / barQuarters) * barWidth;
    const end = Math.min(at.x + held, sameLine ? to.x : layout.width - 2);
    if (end - at.x > 2) holds.push(`M${at.x.toFixed(1)},${at.y.toFixed(1)}H${end.toFixed(1)}`);
    if (sameLine) {
      joins.push(
        `M${Math.max(at.x, end).toFixed(1)},${at.y.toFixed(1)}L${to.x.toFixed(1)},${to.y.toFixed(1)}`,
      );
    }
  });
  return s(
    "g",
    { class: "contour" },
    s("path", { class: "join", d: joins.join("") }),
    s("path", { class: "hold", d: holds.join("") }),
  );
}

function drawUnder(notes: readonly AccountNote[], layout: ChorusLayout, chorus: number): SVGGElement {
  const group = s("g", { class: "under" });
  for (const note of notes) {
    const at = layout.point({ ...note, chorus });
    if (!at) continue;
    group.append(
      s("path", {
        class: `under-sign`,
        d: signPath(roleMark(note.role), 5.4),
        transform: `translate(${at.x.toFixed(1)},${at.y.toFixed(1)})`,
        "data-under": note.id,
      }),
    );
  }
  return group;
}

function drawSign(note: AccountNote, at: { x: number; y: number }, radius: number, sign: Sign): SVGElement {
  const shared = {
    "data-note": note.id,
    "data-pitch": note.pitch,
    "data-role": note.role ?? "",
    "data-line-role": note.lineRole ?? "",
  };
  if (sign === "role") {
    return s("path", {
      ...shared,
      class: roleClass(note.role),
      d: signPath(roleMark(note.role), radius),
      transform: `translate(${at.x.toFixed(1)},${at.y.toFixed(1)})`,
    });
  }
  const text =
    sign === "finger"
      ? note.finger === null
        ? "–"
        : String(note.finger)
      : note.lineRole
        ? LINE_ROLE_LETTERS[note.lineRole]
        : "–";
  return s(
    "text",
    {
      ...shared,
      class: `sign letter${sign === "finger" && note.fingerSource === "printed" ? " printed" : ""}`,
      x: at.x.toFixed(1),
      y: (at.y + 4).toFixed(1),
      "text-anchor": "middle",
    },
    text,
  );
}

function markCells(cells: ReadonlyMap<string, SVGRectElement>, marked: Marked): void {
  const { selection } = marked;
  for (const [key, field] of cells) {
    const [chorus, bar] = key.split(".").map(Number);
    const on =
      (selection.kind === "bar" &&
        selection.bar === bar &&
        (selection.chorus === null || selection.chorus === chorus)) ||
      (selection.kind === "chorus" && selection.chorus === chorus);
    field.classList.toggle("on", on);
  }
}

function controls(scene: Omit<Scene, "width">, state: State, redraw: () => void): Node[] {
  const { index, store } = scene;
  const signs = h(
    "select",
    {
      onChange: (event: Event) => {
        state.sign = (event.target as HTMLSelectElement).value as Sign;
        redraw();
      },
    },
    ...(["role", "line role", "finger"] as const).map((sign) =>
      h("option", { value: sign, selected: sign === state.sign }, capital(sign)),
    ),
  );
  const zoom = h(
    "select",
    {
      onChange: (event: Event) => {
        const value = (event.target as HTMLSelectElement).value;
        state.zoom = value === "" ? null : Number(value);
        if (state.zoom !== null) store.select({ kind: "bar", chorus: null, bar: state.zoom });
        redraw();
      },
    },
    h("option", { value: "" }, "All bars"),
    ...index.bars
      .filter((bar) => bar >= 1 && bar <= index.chartBars)
      .map((bar) =>
        h(
          "option",
          { value: bar, selected: bar === state.zoom },
          `Bar ${bar}: ${index
            .chords(bar)
            .map((chord) => withAccidentals(chord.symbol))
            .join(" ")}`,
        ),
      ),
  );
  const nodes: Node[] = [h("label", {}, "Signs show ", signs), h("label", {}, "Look at ", zoom)];
  if (index.choruses.length > 1) {
    const pairs = index.choruses.flatMap((a) =>
      index.choruses.filter((b) => b > a).map((b) => [b, a] as const),
    );
    const over = h(
      "select",
      {
        onChange: (event: Event) => {
          const pair = pairs[Number((event.target as HTMLSelectElement).value)];
          state.over = pair ? [pair[0], pair[1]] : null;
          redraw();
        },
      },
      h("option", { value: "" }, "Side by side"),
      ...pairs
        .slice(0, 60)
        .map(([a, b], i) =>
          h(
            "option",
            { value: i, selected: state.over?.[0] === a && state.over[1] === b },
            `${a} laid over ${b}`,
          ),
        ),
    );
    nodes.push(h("label", {}, "Choruses ", over));
  }
  return nodes;
}
