/** Each note by what it is against its chord. */

import { beatInFigures, withAccidentals } from "../../../src/words/index.ts";
import { ROLE_MARKS, roleClass, roleMark, signPath } from "../../draw/role-marks.ts";
import { printedText } from "../../findings/finding-words.ts";
import { s } from "../../shell/dom.ts";
import type { KeyEntry } from "../view.ts";
import { dataOf, type Reading } from "./reading.ts";

/** The eight signs, the same on every page. */
export const roleKey = (): KeyEntry[] =>
  ROLE_MARKS.map((mark) => ({
    sign: s("path", { class: roleClass(mark.role), d: signPath(mark, 5) }),
    words: mark.word,
  }));

export const roleSign: Reading["sign"] = (note, at, radius) =>
  s("path", {
    ...dataOf(note),
    class: roleClass(note.role),
    d: signPath(roleMark(note.role), radius),
    transform: `translate(${at.x.toFixed(1)},${at.y.toFixed(1)})`,
  });

export const role: Reading = {
  name: "role",
  word: "Role",
  units: () => "The sign of a note: what it is against its chord.",
  joined: true,
  sign: roleSign,
  key: roleKey,
  table: (index) => ({
    columns: ["Note", "Chorus", "Bar", "Beat", "Chord", "Degree", "Role", "Line role", "Finger", "In words"],
    rows: index.solo.map((note) => [
      withAccidentals(note.spelling),
      note.chorus,
      note.bar,
      note.beat === null ? "no beat" : beatInFigures(note.beat),
      withAccidentals(note.chord ?? "none"),
      withAccidentals(note.degree ?? ""),
      note.role ?? "",
      note.lineRole ?? "",
      note.finger ?? "",
      printedText(note.account),
    ]),
  }),
};
