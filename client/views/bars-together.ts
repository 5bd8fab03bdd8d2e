/** The same bar of several sides laid on top of one another, bar after bar. */
import type { BarTogether } from "../../src/compare/same-bar.ts";
import { s } from "../shell/dom.ts";
import { printed } from "../shell/words.ts";
import type { PlainPicture } from "./plain-frame.ts";

export function barsTogetherPicture(bars: readonly BarTogether[], names: readonly string[]): PlainPicture {
  const all = bars.flatMap((bar) => bar.layers.flatMap((layer) => layer.notes));
  return {
    id: "bars-together",
    title: "The same bar of each, laid on top of each other",
    units: `In each field time runs right and pitch up. Filled: ${names[0] ?? ""}; hollow: ${names[1] ?? ""}. A rule at every C.`,
    empty:
      all.length === 0
        ? "The charts have different lengths, so their bars cannot be laid over each other."
        : null,
    draw(width) {
      const per = [12, 8, 6, 4, 2].find((n) => width / n >= 84 && bars.length % n === 0) ?? 4;
      const w = width / per;
      const tall = 92;
      const low = Math.min(...all.map((note) => note.pitch)) - 2;
      const high = Math.max(...all.map((note) => note.pitch)) + 2;
      const lines = Math.ceil(bars.length / per);
      const svg = s("svg", { viewBox: `0 0 ${width} ${lines * (tall + 34)}`, class: "bars-together" });
      bars.forEach((bar, i) => {
        const x = (i % per) * w;
        const y = Math.floor(i / per) * (tall + 34);
        const depth = (pitch: number) => y + 26 + tall - ((pitch - low) / (high - low)) * tall;
        svg.append(
          s("rect", { class: "field still", x, y: y + 26, width: w, height: tall }),
          s("text", { class: "bar-number", x: x + 4, y: y + 10 }, bar.bar),
          s("text", { class: "chord small", x: x + 4, y: y + 22 }, bar.chords.map(printed).join(" ")),
          s("path", { class: "bar-line", d: `M${x},${y + 26}v${tall}` }),
        );
        for (let pitch = Math.ceil(low / 12) * 12; pitch <= high; pitch += 12) {
          svg.append(s("path", { class: "rule", d: `M${x},${depth(pitch).toFixed(1)}h${w}` }));
        }
        for (const layer of bar.layers) {
          for (const note of layer.notes) {
            svg.append(
              s("circle", {
                class: layer.side === 0 ? "side-a" : "side-b",
                cx: (x + 6 + note.start * (w - 8)).toFixed(1),
                cy: depth(note.pitch).toFixed(1),
                r: layer.side === 0 ? 2.8 : 4.2,
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
        bar.chords.map(printed).join(" "),
        ...names.map((_, side) =>
          bar.layers.filter((layer) => layer.side === side).reduce((n, layer) => n + layer.notes.length, 0),
        ),
      ]),
    }),
  };
}
