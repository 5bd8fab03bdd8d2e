/** How the takes of a corpus are spread: one histogram a measure, a tick under it for each take. */
import { max, scaleLinear } from "d3";
import type { CorpusSummary, MeasureSpreads, Spread } from "../../server/contract/corpus-results.ts";
import { count } from "../../src/words/index.ts";
import { s } from "../shell/dom.ts";
import { CORPUS_MEASURES, type CorpusMeasure } from "./corpus-measures.ts";
import type { PlainPicture } from "./plain-frame.ts";

const TALL = 180;
const BARS = 86;
const TOP = 38;

export function corpusSpreads(summary: CorpusSummary, spreads: MeasureSpreads): PlainPicture {
  const known = CORPUS_MEASURES.flatMap((one) => {
    const measure = spreads.measures.find((other) => other.measure === one.id);
    const spread = summary.measures[one.id];
    return measure && measure.takes > 0 && spread ? [{ one, measure, spread }] : [];
  });
  return {
    id: "corpus-spreads",
    title: `How ${count(spreads.takes, "take")} are spread in ${count(known.length, "measure")}`,
    units:
      "Height of a bar: number of takes whose value lies in that step. Red rule: the median; thick line: the middle half; a tick for each take.",
    empty: known.length === 0 ? "No take has been analysed yet, so there is nothing to spread." : null,
    draw(width) {
      const per = Math.max(1, Math.min(3, Math.floor(width / 250)));
      const w = width / per;
      const svg = s("svg", {
        viewBox: `0 0 ${width} ${Math.ceil(known.length / per) * TALL}`,
        class: "corpus-spreads",
      });
      known.forEach(({ one, measure, spread }, i) => {
        svg.append(panel(one, measure, spread, spreads, (i % per) * w, Math.floor(i / per) * TALL, w - 22));
      });
      return svg;
    },
    table: () => ({
      columns: ["Measure", "Takes", "Least", "First quarter", "Median", "Third quarter", "Most", "Steps"],
      rows: known.map(({ one, measure, spread }) => [
        one.name,
        measure.takes,
        one.say(measure.bins[0]!.from),
        one.say(spread.q1),
        one.say(spread.median),
        one.say(spread.q3),
        one.say(measure.bins.at(-1)!.to),
        measure.bins.map((bin) => `${one.say(bin.from)} to ${one.say(bin.to)}: ${bin.takes}`).join("; "),
      ]),
    }),
  };
}

type Bin = MeasureSpreads["measures"][number]["bins"][number];

function panel(
  one: CorpusMeasure,
  { bins }: MeasureSpreads["measures"][number],
  spread: NonNullable<Spread>,
  spreads: MeasureSpreads,
  left: number,
  top: number,
  width: number,
): SVGGElement {
  const low = bins[0]!.from;
  const high = bins.at(-1)!.to;
  const x = scaleLinear(low === high ? [low - 1, high + 1] : [low, high], [left + 2, left + width - 2]);
  const most = max(bins, (bin) => bin.takes) ?? 1;
  const y = scaleLinear([0, most], [top + TOP + BARS, top + TOP + 14]);
  const base = top + TOP + BARS;
  const group = s("g", { "data-measure": one.id });
  group.append(
    s("text", { class: "label strong", x: left, y: top + 16 }, one.name),
    s(
      "text",
      { class: "figure faint", x: left, y: top + 31 },
      `median ${one.say(spread.median)}, of ${count(spread.takes, "take")}`,
    ),
  );
  group.append(...bins.flatMap((bin) => binMarks(bin, bins.length === 1, x, y, base)));
  group.append(
    s("path", { class: "rule strong", d: `M${left},${base + 0.5}h${width}` }),
    s("path", {
      class: "middle-half",
      d: `M${x(spread.q1).toFixed(1)},${base + 4}H${x(spread.q3).toFixed(1)}`,
      "data-q1": spread.q1,
      "data-q3": spread.q3,
    }),
    s("path", {
      class: "median",
      d: `M${x(spread.median).toFixed(1)},${base - 6}v14`,
      "data-median": spread.median,
    }),
  );
  for (const row of spreads.rows) {
    const value = row.values[one.id];
    if (value === null || value === undefined) continue;
    group.append(
      s("path", {
        class: "take-tick",
        d: `M${x(value).toFixed(1)},${base + 9}v9`,
        "data-take": row.take,
        "data-value": value,
      }),
    );
  }
  group.append(
    s("text", { class: "figure faint", x: left, y: base + 31 }, one.say(low)),
    s(
      "text",
      { class: "figure faint", x: left + width, y: base + 31, "text-anchor": "end" },
      low === high ? "" : one.say(high),
    ),
  );
  return group;
}

/** The bar of a bin, with its number where there is room; a lone bin stands around its value. */
function binMarks(
  bin: Bin,
  alone: boolean,
  x: (value: number) => number,
  y: (takes: number) => number,
  base: number,
): SVGElement[] {
  const x1 = alone ? x(bin.from) - 12 : x(bin.from) + 0.75;
  const x2 = alone ? x(bin.from) + 12 : x(bin.to) - 0.75;
  const bar = s("rect", {
    class: "bin",
    x: x1.toFixed(1),
    y: y(bin.takes).toFixed(1),
    width: Math.max(0.5, x2 - x1).toFixed(1),
    height: (base - y(bin.takes)).toFixed(1),
    "data-from": bin.from,
    "data-takes": bin.takes,
  });
  if (bin.takes === 0 || x2 - x1 <= 13) return [bar];
  const place = { x: ((x1 + x2) / 2).toFixed(1), y: (y(bin.takes) - 4).toFixed(1) };
  return [bar, s("text", { class: "figure faint", ...place, "text-anchor": "middle" }, bin.takes)];
}
