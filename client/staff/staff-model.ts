/** The staff of a take: asked for, loading, being engraved or drawn, and which of its written notes are lit. */

import { beatInFigures, withAccidentals } from "../../src/words/index.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import type { SelectionStore } from "../shell/selection.ts";
import type { Table } from "../views/view.ts";

export interface StaffState {
  readonly stage: "not asked" | "loading" | "engraving" | "drawn";
  /** Why it could not be engraved; null while nothing is wrong. */
  readonly refused: unknown;
  /** Pages of a long solo that stand, and pages of the whole, while others follow; null where none do. */
  readonly pages: { readonly done: number; readonly all: number } | null;
}

export const NOT_ASKED: StaffState = { stage: "not asked", refused: null, pages: null };
export const LOADING: StaffState = { stage: "loading", refused: null, pages: null };
export const ENGRAVING: StaffState = { stage: "engraving", refused: null, pages: null };
export const DRAWN: StaffState = { stage: "drawn", refused: null, pages: null };

export function notEngraved(refused: unknown): StaffState {
  return { stage: "not asked", refused, pages: null };
}

/** A page of a long solo stands: it can be read while the others follow. */
export function pageStands(done: number, all: number): StaffState {
  return { ...DRAWN, pages: done < all ? { done, all } : null };
}

/** What is said on the page, and on paper, while there are more pages to come. */
export function pagesWords({ pages }: StaffState): string {
  return pages === null
    ? ""
    : `${pages.done} of ${pages.all} pages are engraved; the others follow. Print when all of them stand.`;
}

/** Whether its place is kept on the page: the engraver fills the width that it finds. */
export function hasRoom({ stage }: StaffState): boolean {
  return stage === "engraving" || stage === "drawn";
}

/** Solo notes of the selection. */
export function chosenNotes(index: AccountIndex, { selection }: Pick<SelectionStore, "selection">): string[] {
  return [...(index.notesOf(selection) ?? [])];
}

/** The note that sounds, else the one that is pointed at; none when there is neither. */
export function passingNote({ playing, hover }: Pick<SelectionStore, "playing" | "hover">): string[] {
  const note = playing ?? hover;
  return note === null ? [] : [note];
}

/** The sounding note that a written one belongs to: a tied note is written several times, and numbered. */
export function soundingNote(written: string): string {
  return written.replace(/-\d+$/, "");
}

export function staffTable(index: AccountIndex): Table {
  return {
    columns: [
      "Note",
      "Chorus",
      "Bar",
      "Beat",
      "Length (quarter notes)",
      "Finger",
      "Chord",
      "Against the chord",
    ],
    rows: index.solo.map((note) => [
      withAccidentals(note.spelling),
      note.chorus,
      note.bar,
      note.beat === null ? "no beat" : beatInFigures(note.beat),
      note.beats === null ? "no beat" : beatInFigures(note.beats),
      note.finger ?? "",
      withAccidentals(note.chord ?? "none"),
      note.role ?? "",
    ]),
  };
}
