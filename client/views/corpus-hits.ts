/** Where in the form the takes of a corpus play a pattern: a row a take, a mark a place. */
import { group, max, scaleLinear } from "d3";
import type { Hit } from "../../server/contract/pattern.ts";
import { beatInFigures, capital, count } from "../../src/words/index.ts";
import { s } from "../shell/dom.ts";
import { hitNames } from "../shell/ideas.ts";
import type { PlainPicture } from "./plain-frame.ts";
import { shortened } from "./shortened.ts";

const SHOWN = 40;
const ROW = 24;

/** `found` is the number of places in all; `hits` are the closest of them. */
export function corpusHits(
  found: number,
  hits: readonly Hit[],
  titleOf: (take: string) => string,
): PlainPicture {
  const byTake = [...group(hits, (hit) => hit.take)].sort((a, b) => b[1].length - a[1].length);
  const shown = byTake.slice(0, SHOWN);
  const first = Math.min(1, ...hits.map((hit) => hit.bar));
  const last = max(hits, (hit) => hit.bar) ?? 1;
  // Takes of one corpus may differ in meter: a bar is as many beats wide as the latest beat that was hit needs.
  const beats = Math.max(4, Math.floor(max(hits, (hit) => hit.beat ?? 0) ?? 0));
  const place = (hit: Hit) => hit.bar + (hit.beat === null ? 0 : (hit.beat - 1) / beats);
  return {
    id: "corpus-hits",
    title: `${capital(count(found, "place"))} in ${count(byTake.length, "take")}`,
    units: `Across: bars of the form, all choruses over each other. One row a take; filled: played exactly, hollow: with notes that differ.${found > hits.length ? ` The closest ${hits.length} places are drawn.` : ""}`,
    empty:
      found === 0
        ? "It is played nowhere in this part of the corpus. Let a note differ, or shorten the pattern."
        : null,
    draw(width) {
      const narrow = width < 620;
      const left = narrow ? 96 : 220;
      const x = scaleLinear([first, last + 1], [left, width - 34]);
      const height = 24 + shown.length * ROW + 4;
      const svg = s("svg", { viewBox: `0 0 ${width} ${height}`, class: "corpus-hits" });
      const step = Math.max(1, Math.ceil((last - first + 1) / ((width - left) / 30)));
      for (let bar = first; bar <= last; bar++) {
        const strong = (bar - 1) % 4 === 0;
        svg.append(
          s("path", {
            class: strong ? "rule strong" : "rule",
            d: `M${x(bar).toFixed(1)},18V${height - 4}`,
          }),
        );
        if ((bar - first) % step === 0) {
          svg.append(
            s("text", { class: "bar-number", x: (x(bar) + 2).toFixed(1), y: 12 }, bar < 1 ? "pickup" : bar),
          );
        }
      }
      shown.forEach(([take, places], i) => {
        const y = 24 + i * ROW;
        const row = s("g", { class: "take-row", "data-take": take, "data-places": places.length });
        row.append(
          s("rect", { class: "row-field", x: 0, y, width, height: ROW }),
          s("path", { class: "rule", d: `M0,${y + ROW - 0.5}H${width}` }),
          s("text", { class: "label", x: 2, y: y + 16 }, shortened(titleOf(take), left - 8)),
          s("text", { class: "figure", x: width, y: y + 16, "text-anchor": "end" }, `${places.length}×`),
        );
        for (const hit of places) {
          row.append(
            s("circle", {
              class: hit.edits === 0 ? "hit-mark" : "hit-mark near",
              cx: x(place(hit)).toFixed(1),
              cy: y + 12,
              r: 4,
              "data-note": hit.firstNote,
              "data-bar": hit.bar,
            }),
          );
        }
        svg.append(row);
      });
      return svg;
    },
    table: () => ({
      columns: ["Take", "Chorus", "Bar", "Beat", "Notes", "Differing"],
      rows: hits.map((hit) => [
        titleOf(hit.take),
        hit.chorus,
        hit.bar < 1 ? "pickup" : hit.bar,
        hit.beat === null ? "no beat" : beatInFigures(hit.beat),
        hitNames(hit).own,
        hit.edits,
      ]),
    }),
  };
}
