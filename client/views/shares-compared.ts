/** A distribution of both sides, label by label, back to back from a middle line. */
import type { DistributionComparison } from "../../src/compare/comparison-schema.ts";
import { percent } from "../../src/words/index.ts";
import { s } from "../shell/dom.ts";
import { labelShown } from "./label-shown.ts";
import type { PlainPicture } from "./plain-frame.ts";
import { shortened } from "./shortened.ts";

/** Pixels that a letter of a label takes. */
const LETTER = 6.6;

export function sharesCompared(one: DistributionComparison, names: readonly [string, string]): PlainPicture {
  const labels = Object.keys({ ...one.a, ...one.b }).sort(
    (x, y) => (one.a[y] ?? 0) + (one.b[y] ?? 0) - (one.a[x] ?? 0) - (one.b[x] ?? 0),
  );
  const shown = labels.slice(0, 16);
  return {
    id: `shares-${one.id}`,
    title: one.sentence.replace(/\.$/, ""),
    units: `Share of each label in percent; ${names[0]} to the left, ${names[1]} to the right. Apart by ${one.divergence.toFixed(2)} (0 alike, 1 nothing in common).`,
    empty: labels.length === 0 ? "Neither side has notes that could be counted." : null,
    draw(width) {
      const middle = width / 2;
      const words = shown.map((label) => labelShown(one.id, label));
      const widest = Math.max(...words.map((word) => word.length)) * LETTER;
      // Names that would leave the bars no room stand over them.
      const over = widest > width * 0.4;
      const room = over ? 4 : Math.max(40, widest / 2 + 8);
      const row = over ? 40 : 24;
      const most = Math.max(...shown.flatMap((label) => [one.a[label] ?? 0, one.b[label] ?? 0]), 0.01);
      const length = (share: number) => (share / most) * (middle - room - 44);
      const svg = s("svg", { viewBox: `0 0 ${width} ${shown.length * row + 26}`, class: "back-to-back" });
      const sideName = (name: string, x: number, anchor: string) =>
        s(
          "text",
          { class: "label strong", x, y: 14, "text-anchor": anchor },
          shortened(name, middle - room, 7.4),
        );
      svg.append(sideName(names[0], middle - room, "end"), sideName(names[1], middle + room, "start"));
      shown.forEach((label, i) => {
        const top = 24 + i * row;
        const y = over ? top + 16 : top;
        const [a, b] = [one.a[label] ?? 0, one.b[label] ?? 0];
        svg.append(
          s(
            "text",
            { class: "label", x: middle, y: top + 14, "text-anchor": "middle" },
            shortened(words[i]!, width, LETTER),
          ),
          s("rect", {
            class: "bar-a",
            x: (middle - room - length(a)).toFixed(1),
            y: y + 3,
            width: length(a).toFixed(1),
            height: 14,
            "data-label": label,
            "data-share": a,
          }),
          s("rect", {
            class: "bar-b",
            x: middle + room,
            y: y + 3,
            width: length(b).toFixed(1),
            height: 14,
            "data-label": label,
            "data-share": b,
          }),
          s(
            "text",
            { class: "figure", x: middle - room - length(a) - 5, y: y + 14, "text-anchor": "end" },
            percent(a),
          ),
          s("text", { class: "figure", x: middle + room + length(b) + 5, y: y + 14 }, percent(b)),
        );
      });
      return svg;
    },
    table: () => ({
      columns: ["Label", names[0], names[1]],
      rows: labels.map((label) => [
        labelShown(one.id, label),
        percent(one.a[label] ?? 0),
        percent(one.b[label] ?? 0),
      ]),
    }),
  };
}
