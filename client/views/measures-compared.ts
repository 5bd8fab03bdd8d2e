/** Two sides, measure by measure: both values, the difference with its interval, and what may be said of it. */
import { scaleLinear } from "d3";
import type { Comparison, MeasureComparison } from "../../src/compare/comparison-schema.ts";
import { keyboardName } from "../../src/pitch/index.ts";
import { percent, withAccidentals } from "../../src/words/index.ts";
import { s } from "../shell/dom.ts";
import type { PlainPicture } from "./plain-frame.ts";

/** Room for the longest pair of values behind the dots, "6.8 / 3.3 notes a second", in pixels. */
const PAIR = 140;

export function measuresCompared(comparison: Comparison): PlainPicture {
  const [a, b] = comparison.sides;
  const rows = comparison.measures.filter((measure) => measure.a !== null && measure.b !== null);
  return {
    id: "measures-compared",
    title: `${a.name} beside ${b.name}, measure by measure`,
    units:
      "One row a measure, each on its own scale from 0 to the greater value. Filled: the first; hollow: the second. The line between is the difference; it is heavy where the difference is clear. At the right: first less second, with the bounds between which it lies in 95 of 100 cases.",
    empty: rows.length === 0 ? "Neither side has enough phrases to measure." : null,
    draw: (width) => draw(width, rows),
    table: () => ({
      columns: ["Measure", a.name, b.name, "Difference", "Bounds of 95 in 100", "In words"],
      rows: comparison.measures.map((m) => [
        m.name,
        value(m.a, m.unit),
        value(m.b, m.unit),
        m.difference === null ? "" : difference(m.difference, m.unit),
        m.interval === null
          ? ""
          : `${difference(m.interval[0], m.unit)} to ${difference(m.interval[1], m.unit)}`,
        m.verdict,
      ]),
    }),
  };
}

/** A measured value with its unit; a pitch by its name. */
export function value(n: number | null, unit: MeasureComparison["unit"]): string {
  if (n === null) return "–";
  switch (unit) {
    case "share":
      return n < 0 ? `−${percent(-n)}` : percent(n);
    case "ratio":
      return minus(`${n.toFixed(2)} : 1`);
    case "ms":
      return minus(`${n.toFixed(0)} ms`);
    case "MIDI number":
      return withAccidentals(keyboardName(Math.round(n), "flats"));
    default:
      return minus(`${n.toFixed(1)} ${unit}`);
  }
}

/** The sign of print, and none before a nought. */
const minus = (text: string): string => text.replace(/^-(?=0(\.0+)?(?![\d.]))/, "").replace(/^-/, "−");

/** A difference of two such values with its unit: of two pitches, in semitones. */
function difference(n: number, unit: MeasureComparison["unit"]): string {
  return unit === "MIDI number" ? minus(`${n.toFixed(1)} semitones`) : value(n, unit);
}

/** The unit once for both: "6.8 / 3.3 notes a bar". */
function pair(a: number | null, b: number | null, unit: MeasureComparison["unit"]): string {
  const [first, second] = [value(a, unit), value(b, unit)];
  const tail = ` ${unit}`;
  return `${first.endsWith(tail) ? first.slice(0, -tail.length) : first} / ${second}`;
}

/** A value without its unit. */
const bare = (text: string): string => /^[+−-]?[\d.]+/.exec(text)?.[0] ?? text;

function draw(width: number, rows: readonly MeasureComparison[]): SVGSVGElement {
  const narrow = width < 620;
  const row = narrow ? 70 : 42;
  const left = narrow ? 8 : 200;
  const right = narrow ? 8 : 250;
  const svg = s("svg", { viewBox: `0 0 ${width} ${rows.length * row + 6}`, class: "compared" });
  rows.forEach((m, i) => {
    const top = i * row;
    const y = top + (narrow ? 36 : 20);
    const low = Math.min(0, m.a!, m.b!);
    const high = Math.max(m.a!, m.b!, 0.0001);
    const x = scaleLinear([low, high], [left, width - right - PAIR]);
    const clear = m.verdict.startsWith("clearly");
    svg.append(
      s("path", { class: "rule", d: `M0,${top + row - 0.5}H${width}` }),
      s("text", { class: "label", x: narrow ? 8 : 0, y: narrow ? top + 16 : y + 4 }, m.name),
      s("path", { class: "rule strong", d: `M${x(0).toFixed(1)},${y - 8}v16` }),
      s("path", {
        class: clear ? "gap clear" : "gap",
        d: `M${x(m.a!).toFixed(1)},${y}H${x(m.b!).toFixed(1)}`,
      }),
      s("circle", {
        class: "side-b",
        cx: x(m.b!).toFixed(1),
        cy: y,
        r: 5.5,
        "data-measure": m.id,
        "data-b": m.b,
      }),
      s("circle", {
        class: "side-a",
        cx: x(m.a!).toFixed(1),
        cy: y,
        r: 4.5,
        "data-measure": m.id,
        "data-a": m.a,
      }),
      s("text", { class: "figure", x: Math.max(x(m.a!), x(m.b!)) + 10, y: y + 4 }, pair(m.a, m.b, m.unit)),
      s(
        "text",
        {
          class: clear ? "label strong" : "label faint",
          x: width - 4,
          y: narrow ? top + 16 : top + 17,
          "text-anchor": "end",
        },
        m.verdict,
      ),
      s(
        "text",
        { class: "figure faint", x: width - 4, y: narrow ? top + 60 : top + 33, "text-anchor": "end" },
        doubt(m),
      ),
    );
  });
  return svg;
}

/** "+1.2 notes (0.4 to 2.0)": as much of it as is known, with its unit once. */
function doubt(m: MeasureComparison): string {
  if (m.difference === null) return "";
  const sign = m.difference > 0 ? "+" : "";
  const interval =
    m.interval === null
      ? ""
      : ` (${m.interval.map((bound) => bare(difference(bound, m.unit))).join(" to ")})`;
  return `${sign}${difference(m.difference, m.unit)}${interval}`;
}
