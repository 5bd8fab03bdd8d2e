/** The ideas of a take, one a row: its number, its shape in notes, how often it is played; each can be heard. */
import type { AccountMotif } from "../../src/account.ts";
import { capital, count } from "../../src/words/index.ts";
import { stepsBack } from "../draw/selection-highlight.ts";
import { s } from "../shell/dom.ts";
import { ideas, motifContour, motifNumber } from "./readings/ideas.ts";
import type { Drawing, Scene, View } from "./view.ts";
import { VIEWPOINT_WORDS } from "./viewpoint-words.ts";

const ROW = 34;

export function motifList(): View {
  return {
    id: "motif-list",
    title: (index) => {
      const n = index.analysis.motifs.length;
      return n === 1 ? "One idea returns" : `${capital(count(n, "idea"))} return`;
    },
    units: () =>
      "Each returns more often than chance would have it. Its number, its notes, how often it is played, and in what it is alike.",
    empty: (index) => ideas.empty?.(index) ?? null,
    draw,
    table: (index) => ideas.table(index),
  };
}

function draw(scene: Scene): Drawing {
  const { index, store, width } = scene;
  const { motifs } = index.analysis;
  const svg = s("svg", { viewBox: `0 0 ${width} ${motifs.length * ROW + 2}`, class: "motif-list" });
  const rows = new Map<string, SVGGElement>();
  motifs.forEach((motif, i) => {
    const group = rowOf(scene, motif, i * ROW, width);
    rows.set(motif.id, group);
    svg.append(group);
  });
  return {
    svg,
    mark(marked, change) {
      if (change !== "selection") return;
      const { selection } = marked;
      const held =
        selection.kind === "note" ? new Set(index.note.get(selection.note)?.motifs) : new Set<string>();
      for (const [id, group] of rows)
        group.classList.toggle("on", (selection.kind === "motif" && selection.motif === id) || held.has(id));
      svg.classList.toggle("has-selection", stepsBack(marked));
    },
  };

  function rowOf({ actions }: Scene, motif: AccountMotif, y: number, across: number): SVGGElement {
    const contour = motifContour(index, motif, 62, ROW - 14);
    contour.setAttribute("transform", `translate(54,${y + 7})`);
    const group = s(
      "g",
      { class: "lane", "data-motif": motif.id, "data-count": motif.occurrences.length },
      s("rect", { class: "lane-field", x: 0, y, width: across, height: ROW }),
      s("path", { class: "rule", d: `M0,${y + ROW}H${across}` }),
      s("text", { class: "label strong", x: 28, y: y + 21 }, motifNumber(motif.id)),
      contour,
      s("text", { class: "label strong", x: 128, y: y + 15 }, `${motif.occurrences.length}×`),
      s("text", { class: "label faint", x: 128, y: y + 28 }, VIEWPOINT_WORDS[motif.viewpoint]),
    );
    group.addEventListener("click", () => store.select({ kind: "motif", motif: motif.id }));
    const { play } = actions;
    if (play) {
      const sign = s(
        "g",
        { class: "handle play-sign" },
        s("rect", { class: "play-field", x: 0, y: y + 4, width: 24, height: ROW - 8, rx: 3 }),
        s("path", { d: `M8,${y + ROW / 2 - 6}v12l10,-6Z` }),
      );
      sign.addEventListener("click", (event) => {
        event.stopPropagation();
        store.select({ kind: "motif", motif: motif.id });
        play();
      });
      group.append(sign);
    }
    return group;
  }
}
