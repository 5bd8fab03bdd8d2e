/** Labels of a line whose pitches are drawn again: what is asked of one role alone is what all labels say. */
import { describe, expect, it } from "vitest";
import { chordSpans, formChart } from "../../src/chart/index.ts";
import { LINE_ROLES, labelNotes, relabeller } from "../../src/harmony/index.ts";
import { chanceFrom } from "../../src/statistics/chance.ts";
import type { PlacedNote } from "../../src/take/index.ts";

const chart = formChart("blues-quick-change", "F");
const spans = chordSpans(chart);

/** Two choruses with rests, notes struck early and notes that overlap: every rule has something to find. */
function lineByChance(seed: number): PlacedNote[] {
  const chance = chanceFrom(seed);
  const notes: PlacedNote[] = [];
  for (let position = 0; position < 96; position += chance() < 0.1 ? 3 : 0.5) {
    if (chance() < 0.15) continue;
    const place = position % 48;
    const span = spans.findLastIndex(({ start }) => start <= place);
    const beats = chance() < 0.2 ? 1 : 0.5;
    notes.push({
      id: `n${notes.length}`,
      pitch: 58 + Math.floor(20 * chance()),
      onset: position / 2,
      duration: beats / 2,
      beats,
      position,
      span,
      chorus: 1 + Math.floor(position / 48),
      bar: 1 + Math.floor(place / 4),
      beat: 1 + (place % 4),
      solo: true,
      printed: null,
    } as PlacedNote);
  }
  return notes;
}

describe("a line drawn again", () => {
  it.each([1, 2, 3, 4, 5, 6])(
    "has the labels and the roles of a line that is read afresh, seed %i",
    (seed) => {
      const notes = lineByChance(seed);
      const relabel = relabeller(notes, chart, spans);
      const chance = chanceFrom(100 + seed);
      for (let draw = 0; draw < 5; draw++) {
        const pitches = notes.map(() => 58 + Math.floor(20 * chance()));
        const afresh = labelNotes(
          notes.map((note, i) => ({ ...note, pitch: pitches[i]! })),
          chart,
          spans,
        );
        const { lineLabels, inRole } = relabel(pitches);
        // Every other note is wanted: the others are left without a label.
        const wanted = Uint8Array.from(notes, (_, i) => i % 2);
        const labels = lineLabels(wanted);
        expect(notes.map((_, i) => labels[i]?.role ?? null)).toEqual(
          afresh.map(({ lineRole }, i) => (wanted[i] === 1 ? lineRole : null)),
        );
        expect(notes.map((_, i) => notes[labels[i]?.target ?? -1]?.id ?? null)).toEqual(
          afresh.map(({ target }, i) => (wanted[i] === 1 ? target : null)),
        );
        for (const role of LINE_ROLES) {
          const places = afresh.flatMap(({ lineRole }, i) => (lineRole === role ? [i] : []));
          expect(
            [...inRole(role)].sort((a, b) => a - b),
            role,
          ).toEqual(places);
        }
      }
    },
  );
});
