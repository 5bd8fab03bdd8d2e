/** An exercise's notation as a table: what to play, bar by bar, for those who do not see the staff. */
import type { Exercise } from "../../src/practice/exercise.ts";
import { beatInFigures, withAccidentals } from "../../src/words/index.ts";
import type { Table } from "./view.ts";

export function exerciseTable(exercise: Exercise): Table {
  const unit = exercise.meter.unit / 4;
  return {
    columns: ["Bar", "Chord", "Beat", "Note", "Length (quarter notes)", "Finger", "To do"],
    rows: exercise.bars.flatMap((bar, i): (string | number)[][] => {
      const chordAt = (at: number) => bar.chords.findLast((chord) => chord.at <= at + 1e-6)?.symbol ?? "";
      const words = bar.words === null ? "" : withAccidentals(bar.words);
      if (bar.notes.length === 0) {
        return [
          [i + 1, bar.chords.map((chord) => withAccidentals(chord.symbol)).join(", "), "", "", "", "", words],
        ];
      }
      return bar.notes.map((note, k) => [
        i + 1,
        withAccidentals(chordAt(note.at)),
        beatInFigures(note.at * unit + 1),
        withAccidentals(note.spelling),
        note.beats === 0 ? "short" : beatInFigures(note.beats),
        note.finger ?? "",
        [k === 0 ? words : "", note.slide === "from" ? "slide to the next key" : ""]
          .filter(Boolean)
          .join("; "),
      ]);
    }),
  };
}
