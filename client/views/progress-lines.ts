/** A player's takes over time, one small picture for each number that a teacher follows. */
import { scaleLinear, scaleTime } from "d3";
import type { Progress } from "../../src/compare/progress-schema.ts";
import { capital, count, followedInWords } from "../../src/words/index.ts";
import { smallMultiples } from "../draw/small-multiples.ts";
import { s } from "../shell/dom.ts";
import { day } from "../shell/words.ts";
import type { PlainPicture } from "./plain-frame.ts";

type Followed = Progress["measures"][number];

/** Pixels. */
const SIZE = { tall: 140, leastWidth: 250 };

/** A followed number with its unit, as short as a picture wants it. */
export function followedValue(value: number, unit: Followed["unit"]): string {
  return unit === "notes a bar" ? `${value.toFixed(1)} a bar` : followedInWords(value, unit);
}

export function progressLines(progress: Progress): PlainPicture {
  const { takes, measures } = progress;
  const dates = takes.map((take) => new Date(`${take.date.slice(0, 10)}T12:00:00Z`));
  return {
    id: "progress-lines",
    title:
      takes.length === 0
        ? "No take with a date yet"
        : `${capital(count(takes.length, "take"))}, from ${day(takes[0]!.date)} to ${day(takes[takes.length - 1]!.date)}`,
    units:
      "One small picture a number, each with its own scale; across: the date of the take. Below its name: how it changed from the first take to the last. Hollow and beside the line: a take on another chart, which is not compared.",
    empty: takes.length < 2 ? "Progress needs two takes with dates." : null,
    draw: (width) =>
      smallMultiples(measures, width, SIZE, "progress", (measure, left, top, w) =>
        small(measure, takes, dates, left, top, w),
      ),
    table: () => ({
      columns: ["Take", "Date", "Chart", ...measures.map((one) => one.name)],
      rows: takes.map((take, k) => [
        take.title,
        day(take.date),
        `${take.chart.name ?? "chart without a name"}${take.chart.same ? "" : ", not compared"}`,
        ...measures.map((one) => {
          const value = one.points[k]?.value ?? null;
          return value === null ? "–" : followedValue(value, one.unit);
        }),
      ]),
    }),
  };
}

function small(
  measure: Followed,
  takes: Progress["takes"],
  dates: readonly Date[],
  left: number,
  top: number,
  w: number,
): SVGElement[] {
  const known = measure.points.flatMap(({ value, take }, k) => (value === null ? [] : [{ value, take, k }]));
  const clear = measure.words.startsWith("clearly");
  const head = [
    s("text", { class: "label strong", x: left, y: top + 14 }, measure.name),
    s("text", { class: clear ? "label strong" : "label faint", x: left, y: top + 29 }, measure.words),
    s("path", { class: "rule", d: `M${left},${top + 112}h${(w - 18).toFixed(1)}` }),
  ];
  const first = known[0];
  const last = known[known.length - 1];
  if (first === undefined || last === undefined) {
    return [
      ...head,
      s("text", { class: "label faint", x: left, y: top + 70 }, "cannot be said of these takes"),
    ];
  }
  const span: [Date, Date] = [dates[0]!, dates[dates.length - 1]!];
  const x = scaleTime(span, [left + 14, left + w - 90]);
  // Takes of one day stand next to each other in their order.
  const sameDay = span[0].getTime() === span[1].getTime();
  const across = scaleLinear([0, Math.max(1, dates.length - 1)], [left + 14, left + w - 90]);
  const at = (k: number) => (sameDay ? across(k) : x(dates[k]!));
  const low = Math.min(...known.map((point) => point.value));
  const high = Math.max(...known.map((point) => point.value));
  const y = scaleLinear(low === high ? [low - 1, high + 1] : [low, high], [top + 100, top + 54]);
  const second = known.find((point) => point !== first && takes[point.k]!.chart.same);
  const rises = second !== undefined && second.value > first.value;
  return [
    ...head,
    s("path", {
      class: "progress-line",
      d: known
        .filter(({ k }) => takes[k]!.chart.same)
        .map(({ value, k }, j) => `${j === 0 ? "M" : "L"}${at(k).toFixed(1)},${y(value).toFixed(1)}`)
        .join(""),
    }),
    ...known.map((point) =>
      s("circle", {
        class: !takes[point.k]!.chart.same
          ? "progress-dot other"
          : point === last
            ? "progress-dot last"
            : "progress-dot",
        cx: at(point.k).toFixed(1),
        cy: y(point.value).toFixed(1),
        r: 4,
        "data-number": measure.id,
        "data-take": point.take,
        "data-value": point.value,
      }),
    ),
    s(
      "text",
      { class: "figure strong", x: at(last.k) + 9, y: y(last.value) + 4 },
      followedValue(last.value, measure.unit),
    ),
    s(
      "text",
      // Above its point, or below the rule where the line rises through the figure.
      { class: "figure faint", x: at(first.k) - 4, y: rises ? top + 126 : y(first.value) - 8 },
      followedValue(first.value, measure.unit),
    ),
  ];
}
