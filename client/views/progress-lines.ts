/** A player's takes over time, one small picture for each number that a teacher follows. */
import { scaleLinear, scaleTime } from "d3";
import type { Analysis } from "../../src/account.ts";
import type { TakeRow } from "../shell/api.ts";
import { s } from "../shell/dom.ts";
import { day, percent } from "../shell/words.ts";
import type { PlainPicture } from "./plain-frame.ts";

export interface DatedTake {
  readonly take: TakeRow;
  readonly analysis: Analysis;
}

interface Followed {
  readonly id: string;
  readonly name: string;
  readonly read: (analysis: Analysis) => number | null;
  readonly say: (value: number) => string;
}

const ratio = (value: number) => `${value.toFixed(2)} : 1`;

/** The numbers, each read from the account as it stands there. */
export const FOLLOWED: readonly Followed[] = [
  { id: "rests", name: "Time in which the solo rests", read: (a) => a.rhythm.rests, say: percent },
  { id: "placed", name: "Notes in a hand placement", read: (a) => a.handFit.share, say: percent },
  { id: "runs", name: "Notes in stepwise runs", read: (a) => a.rhythm.runs.share, say: percent },
  {
    id: "density",
    name: "Notes a bar",
    read: (a) => a.rhythm.density.perBar,
    say: (value) => value.toFixed(1),
  },
  {
    id: "range",
    name: "Range in semitones",
    read: (a) =>
      a.register.low === null || a.register.high === null ? null : a.register.high - a.register.low,
    say: (value) => value.toFixed(0),
  },
  {
    id: "swing",
    name: "Swing, long part over short",
    read: (a) => a.rhythm.swing?.median ?? null,
    say: ratio,
  },
  {
    id: "steady",
    name: "Unevenness of the tempo",
    read: (a) => a.rhythm.tempoStability?.variation ?? null,
    say: (value) => `${(value * 100).toFixed(1)} %`,
  },
  {
    id: "motifs",
    name: "Motifs that return",
    read: (a) => a.motifs.length,
    say: (value) => value.toFixed(0),
  },
];

export function progressLines(takes: readonly DatedTake[]): PlainPicture {
  const points = FOLLOWED.map((one) => ({
    one,
    values: takes.map(({ take, analysis }) => ({ take, value: one.read(analysis) })),
  }));
  return {
    id: "progress-lines",
    title: `${takes.length} takes, from ${day(takes[0]?.take.date ?? null)} to ${day(takes.at(-1)?.take.date ?? null)}`,
    units: "One small picture a number; across: the date of the take; each with its own scale.",
    empty: takes.length < 2 ? "Progress needs two takes with dates." : null,
    draw(width) {
      const per = Math.max(1, Math.floor(width / 260));
      const w = width / per;
      const tall = 122;
      const svg = s("svg", {
        viewBox: `0 0 ${width} ${Math.ceil(points.length / per) * tall}`,
        class: "progress",
      });
      const dates = takes.map(({ take }) => new Date(take.date ?? 0));
      points.forEach(({ one, values }, i) => {
        const left = (i % per) * w;
        const top = Math.floor(i / per) * tall;
        const known = values.flatMap(({ value }, k) => (value === null ? [] : [{ value, k }]));
        const x = scaleTime([dates[0]!, dates.at(-1)!], [left + 14, left + w - 62]);
        const low = Math.min(...known.map((p) => p.value));
        const high = Math.max(...known.map((p) => p.value));
        const y = scaleLinear(low === high ? [low - 1, high + 1] : [low, high], [top + 88, top + 36]);
        svg.append(
          s("text", { class: "label strong", x: left, y: top + 14 }, one.name),
          s("path", { class: "rule", d: `M${left},${top + 102}h${w - 18}` }),
        );
        if (known.length === 0) {
          svg.append(
            s("text", { class: "label faint", x: left, y: top + 60 }, "cannot be said of these takes"),
          );
          return;
        }
        svg.append(
          s("path", {
            class: "progress-line",
            d: known
              .map(
                ({ value, k }, j) =>
                  `${j === 0 ? "M" : "L"}${x(dates[k]!).toFixed(1)},${y(value).toFixed(1)}`,
              )
              .join(""),
          }),
        );
        for (const [j, { value, k }] of known.entries()) {
          svg.append(
            s("circle", {
              class: j === known.length - 1 ? "progress-dot last" : "progress-dot",
              cx: x(dates[k]!).toFixed(1),
              cy: y(value).toFixed(1),
              r: 4,
              "data-number": one.id,
              "data-take": takes[k]!.take.id,
              "data-value": value,
            }),
          );
        }
        const last = known.at(-1)!;
        const first = known[0]!;
        svg.append(
          s(
            "text",
            { class: "figure strong", x: x(dates[last.k]!) + 9, y: y(last.value) + 4 },
            one.say(last.value),
          ),
          s(
            "text",
            { class: "figure faint", x: x(dates[first.k]!), y: y(first.value) - 8, "text-anchor": "start" },
            one.say(first.value),
          ),
        );
      });
      return svg;
    },
    table: () => ({
      columns: ["Take", "Date", ...FOLLOWED.map((one) => one.name)],
      rows: takes.map(({ take, analysis }) => [
        take.title ?? take.id,
        day(take.date),
        ...FOLLOWED.map((one) => {
          const value = one.read(analysis);
          return value === null ? "–" : one.say(value);
        }),
      ]),
    }),
  };
}
