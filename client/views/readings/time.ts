/** Early and late: each note moved up or down by its earliness, with the band of what cannot be heard. */
import type { AccountNote, Analysis } from "../../../src/account.ts";
import { beatInFigures, withAccidentals } from "../../../src/words/index.ts";
import type { AccountIndex } from "../../shell/account-index.ts";
import { s } from "../../shell/dom.ts";
import { dataOf, type Mark, type Paper, type Reading } from "./reading.ts";

/** A field shows at least so many milliseconds to either side, and never more than the most. */
const LEAST_REACH = 40;
const MOST_REACH = 250;

/** Why early and late cannot be said. */
export const UNTIMED_WORDS: Readonly<Record<NonNullable<Analysis["rhythm"]["untimed"]>, string>> = {
  "no performance": "Notation does not say how it was played.",
  "no beat": "There is no steady beat to be early or late against.",
  "no click":
    "No click is known: the beat was drawn through the line itself, which cannot be late against it.",
  "two readings": "The line could as well be early as late by half a beat: it cannot be said.",
  "too few notes": "Too few notes fall on the beat to say.",
};

export const time: Reading = {
  name: "time",
  word: "Time",
  units(index) {
    const against = index.analysis.rhythm.timing?.against === "other hand" ? "the other hand" : "the click";
    return `A note over the middle of its field is early, one under it late, in milliseconds against ${against}. The band: too small a difference to hear. Off the beat, swing moves notes too.`;
  },
  empty: ({ analysis }) =>
    analysis.rhythm.timing !== null
      ? null
      : analysis.rhythm.untimed !== undefined
        ? UNTIMED_WORDS[analysis.rhythm.untimed]
        : analysis.alignment.method === "rubato"
          ? "This take has no steady beat, so early and late cannot be said."
          : "The notes stand exactly on the grid or are too few, so early and late cannot be said.",
  joined: false,
  behind: bands,
  axis: (paper, y) => names(paper, y),
  at(paper, note) {
    const at = paper.layout.point(note);
    const cell = paper.layout.cell(note.chorus, note.bar);
    if (at === null || cell === null || paper.index.analysis.rhythm.timing === null) return at;
    const late = lateMilliseconds(paper.index, note);
    return late === null ? null : { x: at.x, y: cell.y + depthOf(paper, late) };
  },
  sign: (note, at, _radius, index) =>
    s("circle", {
      ...dataOf(note),
      "data-late": lateMilliseconds(index, note)?.toFixed(2),
      class: "sign late-dot",
      cx: at.x.toFixed(1),
      cy: at.y.toFixed(1),
      r: 2.8,
    }),
  key: () => [
    { sign: s("circle", { class: "late-dot", r: 3 }), words: "note" },
    { sign: s("rect", { class: "reach", x: -11, y: -5, width: 22, height: 10 }), words: "cannot be heard" },
    { sign: s("path", { class: "median", d: "M-11,0H11" }), words: "middle of the notes on the beat" },
  ],
  table: (index) => ({
    columns: ["Note", "Chorus", "Bar", "Beat", "Late (ms, early with −)"],
    rows: index.solo.map((note) => [
      withAccidentals(note.spelling),
      note.chorus,
      note.bar,
      note.beat === null ? "no beat" : beatInFigures(note.beat),
      lateMilliseconds(index, note)?.toFixed(0).replace("-", "−") ?? "",
    ]),
  }),
};

/** Lateness in milliseconds at the tempo of the note's own bar; null without a beat. */
function lateMilliseconds(index: AccountIndex, note: AccountNote): number | null {
  const bar = index.bar(note.chorus, note.bar);
  if (note.timing === null) return null;
  const quarter = bar
    ? (bar.end - bar.start) / index.barQuarters
    : 60 / (index.analysis.alignment.tempo?.median ?? 120);
  return note.timing * quarter * 1000;
}

const reaches = new WeakMap<AccountIndex, number>();

function reachOf(index: AccountIndex): number {
  const known = reaches.get(index);
  if (known !== undefined) return known;
  const all = index.solo.map((note) => Math.abs(lateMilliseconds(index, note) ?? 0));
  const reach = Math.min(
    MOST_REACH,
    all.reduce((a, b) => Math.max(a, b), LEAST_REACH),
  );
  reaches.set(index, reach);
  return reach;
}

/** Pixels from the top of a field; what is beyond the reach stands at its edge. */
function depthOf({ index, layout }: Paper, late: number): number {
  const reach = reachOf(index);
  const held = Math.max(-reach, Math.min(reach, late));
  return layout.rowHeight / 2 + (held / reach) * (layout.rowHeight / 2 - 6);
}

function bands(paper: Paper): Mark[] {
  const { index, layout } = paper;
  const { timing } = index.analysis.rhythm;
  if (timing === null) return [];
  const [from, to] = [depthOf(paper, -timing.threshold), depthOf(paper, timing.threshold)];
  const median = depthOf(paper, timing.median);
  return layout.lines.flatMap((line) =>
    layout.rows.flatMap((chorus) =>
      line.bars.flatMap((bar) => {
        const cell = layout.cell(chorus, bar);
        if (cell === null || !paper.shows(cell.y)) return [];
        const element = s(
          "g",
          { class: "time-band" },
          s("rect", {
            class: "reach",
            x: cell.x,
            y: cell.y + from,
            width: cell.width,
            height: to - from,
            "data-threshold": timing.threshold,
          }),
          s("path", {
            class: "rule strong",
            d: `M${cell.x},${cell.y + layout.rowHeight / 2}h${cell.width}`,
          }),
          s("path", {
            class: "median",
            d: `M${cell.x},${(cell.y + median).toFixed(1)}h${cell.width}`,
          }),
        );
        return [{ element, notes: [], y: cell.y }];
      }),
    ),
  );
}

function names(paper: Paper, y: number): SVGElement[] {
  const { index, layout } = paper;
  if (index.analysis.rhythm.timing === null) return [];
  const reach = Math.round(reachOf(index));
  const word = (text: string, at: number) =>
    s("text", { class: "pitch-name", x: layout.margin - 5, y: y + at, "text-anchor": "end" }, text);
  return [
    word(`early ${reach}`, 26),
    word("0 ms", layout.rowHeight / 2 + 3),
    word(`late ${reach}`, layout.rowHeight - 3),
  ];
}
