/**
 * Long notes begin on strong beats (Lerdahl & Jackendoff 1983, metrical preference rule 5a): where nothing but the length
 * of notes tells the bar, they are laid so.
 */
import { describe, expect, it } from "vitest";
import { layOnBeats, lineEvidence } from "../../src/align/lattice/lay-line.ts";
import { strokesOf } from "../../src/align/lattice/line-features.ts";
import { heldRow } from "../../src/align/lattice/line-model.ts";
import { LINE_TABLES } from "../../src/align/lattice/line-tables.ts";
import { parseChart } from "../../src/chart/index.ts";
import { takeOf } from "./human-solos.ts";

const ONE_CHORD = parseChart("key: C\n| C7 | C7 | C7 | C7 | C7 | C7 | C7 | C7 |");
const BEAT = 0.4;

/** Sixteen bars of a half note and four eighths that turn around it, with so many beats of eighths before the first. */
function firstBeatWith(pickup: number): number {
  const played = [
    ...Array.from({ length: 2 * pickup }, (_, k) => ({ beat: k / 2 - pickup, beats: 0.45, up: k % 2 })),
    ...Array.from({ length: 16 }, (_, bar) => [
      { beat: 4 * bar, beats: 1.9, up: 0 },
      ...[0, 1, 0, 1].map((up, k) => ({ beat: 4 * bar + 2 + k / 2, beats: 0.45, up })),
    ]).flat(),
  ];
  const notes = played.map(({ beat, beats, up }) => ({
    pitch: 60 + 2 * up,
    onset: (beat + 8) * BEAT,
    duration: beats * BEAT,
    tick: 0,
    part: "t1",
  }));
  const take = takeOf(notes, {});
  const hands = take.notes.map(() => ({ hand: "right" as const, solo: true, margin: 1 }));
  const times = Float64Array.from({ length: 80 }, (_, k) => k * BEAT);
  const evidence = lineEvidence(take.notes, strokesOf(take.notes, hands), ONE_CHORD);
  return layOnBeats(evidence, times, null)!.firstBeat;
}

describe("long notes", () => {
  it("are heard to begin the bar, however many beats lead into it", () => {
    for (const pickup of [0, 1, 2, 3]) {
      expect((((firstBeatWith(pickup) + pickup) % 4) + 4) % 4, `${pickup} beats before`).toBe(0);
    }
  });

  it("begin on the first beat and the third oftener than on the second and the fourth in what was counted", () => {
    const row = 4 * heldRow(2, 0);
    const [one, two, three, four] = LINE_TABLES.held.slice(row, row + 4) as [number, number, number, number];
    expect(one).toBeGreaterThan(three);
    expect(three).toBeGreaterThan(two);
    expect(three).toBeGreaterThan(four);
  });
});
