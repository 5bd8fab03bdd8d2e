/** Which takes of a corpus stand apart, and in which measure. */
import { scaleLinear } from "d3";
import type { MeasureSpreads } from "../../server/contract/corpus-results.ts";
import { capital, count } from "../../src/words/index.ts";
import { s } from "../shell/dom.ts";
import { CORPUS_MEASURES, scoreText } from "./corpus-measures.ts";
import type { PlainPicture } from "./plain-frame.ts";
import { shortened } from "./shortened.ts";

const SHOWN = 30;
/** A dot further out than this stands at the edge, with an arrow. */
const REACH = 8;
const ROW = 30;

export function corpusOutliers(spreads: MeasureSpreads): PlainPicture {
  const measures = CORPUS_MEASURES.filter((one) =>
    spreads.measures.some((other) => other.measure === one.id && other.median !== null),
  );
  const apart = spreads.rows.filter((row) => row.furthest > spreads.limit);
  const rows = apart.slice(0, SHOWN);
  return {
    id: "corpus-outliers",
    title:
      spreads.apart === 0
        ? "No take stands apart"
        : `${capital(count(spreads.apart, "take stands", "takes stand"))} apart from the others`,
    units: `Across in each column: how far a take lies from the median, in robust deviations (0.6745 × distance ÷ median absolute deviation). The band reaches to ${spreads.limit} on either side; a filled dot beyond it stands apart.`,
    empty:
      measures.length === 0
        ? "Five takes with a measure are needed before one can stand apart in it."
        : rows.length === 0
          ? `In every measure every take lies within ${spreads.limit} robust deviations of the median.`
          : null,
    draw(width) {
      const narrow = width < 620;
      const left = narrow ? 0 : Math.min(210, width * 0.22);
      const row = narrow ? ROW + 18 : ROW;
      const head = 34;
      const w = (width - left) / measures.length;
      const height = head + rows.length * row + 4;
      const svg = s("svg", { viewBox: `0 0 ${width} ${height}`, class: "corpus-outliers" });
      measures.forEach((one, i) => {
        const middle = left + i * w + w / 2;
        const word = narrow ? shortened(one.short, w - 4, 6.4) : one.short;
        svg.append(...columnMarks(word, middle, column(left + i * w, w), spreads.limit, height));
      });
      rows.forEach((take, j) => {
        const top = head + j * row;
        const y = top + (narrow ? 34 : 15);
        const group = s("g", { class: "take-row", "data-take": take.take });
        const name = take.player ? `${take.title}, ${take.player}` : take.title;
        group.append(
          s("rect", { class: "row-field", x: 0, y: top, width, height: row }),
          s("path", { class: "rule", d: `M0,${top + row - 0.5}H${width}` }),
          s(
            "text",
            { class: "label", x: 2, y: narrow ? top + 15 : y + 4 },
            shortened(name, narrow ? width : left - 8),
          ),
        );
        measures.forEach((one, i) => {
          const score = take.scores[one.id];
          if (score === null || score === undefined) return;
          group.append(...scoreMarks(one.id, score, column(left + i * w, w), y, spreads.limit, narrow));
        });
        svg.append(group);
      });
      return svg;
    },
    table: () => ({
      columns: ["Take", "Player", ...measures.map((one) => `${one.name}: value (score)`)],
      rows: apart.map((take) => [
        take.title,
        take.player ?? "",
        ...measures.map((one) => {
          const [value, score] = [take.values[one.id], take.scores[one.id]];
          return value === null || value === undefined || score === null || score === undefined
            ? "–"
            : `${one.say(value)} (${scoreText(score)}${Math.abs(score) > spreads.limit ? ", apart" : ""})`;
        }),
      ]),
    }),
  };
}

const column = (left: number, width: number) =>
  scaleLinear([-REACH, REACH], [left + Math.min(10, width * 0.1), left + width - Math.min(10, width * 0.1)]);

/** The head of a column, the band within which no take stands apart, and its middle. */
function columnMarks(
  word: string,
  middle: number,
  x: (score: number) => number,
  limit: number,
  height: number,
): SVGElement[] {
  return [
    s("text", { class: "label", x: middle.toFixed(1), y: 13, "text-anchor": "middle" }, word),
    s("rect", {
      class: "reach",
      x: x(-limit).toFixed(1),
      y: 20,
      width: (x(limit) - x(-limit)).toFixed(1),
      height: height - 24,
    }),
    s("path", { class: "rule strong", d: `M${x(0).toFixed(1)},20V${height - 4}` }),
  ];
}

/** The dot of one score; beyond the limit it is filled, and has its number where there is room. */
function scoreMarks(
  measure: string,
  score: number,
  x: (score: number) => number,
  y: number,
  limit: number,
  narrow: boolean,
): SVGElement[] {
  const far = Math.abs(score) > limit;
  const at = x(Math.max(-REACH, Math.min(REACH, score)));
  const dot = s("circle", {
    class: far ? "score-dot far" : "score-dot",
    cx: at.toFixed(1),
    cy: y,
    r: far ? 5 : 3,
    "data-measure": measure,
    "data-score": score,
  });
  if (!far || narrow) return [dot];
  const place = { x: (at + (score > 0 ? -9 : 9)).toFixed(1), y: y + 4 };
  const anchor = { "text-anchor": score > 0 ? "end" : "start" };
  return [dot, s("text", { class: "figure strong", ...place, ...anchor }, scoreText(score))];
}
