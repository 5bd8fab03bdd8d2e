/** Each motif a lane over the whole solo, its occurrences drawn by what returned: the pitches, the shape, the fingers, the rhythm. */
import type { AccountMotif, MotifRelation } from "../../src/account.ts";
import { capital, count, placeInWords } from "../../src/words/index.ts";
import { stepsBack } from "../draw/selection-highlight.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { h, s } from "../shell/dom.ts";
import type { Drawing, Scene, View } from "./view.ts";

/** How a return is drawn, by what returned. */
const RELATIONS: readonly { readonly relation: MotifRelation; readonly words: string }[] = [
  { relation: "exact", words: "the same notes" },
  { relation: "transposed", words: "moved to another pitch" },
  { relation: "same fingering", words: "the same fingers" },
  { relation: "rhythm", words: "the same rhythm" },
  { relation: "varied", words: "varied" },
];

const SHOWN = 14;

export function motifLanes(): View {
  const state = { all: false };
  return {
    id: "motif-lanes",
    title: (index) => {
      const n = index.analysis.motifs.length;
      return n === 1
        ? "One motif returns more often than chance"
        : `${capital(count(n, "motif"))} return more often than chance`;
    },
    units: () =>
      "Across: bars of the solo, a rule at each chorus. One lane a motif, with its shape in notes at the left and the number of times it is played.",
    empty: (index) =>
      index.analysis.motifs.length === 0
        ? "No pattern returns more often than chance would have it. In a short solo that is usual."
        : null,
    draw: (scene) =>
      draw(scene, state.all ? scene.index.analysis.motifs : scene.index.analysis.motifs.slice(0, SHOWN)),
    controls(scene, redraw) {
      const extra = scene.index.analysis.motifs.length - SHOWN;
      const legend = h(
        "ul",
        { class: "legend inline" },
        ...RELATIONS.map(({ relation, words }) => h("li", {}, occurrenceSample(relation), ` ${words}`)),
      );
      if (extra <= 0) return [legend];
      return [
        legend,
        h(
          "label",
          {},
          h("input", {
            type: "checkbox",
            onChange: (event: Event) => {
              state.all = (event.target as HTMLInputElement).checked;
              redraw();
            },
          }),
          ` show ${extra} more`,
        ),
      ];
    },
    table: (index) => ({
      columns: [
        "Motif",
        "Kind",
        "Pattern",
        "Notes",
        "Played",
        "By chance",
        "First heard",
        "Carried over into",
        "Gone from",
        "Places",
      ],
      rows: index.analysis.motifs.map((motif) => [
        motif.id,
        motif.viewpoint,
        patternText(motif),
        motif.length,
        motif.occurrences.length,
        motif.expected.toFixed(1),
        `chorus ${motif.development.firstHeard.chorus}, bar ${motif.development.firstHeard.bar}`,
        motif.development.carriedOver.map((chorus) => `chorus ${chorus}`).join(", "),
        motif.development.droppedFrom === null ? "" : `chorus ${motif.development.droppedFrom}`,
        motif.occurrences
          .map((o) => `${placeInWords(o)} (${o.relation}${o.change ? `, ${o.change}` : ""})`)
          .join("; "),
      ]),
    }),
  };
}

/** "+2 +2 -1" for intervals, as it stands for other kinds. */
export function patternText(motif: AccountMotif): string {
  const signed = motif.viewpoint === "chromatic interval";
  return motif.pattern
    .map((item) => (typeof item === "number" && signed && item > 0 ? `+${item}` : String(item)))
    .join(" ");
}

function occurrenceSample(relation: MotifRelation): SVGSVGElement {
  return s(
    "svg",
    { viewBox: "0 0 26 12", width: 26, height: 12, "aria-hidden": "true" },
    s("rect", { class: `occurrence ${className(relation)}`, x: 1, y: 1, width: 24, height: 10, rx: 2 }),
    relation === "rhythm" ? s("path", { class: "occurrence-tick", d: "M7,2v8M13,2v8M19,2v8" }) : null,
  );
}

const className = (relation: MotifRelation) => relation.replace(" ", "-");

