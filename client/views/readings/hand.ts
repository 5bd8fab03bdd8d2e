/** Where the hand stood: the reach of each placement behind its notes, its fingers, the shift that leads into it. */
import type { AccountNote, AccountPlacement } from "../../../src/account.ts";
import { degreeName } from "../../../src/chart/index.ts";
import { fingerName, withAccidentals } from "../../../src/words/index.ts";
import type { AccountIndex } from "../../shell/account-index.ts";
import { s } from "../../shell/dom.ts";
import { letterSign, type Mark, type Paper, piecesOf, type Reading } from "./reading.ts";

export const hand: Reading = {
  name: "hand",
  word: "Hand",
  units: () =>
    "The figure of a note: its finger. A field behind notes: what the hand reaches in one placement, from its lowest to its highest key; over it the shift into it, in semitones.",
  above: () => 14,
  joined: false,
  sign: (note, at) =>
    letterSign(
      note,
      at,
      note.finger === null ? "–" : String(note.finger),
      note.fingerSource === "printed" ? " printed" : "",
    ),
  behind: (paper) => paper.index.analysis.placements.flatMap((placement) => reachOf(paper, placement)),
  over: slides,
  key: (index) => [
    {
      sign: s("rect", { class: "bracket-field", x: -11, y: -6, width: 22, height: 12, rx: 2 }),
      words: "reach",
    },
    ...(index.analysis.placements.some((one) => !one.fitsChord)
      ? [
          {
            sign: s(
              "g",
              { class: "bracket stray" },
              s("rect", { class: "bracket-field", x: -11, y: -6, width: 22, height: 12, rx: 2 }),
              s("path", { class: "bracket-edge", d: "M-11,6V-6" }),
            ),
            words: "does not fit its chord",
          },
        ]
      : []),
    { sign: s("rect", { class: "anchor", x: -3, y: -3, width: 6, height: 6 }), words: "anchor finger's key" },
    { sign: s("text", { class: "shift", y: 4, "text-anchor": "middle" }, "+5"), words: "shift" },
    ...(index.solo.some((note) => note.slide !== null)
      ? [{ sign: s("path", { class: "slide", d: "M-9,4C-9,-7 9,-7 9,4m-3,-4l3,4l3,-4" }), words: "slide" }]
      : []),
    ...(index.solo.some((note) => note.fingerSource === "printed")
      ? [
          {
            sign: s("text", { class: "sign letter printed", y: 4, "text-anchor": "middle" }, "3"),
            words: "printed in the score",
          },
        ]
      : []),
  ],
  table: (index) => ({
    columns: ["Placement", "Chord", "Chorus", "Bar", "Anchor", "Keys", "Notes", "Shift (semitones)", "Fits"],
    rows: index.analysis.placements.map((placement) => placementRow(index, placement)),
  }),
};

/** "third-and-steps, index finger on the fifth" */
export function placementName(placement: AccountPlacement): string {
  const degree = placement.anchorDegree ? `on the ${degreeName(placement.anchorDegree)}` : "off the chord";
  return `${placement.shape}, ${fingerName(placement.anchorFinger)} ${degree}`;
}

/** "+5", "−3": semitones up and down. */
export const shiftFigure = (semitones: number): string =>
  semitones === 0 ? "0" : `${semitones > 0 ? "+" : "−"}${Math.abs(semitones)}`;

const notesOf = (index: AccountIndex, placement: AccountPlacement) =>
  index.between(placement.firstNote, placement.lastNote).filter((note) => note.placement === placement.id);

function reachOf(paper: Paper, placement: AccountPlacement): Mark[] {
  const { index, layout, store } = paper;
  const notes = notesOf(index, placement);
  const keys = [...notes.map((note) => note.pitch), placement.anchorPitch];
  const inField = (pitch: number) => layout.depth(Math.min(layout.high, Math.max(layout.low, pitch)));
  const [top, bottom] = [inField(Math.max(...keys)) - 7, inField(Math.min(...keys)) + 7];
  return piecesOf(paper, notes).map((piece) => {
    const [x, width] = [(piece.x1 - 3).toFixed(1), (piece.x2 - piece.x1 + 6).toFixed(1)];
    const anchor = piece.y + inField(placement.anchorPitch);
    const element = s(
      "g",
      {
        class: `bracket${placement.fitsChord ? "" : " stray"}`,
        "data-placement": placement.id,
        "data-anchor": placement.anchorPitch,
        "data-notes": piece.notes.length,
      },
      s("rect", { class: "bracket-field", x, y: piece.y + top, width, height: bottom - top, rx: 3 }),
      s("path", { class: "bracket-edge", d: `M${x},${piece.y + bottom}V${piece.y + top}` }),
      s("rect", { class: "anchor", x: Number(x) - 2.5, y: anchor - 2.5, width: 5, height: 5 }),
      piece.begins && placement.shift !== null && placement.shift !== 0
        ? s("text", { class: "shift", x, y: piece.y + Math.max(11, top - 3) }, shiftFigure(placement.shift))
        : null,
    );
    element.addEventListener("click", (event) => {
      event.stopPropagation();
      store.select({ kind: "placement", placement: placement.id });
    });
    return { element, notes: notes.map((note) => note.id), y: piece.y };
  });
}

function slides(paper: Paper): Mark[] {
  const { index, layout } = paper;
  const rowOf = (note: AccountNote) => layout.cell(note.chorus, note.bar)?.y;
  return index.solo.flatMap((note) => {
    const other = note.slide === null ? undefined : index.note.get(note.slide);
    const y = rowOf(note);
    // A slide over the end of a row would run across the page.
    if (other === undefined || y === undefined || !paper.shows(y) || rowOf(other) !== y) return [];
    const [from, to] = [layout.point(note), layout.point(other)];
    if (from === null || to === null) return [];
    const top = Math.min(from.y, to.y) - 15;
    const d = `M${from.x.toFixed(1)},${(from.y - 7).toFixed(1)}C${from.x.toFixed(1)},${top.toFixed(1)} ${to.x.toFixed(1)},${top.toFixed(1)} ${to.x.toFixed(1)},${(to.y - 7).toFixed(1)}`;
    return [{ element: s("path", { class: "slide", d }), notes: [note.id, other.id], y }];
  });
}

function placementRow(index: AccountIndex, placement: AccountPlacement): (string | number)[] {
  const notes = notesOf(index, placement);
  const keys = notes.map((note) => note.pitch);
  return [
    placementName(placement),
    withAccidentals(placement.chord ?? ""),
    placement.chorus,
    placement.bar,
    index.keyName(placement.anchorPitch, notes),
    keys.length > 0
      ? `${index.keyName(Math.min(...keys), notes)} to ${index.keyName(Math.max(...keys), notes)}`
      : "",
    placement.notes,
    placement.shift === null ? "" : shiftFigure(placement.shift),
    placement.fitsChord ? "yes" : "no",
  ];
}
