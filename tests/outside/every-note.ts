/** Labels of music of every kind, that was not written for this program. */
import { optionsSchema } from "../../src/account.ts";
import { align, placeNotes } from "../../src/align/index.ts";
import { chartOfTake, chordSpans, formChart } from "../../src/chart/index.ts";
import { labelNotes } from "../../src/harmony/index.ts";
import { HARMONIC_ROLES, LINE_ROLES } from "../../src/harmony/roles.ts";
import { readTake } from "../../src/ingest/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { Problem, type Take } from "../../src/take/index.ts";
import { bytesOf, type ForeignFile } from "./foreign-files.ts";

const blues = formChart("blues-basic", "C");
/** One steady tempo for recordings: where the bars fall is not in question here, and it is quickly found. */
const AS_WRITTEN = optionsSchema.parse({});
const STEADY = optionsSchema.parse({ method: "click", tempo: 120 });

/** Files that are no music, or of no use, are refused by the reader, which its own tests hold. */
export function taken(file: ForeignFile): Take | null {
  try {
    return readTake(bytesOf(file), { name: file.name });
  } catch (error) {
    if (error instanceof Problem) return null;
    throw error;
  }
}

/**
 * Notes whose labels are not whole. Takes with chord symbols are heard against them, the others against a blues, which
 * most of them contradict: the labels must hold out against that too.
 */
export function unlabelled(take: Take): string[] {
  const chart = chartOfTake(take) ?? blues;
  const spans = chordSpans(chart);
  const options = take.format === "midi" ? STEADY : AS_WRITTEN;
  const { hands } = partHands(take, options);
  const placed = placeNotes(take, chart, spans, hands, align(take, chart, hands, options));
  const labels = labelNotes(placed, chart, spans);
  return placed.flatMap((note, index) => {
    const { spelling, degree, role, lineRole } = labels[index]!;
    const whole =
      /^[A-G](b|#)*-?\d+$/.test(spelling) &&
      degree !== null &&
      HARMONIC_ROLES.includes(role!) &&
      (!note.solo || LINE_ROLES.includes(lineRole!));
    return whole ? [] : [note.id];
  });
}
