/** No note of any music file that a package carries is left without labels: scores, and General MIDI of all kinds. */
import { describe, expect, it } from "vitest";
import {
  type Chart,
  type ChordSpan,
  chartOfTake,
  chordSpans,
  DEGREES,
  formChart,
} from "../../src/chart/index.ts";
import { HARMONIC_ROLES, LINE_ROLES, labelNotes } from "../../src/harmony/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import { type PlacedNote, Problem, type Take } from "../../src/take/index.ts";
import { bytesOf, FOREIGN_FILES, type ForeignFile } from "../outside/foreign-files.ts";

/** Null for what is refused with a reason (a file that is no score). */
function takeOf(file: ForeignFile): Take | null {
  try {
    return readTake(bytesOf(file), { name: file.name });
  } catch (error) {
    if (error instanceof Problem) return null;
    throw error;
  }
}

/** All notes as one solo, where their ticks say, the form round and round: every note has to stand up to every rule. */
function placedByTicks(take: Take, chart: Chart, spans: readonly ChordSpan[]): PlacedNote[] {
  const last = spans.at(-1)!;
  const chorus = last.start + last.beats;
  const bar = chorus / chart.bars.length;
  return take.notes.map((note) => {
    const position = note.tick / take.ticksPerQuarter;
    const place = position % chorus;
    return {
      ...note,
      hand: "right",
      solo: true,
      chorus: 1 + Math.floor(position / chorus),
      bar: 1 + Math.floor(place / bar),
      beat: 1 + ((place % bar) * chart.meter.unit) / 4,
      position,
      beats: note.ticks / take.ticksPerQuarter,
      timing: 0,
      span: spans.findLastIndex((span) => span.start <= place),
    };
  });
}

describe.each(FOREIGN_FILES)("$package $name", (file) => {
  it("has labels on every note", () => {
    const take = takeOf(file);
    if (take === null) return;
    const chart = chartOfTake(take) ?? formChart("two-five-one", "C");
    const spans = chordSpans(chart);
    const placed = placedByTicks(take, chart, spans);
    const labels = labelNotes(placed, chart, spans);
    expect(labels).toHaveLength(take.notes.length);
    const lacking = labels.filter(
      (label, i) =>
        !/^[A-G](#{0,2}|b{0,2})-?\d+$/.test(label.spelling) ||
        !DEGREES.includes(label.degree!) ||
        !HARMONIC_ROLES.includes(label.role!) ||
        !(label.strength > 0 && label.strength <= 1) ||
        (placed[i]!.solo ? !LINE_ROLES.includes(label.lineRole!) : label.lineRole !== null),
    );
    expect(lacking).toEqual([]);
  });
});
