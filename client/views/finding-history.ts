/** What was said of which take: a row a finding, a column a take, so that one sees what has come, stayed and gone. */

import type { Progress } from "../../src/compare/progress-schema.ts";
import { printedText } from "../findings/finding-words.ts";
import { s } from "../shell/dom.ts";
import { day } from "../shell/words.ts";
import type { PlainPicture } from "./plain-frame.ts";

type Line = Progress["findings"][number];

const ROW = 24;
const HEAD = 26;
const KINDS = { works: "works", practise: "to practise", notice: "to notice" } as const;

/** What was said last, to the end of its first sentence. */
const saidOf = ({ text }: Line): string => printedText(text.split(/(?<=[.?!]) /)[0] ?? text);

export function findingHistory(progress: Progress): PlainPicture {
  const lines = [...progress.findings].sort((a, b) => order(a) - order(b) || a.takes.length - b.takes.length);
  return {
    id: "finding-history",
    title: "What was said of each take",
    units:
      "One row a finding, one column a take in order of time. Filled: it works; hollow: to practise; a stroke: to notice. At the right whether it is new in the last take, has lasted, or is gone.",
    empty: lines.length === 0 ? "Nothing has been said yet." : null,
    draw(width) {
      const names = Math.min(560, width * 0.58);
      const states = width < 480 ? 0 : 84;
      const column = (width - names - states) / Math.max(1, progress.takes.length);
      const svg = s("svg", {
        viewBox: `0 0 ${width} ${HEAD + lines.length * ROW + 4}`,
        class: "finding-history",
      });
      progress.takes.forEach((take, k) => {
        svg.append(
          s(
            "text",
            { class: "figure faint", x: names + (k + 0.5) * column, y: 14, "text-anchor": "middle" },
            column > 84 ? day(take.date).replace(/ \d{4}$/, "") : k + 1,
          ),
        );
      });
      for (const [i, line] of lines.entries()) {
        const top = HEAD + i * ROW;
        svg.append(
          s("path", { class: "rule", d: `M0,${top + ROW - 0.5}H${width}` }),
          s("text", { class: "label", x: 0, y: top + 16 }, fitting(saidOf(line), names)),
        );
        if (states > 0) {
          svg.append(s("text", { class: "label faint", x: width - states + 10, y: top + 16 }, line.state));
        }
        progress.takes.forEach((take, k) => {
          if (!line.takes.includes(take.id)) return;
          svg.append(sign(line.kind, names + (k + 0.5) * column, top + ROW / 2, line.id, take.id));
        });
      }
      return svg;
    },
    table: () => ({
      columns: ["Finding", "Heading", "Kind", ...progress.takes.map((take) => take.title), "State"],
      rows: lines.map((line) => [
        printedText(line.text),
        line.heading,
        KINDS[line.kind],
        ...progress.takes.map((take) => (line.takes.includes(take.id) ? "yes" : "")),
        line.state,
      ]),
    }),
  };
}

function sign(kind: Line["kind"], x: number, y: number, finding: string, take: string): SVGElement {
  const marks = { "data-finding": finding, "data-take": take };
  switch (kind) {
    case "works":
      return s("circle", { class: "said said-works", cx: x, cy: y, r: 5.5, ...marks });
    case "practise":
      return s("circle", { class: "said said-practise", cx: x, cy: y, r: 5, ...marks });
    case "notice":
      return s("path", { class: "said said-notice", d: `M${x - 6},${y}h12`, ...marks });
  }
}

const order = (line: Line) =>
  ({ new: 0, lasting: 1, gone: 2 })[line.state] * 3 + { works: 0, practise: 1, notice: 2 }[line.kind];

/** A letter takes about 6.6 pixels. */
function fitting(text: string, room: number): string {
  const letters = Math.floor(room / 6.6);
  return text.length > letters ? `${text.slice(0, letters - 1)}…` : text;
}