function draw(scene: Scene, motifs: readonly AccountMotif[]): Drawing {
  const { index, store, width } = scene;
  const narrow = width < 600;
  const margin = narrow ? 122 : 226;
  const lane = 34;
  const top = 24;
  const from = Math.min(0, ...index.solo.slice(0, 1).map((note) => index.barsFromStart(note)));
  const last = index.solo.at(-1);
  const to = Math.max(index.choruses.length * index.chartBars, last ? index.barsFromStart(last) + 0.2 : 1);
  const x = (bars: number) => margin + ((bars - from) / (to - from)) * (width - margin - 6);
  const height = top + motifs.length * lane + 6;
  const svg = s("svg", { viewBox: `0 0 ${width} ${height}`, class: "motif-lanes" });

  for (const chorus of index.choruses) {
    const start = x((chorus - 1) * index.chartBars);
    svg.append(
      s("path", { class: "rule strong", d: `M${start.toFixed(1)},4V${height}` }),
      s("text", { class: "label faint", x: start + 4, y: 14 }, narrow ? String(chorus) : `Chorus ${chorus}`),
    );
    if (!narrow) {
      const marks = Array.from({ length: Math.ceil(index.chartBars / 4) - 1 }, (_, i) =>
        x((chorus - 1) * index.chartBars + (i + 1) * 4),
      );
      svg.append(
        s("path", { class: "rule", d: marks.map((m) => `M${m.toFixed(1)},${top}V${height}`).join("") }),
      );
    }
  }
  const lanes = new Map<string, SVGGElement>();
  const occurrences: { element: Element; ids: readonly string[] }[] = [];
  motifs.forEach((motif, i) => {
    const y = top + i * lane;
    const group = s("g", { class: "lane", "data-motif": motif.id, "data-count": motif.occurrences.length });
    group.append(
      s("rect", { class: "lane-field", x: 0, y, width, height: lane }),
      s("path", { class: "rule", d: `M0,${y + lane}H${width}` }),
      contourOf(index, motif, 4, y + 6, narrow ? 40 : 62, lane - 12),
      s("text", { class: "label strong", x: narrow ? 50 : 74, y: y + 15 }, `${motif.occurrences.length}×`),
      s(
        "text",
        { class: "label faint", x: narrow ? 50 : 74, y: y + 28 },
        narrow ? short(motif.viewpoint) : motif.viewpoint,
      ),
    );
    for (const occurrence of motif.occurrences) {
      const notes = index.between(occurrence.firstNote, occurrence.lastNote);
      const first = notes[0];
      const end = notes.at(-1);
      if (!first || !end) continue;
      const x1 = x(index.barsFromStart(first));
      const x2 = Math.max(x1 + 5, x(index.barsFromStart(end)) + 3);
      const element = s(
        "g",
        {
          class: "occurrence-group",
          "data-first": occurrence.firstNote,
          "data-relation": occurrence.relation,
        },
        s("rect", {
          class: `occurrence ${className(occurrence.relation)}`,
          x: x1.toFixed(1),
          y: y + 8,
          width: (x2 - x1).toFixed(1),
          height: lane - 16,
          rx: 2,
        }),
        occurrence.relation === "rhythm"
          ? s("path", {
              class: "occurrence-tick",
              d: notes
                .map((note) => `M${x(index.barsFromStart(note)).toFixed(1)},${y + 11}v${lane - 22}`)
                .join(""),
            })
          : null,
      );
      element.addEventListener("pointerenter", () => store.point(occurrence.firstNote));
      occurrences.push({ element, ids: notes.map((note) => note.id) });
      group.append(element);
    }
    group.addEventListener("click", () => store.select({ kind: "motif", motif: motif.id }));
    const { play } = scene.actions;
    if (play) {
      const x0 = margin - 24;
      const sign = s(
        "g",
        { class: "handle play-sign" },
        s("rect", { class: "play-field", x: x0 - 6, y: y + 4, width: 26, height: lane - 8, rx: 3 }),
        s("path", { d: `M${x0 + 2},${y + lane / 2 - 6}v12l10,-6Z` }),
      );
      sign.addEventListener("click", (event) => {
        event.stopPropagation();
        store.select({ kind: "motif", motif: motif.id });
        play();
      });
      group.append(sign);
    }
    lanes.set(motif.id, group);
    svg.append(group);
  });
  const cursor = s("path", { class: "cursor", display: "none" });
  svg.append(cursor);
  svg.addEventListener("pointerleave", () => store.point(null));
  return {
    svg,
    mark(marked, change) {
      if (change === "selection") {
        const { selection } = marked;
        const held =
          selection.kind === "note" ? new Set(index.note.get(selection.note)?.motifs) : new Set<string>();
        for (const [id, group] of lanes) {
          group.classList.toggle(
            "on",
            (selection.kind === "motif" && selection.motif === id) || held.has(id),
          );
        }
        for (const { element, ids } of occurrences) {
          element.classList.toggle("on", marked.notes !== null && ids.some((id) => marked.notes?.has(id)));
        }
        svg.classList.toggle("has-selection", stepsBack(marked));
        return;
      }
      const id = marked.playing ?? marked.hover;
      const note = id === null ? undefined : index.note.get(id);
      if (note) {
        cursor.setAttribute("d", `M${x(index.barsFromStart(note)).toFixed(1)},${top - 4}V${height}`);
        cursor.removeAttribute("display");
      } else cursor.setAttribute("display", "none");
    },
  };
}

const short = (viewpoint: string) => viewpoint.split(" ").at(-1) ?? viewpoint;

/** The motif's first occurrence as a little line of notes. */
function contourOf(
  index: AccountIndex,
  motif: AccountMotif,
  x: number,
  y: number,
  width: number,
  height: number,
): SVGGElement {
  const first = motif.occurrences[0];
  const notes = first ? index.between(first.firstNote, first.lastNote) : [];
  const low = Math.min(...notes.map((note) => note.pitch));
  const high = Math.max(...notes.map((note) => note.pitch));
  const points = notes.map((note, i) => ({
    x: x + (notes.length > 1 ? i / (notes.length - 1) : 0.5) * width,
    y: y + height - ((note.pitch - low) / Math.max(1, high - low)) * height,
  }));
  return s(
    "g",
    { class: "motif-shape" },
    s("path", {
      class: "join",
      d: points.map((p, i) => `${i === 0 ? "M" : "L"}${p.x.toFixed(1)},${p.y.toFixed(1)}`).join(""),
    }),
    ...points.map((p) => s("circle", { class: "dot", cx: p.x.toFixed(1), cy: p.y.toFixed(1), r: 2.2 })),
  );
}
