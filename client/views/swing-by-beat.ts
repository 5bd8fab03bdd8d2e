/** The swing of each beat of the bar: median and middle half. */
import { scaleLinear } from "d3";
import { s } from "../shell/dom.ts";
import type { Drawing, Scene, View } from "./view.ts";

const ROW = 26;
const MARGIN = 52;

export function swingByBeat(): View {
  return {
    id: "swing-by-beat",
    title: ({ analysis }) =>
      analysis.rhythm.swing
        ? `Swing ${analysis.rhythm.swing.median.toFixed(2)} : 1, by beat`
        : "Swing by beat",
    units: () => "A beat's first part over its second: median and middle half. n: beats measured.",
    empty: ({ analysis }) =>
      analysis.rhythm.swingByBeat.length === 0 ? "Too few beats with one off-beat note to say." : null,
    draw,
    table: ({ analysis }) => ({
      columns: ["Beat", "Swing, median", "Middle half", "Beats measured"],
      rows: analysis.rhythm.swingByBeat.map(({ beat, swing }) => [
        beat,
        `${swing.median.toFixed(2)} : 1`,
        `${swing.q1.toFixed(2)} to ${swing.q3.toFixed(2)}`,
        swing.beats,
      ]),
    }),
  };
}

function draw({ index, width }: Scene): Drawing {
  const { swingByBeat: beats } = index.analysis.rhythm;
  const height = 16 + beats.length * ROW + 24;
  const svg = s("svg", { viewBox: `0 0 ${width} ${height}`, class: "swing-by-beat" });
  const most = Math.max(2.5, ...beats.map(({ swing }) => swing.q3 * 1.08));
  const least = Math.min(0.8, ...beats.map(({ swing }) => swing.q1));
  const x = scaleLinear([least, most], [MARGIN, width - 78]);
  const narrow = width < 600;
  for (const ratio of x.ticks(narrow ? 3 : 6)) {
    svg.append(
      s("path", {
        class: ratio === 1 ? "rule strong" : "rule",
        d: `M${x(ratio).toFixed(1)},2V${height - 20}`,
      }),
      s(
        "text",
        { class: "figure faint", x: x(ratio), y: height - 6, "text-anchor": "middle" },
        ratio === 1 && !narrow ? "1 : 1, even" : `${ratio} : 1`,
      ),
    );
  }
  beats.forEach(({ beat, swing }, i) => {
    const y = 16 + i * ROW;
    svg.append(
      s("text", { class: "label", x: 0, y: y + 4 }, `Beat ${beat}`),
      s("path", { class: "middle-half", d: `M${x(swing.q1).toFixed(1)},${y}H${x(swing.q3).toFixed(1)}` }),
      s("circle", {
        class: "swing-dot",
        cx: x(swing.median).toFixed(1),
        cy: y,
        r: 5,
        "data-beat": beat,
        "data-swing": swing.median,
      }),
      s(
        "text",
        { class: "figure", x: x(swing.q3) + 10, y: y + 4 },
        `${swing.median.toFixed(2)} (n = ${swing.beats})`,
      ),
    );
  });
  return { svg, mark() {} };
}
