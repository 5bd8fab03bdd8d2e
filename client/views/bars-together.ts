/** The same bar of several sides laid on top of one another, bar after bar. */
import type { BarTogether } from "../../src/compare/comparison-schema.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { sideClass, sidePath } from "../draw/side-marks.ts";
import { s } from "../shell/dom.ts";
import type { PlainPicture } from "./plain-frame.ts";

const FIELD = 92;
const HEAD = 38;
const CHORDS = 30;
/** Signs of three sides in one field can still be told apart; of more they lie on top of each other. [practice] */
const MOST_IN_ONE = 3;
/** A row a side: two octaves in it stand apart by more than two pixels a half step. */
const ROW = 54;

interface Plan {
  readonly width: number;
  /** Bars in a line, and how wide each is. */
  readonly per: number;
  readonly w: number;
  /** Where the first line begins, and how high its fields are. */
  readonly top: number;
  readonly field: number;
  /** Rows in a field: one for all sides, or one for each. */
  readonly rows: number;
  readonly low: number;
  readonly high: number;
}

export function barsTogetherPicture(bars: readonly BarTogether[], names: readonly string[]): PlainPicture {
  const all = bars.flatMap((bar) => bar.layers.flatMap((layer) => layer.notes));
  const apart = names.length > MOST_IN_ONE;
  return {
    id: "bars-together",
    title: apart
      ? "The same bar of each, one below the other"
      : "The same bar of each, laid on top of each other",
    units: `In each field time runs right and pitch up; a rule at every C.${apart ? " A row a side, in their order." : ""}`,
    empty:
      all.length === 0
        ? "The charts have different lengths, so their bars cannot be laid over each other."
        : null,
    draw(width) {
      const per = [12, 8, 6, 4, 2].find((n) => width / n >= 84 && bars.length % n === 0) ?? 4;
      const legend = legendRows(names, width);
      const rows = apart ? names.length : 1;
      const plan: Plan = {
        ...{ width, per, w: width / per, top: legend.length * 20 + 8, rows },
        field: apart ? rows * ROW : FIELD,
        low: Math.min(...all.map((note) => note.pitch)) - 3,
        high: Math.max(...all.map((note) => note.pitch)) + 3,
      };
      const svg = s("svg", {
        viewBox: `0 0 ${width} ${plan.top + Math.ceil(bars.length / per) * (plan.field + HEAD)}`,
        class: "bars-together",
      });
      svg.append(...legend.flatMap((entries, row) => entries.flatMap((one) => legendEntry(one, row, names))));
      bars.forEach((bar, i) => {
        svg.append(...barDrawn(bar, i, plan));
      });
      return svg;
    },
    table: () => ({
      columns: ["Bar", "Chords", ...names.map((name) => `Notes of ${name}`)],
      rows: bars.map((bar) => [
        bar.bar,
        bar.chords.map(withAccidentals).join(" "),
        ...names.map((_, side) =>
          bar.layers.filter((layer) => layer.side === side).reduce((n, layer) => n + layer.notes.length, 0),
        ),
      ]),
    }),
  };
}

const legendEntry = (
  { side, x }: { side: number; x: number },
  row: number,
  names: readonly string[],
): SVGElement[] => [
  s("path", {
    class: sideClass(side),
    d: sidePath(side),
    transform: `translate(${x + 7},${row * 20 + 10})`,
  }),
  s("text", { class: "label", x: x + 18, y: row * 20 + 14 }, shortName(names[side]!)),
];

/** One bar with its number and chords over its rows, and the signs of the sides in them. */
function barDrawn(bar: BarTogether, i: number, plan: Plan): SVGElement[] {
  const { per, w, top, field, rows, low, high } = plan;
  const x = (i % per) * w;
  const y = top + Math.floor(i / per) * (field + HEAD);
  const each = field / rows;
  const depth = (pitch: number, row: number) =>
    y + CHORDS + (row + 1) * each - ((pitch - low) / (high - low)) * each;
  const octaves = Array.from(
    { length: Math.ceil((high - low) / 12) },
    (_, k) => Math.ceil(low / 12 + k) * 12,
  );
  return [
    s("rect", { class: "field still", x, y: y + CHORDS, width: w, height: field }),
    s("text", { class: "bar-number", x: x + 4, y: y + 10 }, bar.bar),
    s("text", { class: "chord small", x: x + 4, y: y + 24 }, bar.chords.map(withAccidentals).join(" ")),
    s("path", { class: "bar-line", d: `M${x},${y + CHORDS}v${field}` }),
    ...Array.from({ length: rows }, (_, row) => [
      ...octaves
        .filter((pitch) => pitch <= high)
        .map((pitch) => s("path", { class: "rule", d: `M${x},${depth(pitch, row).toFixed(1)}h${w}` })),
      ...(row > 0 ? [s("path", { class: "rule strong", d: `M${x},${y + CHORDS + row * each}h${w}` })] : []),
    ]).flat(),
    ...bar.layers.flatMap(({ side, notes }) =>
      notes.map((note) =>
        s("path", {
          class: sideClass(side),
          d: sidePath(side),
          transform: `translate(${(x + 6 + note.start * (w - 8)).toFixed(1)},${depth(note.pitch, rows > 1 ? side : 0).toFixed(1)})`,
          "data-note": note.id,
          "data-side": side,
        }),
      ),
    ),
  ];
}

const LONGEST = 30;

const shortName = (name: string) => (name.length > LONGEST ? `${name.slice(0, LONGEST - 1)}…` : name);

/** Names in rows that fit the width; a letter takes about 6.6 pixels. */
function legendRows(names: readonly string[], width: number): { side: number; x: number }[][] {
  const rows: { side: number; x: number }[][] = [[]];
  let x = 0;
  names.forEach((name, side) => {
    const room = 34 + 6.6 * shortName(name).length;
    if (x > 0 && x + room > width) {
      rows.push([]);
      x = 0;
    }
    rows[rows.length - 1]!.push({ side, x });
    x += room;
  });
  return rows;
}
