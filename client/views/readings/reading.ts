/** What a reading of the chorus page is: the same bars and notes, and what they show. */
import type { AccountNote } from "../../../src/account.ts";
import type { AccountIndex } from "../../shell/account-index.ts";
import { s } from "../../shell/dom.ts";
import type { ReadingName, SelectionStore } from "../../shell/selection.ts";
import type { ChorusLayout } from "../chorus-layout.ts";
import type { KeyEntry, Table } from "../view.ts";

export interface Paper {
  readonly index: AccountIndex;
  readonly layout: ChorusLayout;
  readonly store: SelectionStore;
  /** Whether the row whose fields have their top here is drawn now: of a long solo only what is seen is. */
  shows(y: number): boolean;
}

/** Something drawn beside the notes; it stands out while one of its notes is chosen. */
export interface Mark {
  readonly element: SVGElement;
  readonly notes: readonly string[];
  /** Top of the row that it belongs to. */
  readonly y: number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Reading {
  readonly name: ReadingName;
  /** The word on its button. */
  readonly word: string;
  /** What is to be seen, in a sentence or two, with units. */
  units(index: AccountIndex): string;
  /** Why this take has nothing to be read so; null where it has. */
  empty?(index: AccountIndex): string | null;
  /** Pixels over the notes of each field, and right of the last one. */
  above?(index: AccountIndex): number;
  right?(width: number): number;
  behind?(paper: Paper): readonly Mark[];
  over?(paper: Paper): readonly Mark[];
  /** Names at the left edge of a row whose top is `y`; the octaves where it has none of its own. */
  axis?(paper: Paper, y: number): readonly SVGElement[];
  /** Where a note stands when not at its pitch. */
  at?(paper: Paper, note: AccountNote): Point | null;
  sign(note: AccountNote, at: Point, radius: number, index: AccountIndex): SVGElement;
  /** Notes joined to a line. */
  readonly joined: boolean;
  key(index: AccountIndex): readonly KeyEntry[];
  table(index: AccountIndex): Table;
}

/** One piece of a stretch of notes, as far as it stands in one line of one chorus. */
export interface Piece {
  readonly notes: readonly AccountNote[];
  readonly x1: number;
  readonly x2: number;
  /** Top of the field. */
  readonly y: number;
  /** First and last piece of the stretch. */
  readonly begins: boolean;
  readonly ends: boolean;
}

/** The stretch cut where a line of the page ends; its pieces in rows that are drawn. */
export function piecesOf({ layout, shows }: Paper, notes: readonly AccountNote[]): Piece[] {
  const groups: { y: number; notes: AccountNote[] }[] = [];
  for (const note of notes) {
    const cell = layout.cell(note.chorus, note.bar);
    if (cell === null) continue;
    const last = groups.at(-1);
    if (last?.y === cell.y) last.notes.push(note);
    else groups.push({ y: cell.y, notes: [note] });
  }
  return groups.flatMap((group, i) => {
    if (!shows(group.y)) return [];
    const places = group.notes.map((note) => layout.point(note)!.x);
    const [x1, x2] = [Math.min(...places) - 4, Math.max(...places) + 4];
    return {
      notes: group.notes,
      x1,
      x2: Math.max(x2, x1 + 8),
      y: group.y,
      begins: i === 0,
      ends: i === groups.length - 1,
    };
  });
}

/** A level for each piece, so that those of one line do not run through each other. */
export function levelsOf(pieces: readonly Pick<Piece, "x1" | "x2" | "y">[]): number[] {
  const ends = new Map<number, number[]>();
  const order = pieces.map((_, i) => i).sort((a, b) => pieces[a]!.x1 - pieces[b]!.x1);
  const levels: number[] = [];
  for (const i of order) {
    const { x1, x2, y } = pieces[i]!;
    const line = ends.get(y) ?? [];
    let level = line.findIndex((end) => end + 3 < x1);
    if (level < 0) level = line.length;
    line[level] = x2;
    ends.set(y, line);
    levels[i] = level;
  }
  return levels;
}

/** What every sign of a note carries, for the eye of a test and of a script. */
export const dataOf = (note: AccountNote) => ({
  "data-note": note.id,
  "data-pitch": note.pitch,
  "data-role": note.role ?? "",
  "data-line-role": note.lineRole ?? "",
});

/** A note as a letter or a figure. */
export function letterSign(note: AccountNote, at: Point, text: string, more = ""): SVGElement {
  return s(
    "text",
    {
      ...dataOf(note),
      class: `sign letter${more}`,
      x: at.x.toFixed(1),
      y: (at.y + 4).toFixed(1),
      "text-anchor": "middle",
    },
    text,
  );
}
