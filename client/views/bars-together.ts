/** The same bar of several sides laid on top of one another, bar after bar. */
import type { BarTogether } from "../../src/compare/comparison-schema.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { sideClass, sidePath } from "../draw/side-marks.ts";
import { s } from "../shell/dom.ts";
import type { PlainPicture } from "./plain-frame.ts";

const FIELD = 92;
const HEAD = 34;

export function barsTogetherPicture(bars: readonly BarTogether[], names: readonly string[]): PlainPicture {
  const all = bars.flatMap((bar) => bar.layers.flatMap((layer) => layer.notes));
  return {
    id: "bars-together",
    title: "The same bar of each, laid on top of each other",
    units: "In each field time runs right and pitch up; a rule at every C.",
    empty:
      all.length === 0
        ? "The charts have different lengths, so their bars cannot be laid over each other."
        : null,
    draw(width) {
      const per = [12, 8, 6, 4, 2].find((n) => width / n >= 84 && bars.length % n === 0) ?? 4;
      const w = width / per;
      const low = Math.min(...all.map((note) => note.pitch)) - 2;
      const high = Math.max(...all.map((note) => note.pitch)) + 2;
      const lines = Math.ceil(bars.length / per);
      const legend = legendRows(names, width);
      const top = legend.length * 20 + 8;
      const svg = s("svg", {
        viewBox: `0 0 ${width} ${top + lines * (FIELD + HEAD)}`,
        class: "bars-together",
      });
      for (const [row, entries] of legend.entries()) {
        for (const { side, x } of entries) {
          svg.append(
            s("path", {
              class: sideClass(side),
              d: sidePath(side),
              transform: `translate(${x + 7},${row * 20 + 10})`,
            }),
            s("text", { class: "label", x: x + 18, y: row * 20 + 14 }, shortName(names[side]!)),
          );
        }
      }
      bars.forEach((bar, i) => {
        const x = (i % per) * w;
        const y = top + Math.floor(i / per) * (FIELD + HEAD);
        const depth = (pitch: number) => y + 26 + FIELD - ((pitch - low) / (high - low)) * FIELD;
        svg.append(
          s("rect", { class: "field still", x, y: y + 26, width: w, height: FIELD }),
          s("text", { class: "bar-number", x: x + 4, y: y + 10 }, bar.bar),
          s("text", { class: "chord small", x: x + 4, y: y + 22 }, bar.chords.map(withAccidentals).join(" ")),
          s("path", { class: "bar-line", d: `M${x},${y + 26}v${FIELD}` }),
        );
        for (let pitch = Math.ceil(low / 12) * 12; pitch <= high; pitch += 12) {
          svg.append(s("path", { class: "rule", d: `M${x},${depth(pitch).toFixed(1)}h${w}` }));
        }
        for (const layer of bar.layers) {
          for (const note of layer.notes) {
            svg.append(
              s("path", {
                class: sideClass(layer.side),
                d: sidePath(layer.side),
                transform: `translate(${(x + 6 + note.start * (w - 8)).toFixed(1)},${depth(note.pitch).toFixed(1)})`,
                "data-note": note.id,
                "data-side": layer.side,
              }),
            );
          }
        }
      });
      return svg;
    },
    table: () => ({
      columns: ["Bar", "Chords", ...names.map((name) => `Notes of ${name}`)],
      rows: bars.map((bar) => [
        bar.bar,
        bar.chords.map(withAccidentals).join(" "),
        ...names.map((_, side) =>
          bar.layers.filter((layer) => layer.side === side).reduce((n, layer) => n + layer.notes.length, 0),
        ),
      ]),
    }),
  };
}

const LONGEST = 30;

const shortName = (name: string) => (name.length > LONGEST ? `${name.slice(0, LONGEST - 1)}…` : name);

/** Names in rows that fit the width; a letter takes about 6.6 pixels. */
function legendRows(names: readonly string[], width: number): { side: number; x: number }[][] {
  const rows: { side: number; x: number }[][] = [[]];
  let x = 0;
  names.forEach((name, side) => {
    const room = 34 + 6.6 * shortName(name).length;
    if (x > 0 && x + room > width) {
      rows.push([]);
      x = 0;
    }
    rows[rows.length - 1]!.push({ side, x });
    x += room;
  });
  return rows;
}
