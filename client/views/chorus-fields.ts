/** The ground of the chorus page: chord names, a field for each bar of each chorus, the names of rows and octaves. */
import { sureOfBar } from "../../src/account/asked-place.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { s } from "../shell/dom.ts";
import { type Cell, type ChorusLayout, HEAD } from "./chorus-layout.ts";
import type { Paper, Reading } from "./readings/reading.ts";
import type { Marked } from "./view.ts";

/** Bars whose place is less sure than this are hatched. */
export const UNSURE = 0.75;

/** The chord names over the bars of one line. */
export function drawHeads(paper: Paper, line: ChorusLayout["lines"][number], y: number): SVGGElement {
  const { layout } = paper;
  const group = s("g", { class: "heads" });
  for (const bar of line.bars) {
    const first = layout.cell(line.rows[0] ?? 1, bar);
    if (first) group.append(headOf(paper, bar, { ...first, y }));
  }
  return group;
}

/**
 * The ground of one chorus in one line: a field for each bar, its name at the left.
 *
 * @param fields is given each field by "chorus.bar"
 */
export function drawRow(
  paper: Paper,
  line: ChorusLayout["lines"][number],
  chorus: number,
  fields: Map<string, SVGRectElement>,
  name: string,
  axis: Reading["axis"],
): SVGGElement {
  const { layout } = paper;
  const group = s("g", { class: "row" });
  for (const bar of line.bars) {
    const cell = layout.cell(chorus, bar);
    if (cell) group.append(drawField(paper, chorus, bar, cell, fields));
  }
  const cell = layout.cell(chorus, line.bars.find((bar) => bar >= 1) ?? line.bars[0]!);
  if (cell) {
    const wide = layout.margin > 40;
    group.append(
      s("text", { class: "row-name", x: 0, y: cell.y + 12, "data-row": chorus }, name),
      ...(wide ? (axis?.(paper, cell.y) ?? pitchNames(layout, cell.y)) : []),
    );
  }
  return group;
}

/** Shows which fields are selected. */
export function markFields(fields: ReadonlyMap<string, SVGRectElement>, marked: Marked): void {
  const { selection } = marked;
  for (const [key, field] of fields) {
    const [chorus, bar] = key.split(".").map(Number);
    const on =
      (selection.kind === "bar" &&
        selection.bar === bar &&
        (selection.chorus === null || selection.chorus === chorus)) ||
      (selection.kind === "chorus" && selection.chorus === chorus);
    field.classList.toggle("on", on);
  }
}

function headOf({ index }: Paper, bar: number, { x, y, width: w }: Cell): SVGGElement {
  const head = s("g", { class: "head", "data-bar": bar });
  head.append(
    s("rect", { class: "head-field", x: x, y: y, width: w, height: HEAD - 2 }),
    s("text", { class: "bar-number", x: x + 5, y: y + 11 }, bar < 1 ? "pickup" : String(bar)),
  );
  const key = index.newKey(bar);
  if (key !== null) {
    head.append(s("text", { class: "new-key", x: x + 22, y: y + 11 }, `in ${withAccidentals(key)}`));
  }
  const chords = index.chords(bar);
  const beats = index.analysis.chart.meter.beats;
  const at = (beat: number) => x + 5 + ((beat - 1) / beats) * (w - 5);
  chords.forEach((chord, i) => {
    const next = chords[i + 1];
    const name = withAccidentals(chord.symbol);
    const text = s("text", { class: "chord", x: at(chord.beat), y: y + 29 }, name);
    // By the style itself: the sheet's own size goes before an attribute.
    const room = (next ? at(next.beat) : x + w) - at(chord.beat);
    const size = chordSize(name, room);
    text.style.fontSize = `${size}px`;
    // As small as it can be read, and still too wide: its letters stand closer.
    if (next && size * CHORD_LETTER * name.length > room)
      for (const [attribute, value] of [
        ["textLength", room - CHORD_GAP / 2],
        ["lengthAdjust", "spacingAndGlyphs"],
      ] as const)
        text.setAttribute(attribute, String(value));
    head.append(text);
  });
  return head;
}

/** Pixels: as chord names are set, and as small as they can be read. */
const CHORD = { size: 15, least: 9 };
/** Width of a letter of a chord name as a share of its size, and pixels that part two names. */
const CHORD_LETTER = 0.66;
const CHORD_GAP = 5;

/** The size in which a chord name does not run into the next one. */
const chordSize = (name: string, room: number): number =>
  Math.max(CHORD.least, Math.min(CHORD.size, Math.floor((room - CHORD_GAP) / (CHORD_LETTER * name.length))));

function drawField(
  { index, layout }: Paper,
  chorus: number,
  bar: number,
  at: Cell,
  fields: Map<string, SVGRectElement>,
): SVGGElement {
  const [w, height] = [at.width, layout.rowHeight];
  const sure = sureOfBar(index.analysis, chorus, bar);
  const unsure = sure !== null && sure < UNSURE;
  const field = s("rect", {
    class: `field${unsure ? " unsure" : ""}`,
    x: at.x,
    y: at.y,
    width: w,
    height,
    "data-bar": bar,
    "data-chorus": chorus,
    "data-notes": index.inBar(chorus, bar).length,
    "data-confidence": sure,
  });
  fields.set(`${chorus}.${bar}`, field);
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
