/** One distribution of three sides and more: a row a label, a bar for each side, so that a row is read across. */
import type { ManyCompared } from "../../src/compare/comparison-schema.ts";
import { percent } from "../../src/words/index.ts";
import { s } from "../shell/dom.ts";
import { labelShown } from "./label-shown.ts";
import type { PlainPicture } from "./plain-frame.ts";
import { shortened } from "./shortened.ts";

const MOST_LABELS = 14;
/** Pixels that a letter of a label takes. */
const LETTER = 6.6;

export function sharesSmallMultiples(
  one: ManyCompared["distributions"][number],
  names: readonly string[],
): PlainPicture {
  const total = (label: string) => one.shares.reduce((sum, shares) => sum + (shares[label] ?? 0), 0);
  const labels = [...new Set(one.shares.flatMap((shares) => Object.keys(shares)))].sort(
    (a, b) => total(b) - total(a),
  );
  const shown = labels.slice(0, MOST_LABELS);
  const steps = one.steps.flatMap((step, i) =>
    step === null ? [] : [`${i} to ${i + 1}: ${step.toFixed(2)}`],
  );
  return {
    id: `shares-many-${one.id}`,
    title: `${one.name}, side by side`,
    units: `Share of each label in percent; the columns are the sides in their order. How far each is from the one before (0 alike, 1 nothing in common): ${steps.join(", ")}.`,
    empty: labels.length === 0 ? "No side has notes that could be counted." : null,
    draw(width) {
      const words = shown.map((label) => labelShown(one.id, label));
      const widest = Math.max(...words.map((word) => word.length)) * LETTER;
      // Names that would leave the columns no room stand over them.
      const over = widest > Math.min(190, width * 0.34);
      const room = over ? 0 : widest + 8;
      const row = over ? 38 : 22;
      const column = (width - room) / names.length;
      const most = Math.max(...shown.flatMap((label) => one.shares.map((shares) => shares[label] ?? 0)));
      const figures = column >= 64;
      const svg = s("svg", {
        viewBox: `0 0 ${width} ${shown.length * row + 26}`,
        class: "shares-many",
      });
      names.forEach((_, side) => {
        svg.append(s("text", { class: "label strong", x: room + side * column, y: 14 }, side + 1));
      });
      shown.forEach((label, i) => {
        const top = 22 + i * row;
        const y = over ? top + 16 : top;
        svg.append(
          s("text", { class: "label", x: 0, y: top + 14 }, shortened(words[i]!, over ? width : room, LETTER)),
          s("path", { class: "rule", d: `M0,${top + row - 0.5}H${width}` }),
        );
        one.shares.forEach((shares, side) => {
          const share = shares[label] ?? 0;
          const length = (share / most) * (column - (figures ? 46 : 6));
          svg.append(
            s("rect", {
              class: "bar-a",
              x: room + side * column,
              y: y + 4,
              width: Math.max(0, length).toFixed(1),
              height: 12,
              "data-label": label,
              "data-side": side,
              "data-share": share,
            }),
          );
          if (figures && share > 0) {
            svg.append(
              s("text", { class: "figure", x: room + side * column + length + 4, y: y + 14 }, percent(share)),
            );
          }
        });
      });
      return svg;
    },
    table: () => ({
      columns: ["Label", ...names],
      rows: labels.map((label) => [
        labelShown(one.id, label),
        ...one.shares.map((shares) => percent(shares[label] ?? 0)),
      ]),
    }),
  };
}
