import { describe, expect, it } from "vitest";
import { takeEvents } from "../../src/align/events.ts";
import { parseChart } from "../../src/chart/index.ts";
import { melodicLine, type Note, ONE_STROKE, struckTogether } from "../../src/take/index.ts";

const MS = 0.001;

function note(pitch: number, onset: number): Note {
  return {
    id: `${pitch}-${onset}`,
    pitch,
    onset,
    duration: 0.4,
    velocity: 80,
    part: "P1",
    tick: 0,
    ticks: 1,
    printed: null,
  } as Note;
}

/** How many strokes a take of these notes has for the search of the beat. */
function strokes(notes: readonly Note[]): number {
  const chart = parseChart("key: F\nF7 | Bb7 | F7 | F7");
  return takeEvents(
    notes,
    notes.map(() => ({ hand: "right", solo: true }) as never),
    chart,
  ).count;
}

describe("keys struck together", () => {
  // The melody of a chord leads by about 30 ms: Goebl, Melody lead in piano performance, JASA 110, 2001 [memory].
  it("are one step of the line where the melody leads by 30 ms", () => {
    const chord = [note(76, 1), note(72, 1 + 12 * MS), note(67, 1 + 29 * MS)];
    expect(melodicLine(chord).map((step) => step.note.pitch)).toEqual([76]);
    expect(struckTogether(-30 * MS)).toBe(true);
  });

  // A crushed grace is struck 40 to 100 ms before its note. [practice]
  it("are two steps where one is crushed into the other", () => {
    const grace = [note(75, 1), note(76, 1 + 40 * MS)];
    expect(melodicLine(grace).map((step) => step.note.pitch)).toEqual([75, 76]);
    expect(struckTogether(40 * MS)).toBe(false);
  });

  // Two hands are up to 45 ms apart in expressive playing, and a chord is still one stroke of the beat. [memory]
  it("are one stroke of the beat with two hands that are not quite together", () => {
    expect(strokes([note(48, 1), note(76, 1 + 44 * MS)])).toBe(1);
  });

  // 60 / 240 / 4 seconds.
  it("are two strokes as sixteenths at 240 quarter notes a minute", () => {
    expect(strokes([note(74, 1), note(76, 1 + 62.5 * MS)])).toBe(2);
    expect(ONE_STROKE).toBeLessThan(62.5 * MS);
  });
});
