/** Ideas that return, each place a bracket over its notes, drawn by what returned. */
import type { AccountMotif, MotifRelation } from "../../../src/account.ts";
import { placeInWords } from "../../../src/words/index.ts";
import type { AccountIndex } from "../../shell/account-index.ts";
import { s } from "../../shell/dom.ts";
import { printedPattern } from "../../shell/printed-pattern.ts";
import { VIEWPOINT_WORDS } from "../viewpoint-words.ts";
import { levelsOf, type Mark, type Paper, piecesOf, type Reading } from "./reading.ts";
import { roleSign } from "./role.ts";

/** How a return is drawn, by what returned. */
const RELATIONS: readonly { readonly relation: MotifRelation; readonly words: string }[] = [
  { relation: "exact", words: "the same notes" },
  { relation: "transposed", words: "moved to another pitch" },
  { relation: "same fingering", words: "the same fingers" },
  { relation: "rhythm", words: "the same rhythm" },
  { relation: "varied", words: "varied" },
];

const STEP = 13;
/** Levels of brackets at most; an idea without room stands in the list beside, where it can be chosen. */
const MOST_LEVELS = 4;

export const ideas: Reading = {
  name: "ideas",
  word: "Ideas",
  units: () => "A bracket spans a place where an idea is played, under the idea's number.",
  empty: (index) =>
    index.analysis.motifs.length === 0
      ? "No pattern returns more often than chance would have it. In a short solo that is usual."
      : null,
  above: (index) =>
    index.analysis.motifs.length === 0 ? 0 : Math.min(MOST_LEVELS, index.analysis.motifs.length) * STEP + 4,
  joined: true,
  sign: roleSign,
  over: brackets,
  key: (index) => {
    const used = new Set(
      index.analysis.motifs.flatMap((motif) => motif.occurrences.map((one) => one.relation)),
    );
    return RELATIONS.filter(({ relation }) => used.has(relation)).map(({ relation, words }) => ({
      sign: s("path", { class: `occurrence ${classOf(relation)}`, d: "M-11,4v-8H11v8" }),
      words,
    }));
  },
  table: (index) => ({
    columns: [
      "Motif",
      "Alike in",
      "Pattern",
      "Notes",
      "Played",
      "By chance",
      "First heard",
      "Carried over into",
      "Gone from",
      "Places",
    ],
    rows: index.analysis.motifs.map((motif) => motifRow(motif)),
  }),
};

/** The pattern of a motif, printed. */
export const patternText = ({ viewpoint, pattern }: Pick<AccountMotif, "viewpoint" | "pattern">): string =>
  printedPattern({ viewpoint, symbols: pattern });

/** "3" for the motif "m3". */
export const motifNumber = (id: string): string => id.replace(/^m/, "");

const classOf = (relation: MotifRelation) => relation.replace(" ", "-");

function brackets(paper: Paper): Mark[] {
  const { index, store } = paper;
  const all = index.analysis.motifs.flatMap((motif) =>
    motif.occurrences.flatMap((occurrence) =>
      piecesOf(paper, index.between(occurrence.firstNote, occurrence.lastNote)).map((piece) => ({
        motif,
        occurrence,
        ...piece,
        x2: Math.max(piece.x2, piece.x1 + 14),
      })),
    ),
  );
  const levels = levelsOf(all);
  return all.flatMap(({ motif, occurrence, notes, x1, x2, y, begins }, i) => {
    const level = levels[i]!;
    if (level >= MOST_LEVELS) return [];
    const top = y + level * STEP + 3;
    const element = s(
      "g",
      {
        class: "occurrence-group",
        "data-motif": motif.id,
        "data-first": occurrence.firstNote,
        "data-relation": occurrence.relation,
      },
      s("rect", { class: "arc-hit", x: x1.toFixed(1), y: top, width: (x2 - x1).toFixed(1), height: 12 }),
      s("path", {
        class: `occurrence ${classOf(occurrence.relation)}`,
        d: `M${x1.toFixed(1)},${top + 10}v-9H${x2.toFixed(1)}v9`,
      }),
      begins
        ? s("text", { class: "figure-name", x: (x1 + 4).toFixed(1), y: top + 11 }, motifNumber(motif.id))
        : null,
    );
    element.addEventListener("pointerenter", () => store.point(occurrence.firstNote));
    element.addEventListener("click", (event) => {
      event.stopPropagation();
      store.select({ kind: "motif", motif: motif.id });
    });
    return [{ element, notes: notes.map((note) => note.id), y }];
  });
}

function motifRow(motif: AccountMotif): (string | number)[] {
  const { firstHeard, carriedOver, droppedFrom } = motif.development;
  return [
    motifNumber(motif.id),
    VIEWPOINT_WORDS[motif.viewpoint],
    patternText(motif),
    motif.length,
    motif.occurrences.length,
    motif.expected < 0.05 ? "hardly ever" : motif.expected.toFixed(1),
    `chorus ${firstHeard.chorus}, bar ${firstHeard.bar}`,
    carriedOver.map((chorus) => `chorus ${chorus}`).join(", "),
    droppedFrom === null ? "" : `chorus ${droppedFrom}`,
    motif.occurrences
      .map((one) => `${placeInWords(one)} (${one.relation}${one.change ? `, ${one.change}` : ""})`)
      .join("; "),
  ];
}

/** The motif's first occurrence as a little line of notes in a field of `width` by `height`. */
export function motifContour(
  index: AccountIndex,
  motif: AccountMotif,
  width: number,
  height: number,
): SVGGElement {
  const first = motif.occurrences[0];
  const notes = first ? index.between(first.firstNote, first.lastNote) : [];
  const low = Math.min(...notes.map((note) => note.pitch));
  const high = Math.max(...notes.map((note) => note.pitch));
  const points = notes.map((note, i) => ({
    x: (notes.length > 1 ? i / (notes.length - 1) : 0.5) * width,
    y: height - ((note.pitch - low) / Math.max(1, high - low)) * height,
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
