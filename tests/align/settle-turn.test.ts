/** Known beats are laid where the whole take fits best, whatever a bar or two of it are played over. */
import { describe, expect, it } from "vitest";
import { layOnBeats, lineEvidence } from "../../src/align/lattice/lay-line.ts";
import { strokesOf } from "../../src/align/lattice/line-features.ts";
import { parseChart } from "../../src/chart/index.ts";
import { takeOf } from "./human-solos.ts";

const EIGHT = parseChart("key: C\n| Cmaj7 | A7 | Dm7 | G7 | Ebmaj7 | Ab7 | Dbmaj7 | B7 |");

/** A line of chord tones in eighths through two choruses, with some bars (from 0) half a step too high. */
function laid(aside: readonly number[]) {
  const notes = EIGHT.bars.concat(EIGHT.bars).flatMap(({ chords }, bar) => {
    const { rootClass, tones } = chords[0]!.chord!;
    return [0, 1, 2, 3, 2, 1, 0, 1].map((tone, k) => ({
      pitch: 60 + rootClass + tones[tone]!.semitones + (aside.includes(bar) ? 1 : 0),
      onset: 2 + (4 * bar + k / 2) * 0.5,
      duration: 0.22,
      tick: 0,
      part: "t1",
    }));
  });
  const take = takeOf(notes, {});
  const hands = take.notes.map(() => ({ hand: "right" as const, solo: true, margin: 1 }));
  const times = Float64Array.from({ length: 80 }, (_, k) => k * 0.5);
  const evidence = lineEvidence(take.notes, strokesOf(take.notes, hands), EIGHT);
  return layOnBeats(evidence, times, null)!;
}

describe("beats that are known", () => {
  it("lie where every bar fits", () => {
    const { firstBeat, sure } = laid([]);
    expect(firstBeat).toBe(0);
    // Of equal notes nothing but the chords tells which beat is the first.
    expect(Math.min(...sure)).toBeGreaterThan(0.98);
  });

  it("lie there though three bars of sixteen are played half a step beside the chart", () => {
    const { firstBeat, sure } = laid([2, 7, 12]);
    expect(firstBeat).toBe(0);
    expect(Math.min(...sure)).toBeGreaterThan(0.9);
  });
});
