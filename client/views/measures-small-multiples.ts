/** Three sides and more: one small picture a measure, a point for each side with its interval, the trend in words. */
import { scaleLinear } from "d3";
import type { ManyCompared } from "../../src/compare/comparison-schema.ts";
import { capital, count } from "../../src/words/index.ts";
import { smallMultiples } from "../draw/small-multiples.ts";
import { s } from "../shell/dom.ts";
import { value } from "./measures-compared.ts";
import type { PlainPicture } from "./plain-frame.ts";

/** Pixels: three to a row on paper, so that those of all measures stand on one page of letter. */
const SIZE = { tall: 136, leastWidth: 225 };

type Row = ManyCompared["measures"][number];

export function measuresSmallMultiples(many: ManyCompared): PlainPicture {
  const names = many.sides.map((side) => side.name);
  const rows = many.measures.filter((row) => row.values.filter((one) => one !== null).length >= 2);
  return {
    id: "measures-many",
    title: `${capital(count(many.sides.length, "side"))} in their order, measure by measure`,
    units:
      "One small picture a measure, each with its own scale. Across: the sides in the order in which they were chosen. The thin line at each point: 95 % interval over its phrases.",
    empty: rows.length === 0 ? "No side has enough phrases to measure." : null,
    draw: (width) => smallMultiples(rows, width, SIZE, "small-multiples", small),
    table: () => ({
      columns: ["Measure", ...names, "First to last"],
      rows: many.measures.map((row) => [
        row.name,
        ...row.values.map((one, i) => {
          const interval = row.intervals[i];
          return interval
            ? `${value(one, row.unit)} (${value(interval[0], row.unit)} to ${value(interval[1], row.unit)})`
            : value(one, row.unit);
        }),
        row.words,
      ]),
    }),
  };
}

/** A value without a unit that its measure's name has said. */
const figure = (n: number, unit: Row["unit"]): string => {
  const text = value(n, unit);
  return text.endsWith(` ${unit}`) && unit !== "ms" ? text.slice(0, -unit.length - 1) : text;
};

function small(row: Row, left: number, top: number, w: number): SVGElement[] {
  const known = row.values.flatMap((one, k) => (one === null ? [] : [{ value: one, k }]));
  const reach = [
    ...known.map((one) => one.value),
    ...row.intervals.flatMap((interval) => (interval === null ? [] : [...interval])),
  ];
  const low = Math.min(...reach);
  const high = Math.max(...reach);
  const x = scaleLinear([0, Math.max(1, row.values.length - 1)], [left + 16, left + w - 74]);
  const y = scaleLinear(low === high ? [low - 1, high + 1] : [low, high], [top + 102, top + 54]);
  const first = known[0]!;
  const last = known[known.length - 1]!;
  const firstBound = row.intervals[first.k]?.[1] ?? first.value;
  const clear = row.words.startsWith("clearly");
  return [
    s(
      "text",
      { class: "label strong", x: left, y: top + 14 },
      row.unit === "semitones" ? `${row.name}, semitones` : row.name,
    ),
    s("text", { class: clear ? "label strong" : "label faint", x: left, y: top + 30 }, row.words),
    s("path", { class: "rule", d: `M${left},${top + 113}h${(w - 18).toFixed(1)}` }),
    ...row.intervals.flatMap((interval, k) =>
      interval === null || row.values[k] === null
        ? []
        : [
            s("path", {
              class: "interval",
              d: `M${x(k).toFixed(1)},${y(interval[0]).toFixed(1)}V${y(interval[1]).toFixed(1)}`,
            }),
          ],
    ),
    s("path", {
      class: "progress-line",
      d: known
        .map((one, j) => `${j === 0 ? "M" : "L"}${x(one.k).toFixed(1)},${y(one.value).toFixed(1)}`)
        .join(""),
    }),
    ...known.map((one) =>
      s("circle", {
        class: one === last ? "progress-dot last" : "progress-dot",
        cx: x(one.k).toFixed(1),
        cy: y(one.value).toFixed(1),
        r: 4,
        "data-measure": row.id,
        "data-side": one.k,
        "data-value": one.value,
      }),
    ),
    ...known.map((one) =>
      s(
        "text",
        { class: "figure faint", x: x(one.k).toFixed(1), y: top + 126, "text-anchor": "middle" },
        one.k + 1,
      ),
    ),
    s(
      "text",
      { class: "figure strong", x: x(last.k) + 9, y: y(last.value) + 4 },
      figure(last.value, row.unit),
    ),
    s(
      "text",
      { class: "figure faint", x: x(first.k) - 4, y: y(Math.max(first.value, firstBound)) - 8 },
      figure(first.value, row.unit),
    ),
  ];
}
