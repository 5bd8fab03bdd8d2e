/** What is due of a passage: at half speed everything comes at twice the time. */
import { describe, expect, it } from "vitest";
import type { SoundEvent } from "../../client/sound/events.ts";
import { type Due, dueAt, type Playhead, type Score, startingAt } from "../../client/sound/playhead.ts";

const event = (at: number, note: string | null): SoundEvent => ({
  ...{ at, note, duration: 0.5, pitch: 60, velocity: 80, kind: note === null ? "click" : "solo" },
});
const SCORE: Score = {
  events: [event(0, "n1"), event(0.5, null), event(1, "n2"), event(2, "n3")],
  ...{ length: 3, speed: 1, loop: false },
};

/** The clock runs from 0 to `to` in steps of `step` seconds, as a timer would call. */
function run(score: Score, to: number, step: number, start = 0): Due[] {
  const all: Due[] = [];
  let head: Playhead | null = startingAt(start);
  for (let k = 0; k * step <= to && head !== null; k++) {
    const due = dueAt(score, head, k * step);
    all.push(due);
    head = due.head;
  }
  return all;
}
const times = (all: readonly Due[]) => all.flatMap(({ strikes }) => strikes.map(({ time }) => time));

describe("a passage that is played", () => {
  it("strikes each event once, at its own time, however the clock is looked at", () => {
    for (const step of [0.025, 0.3, 1, 5]) {
      expect(times(run(SCORE, 10, step))).toEqual([0, 0.5, 1, 2]);
    }
    expect(times(run(SCORE, 10, 0.025, 7))).toEqual([7, 7.5, 8, 9]);
  });

  it("gives events out before they sound, never after, while the clock is looked at often", () => {
    let head: Playhead | null = startingAt(0.12);
    for (let now = 0; head !== null; now += 0.025) {
      const due = dueAt(SCORE, head, now);
      for (const { time } of due.strikes) expect(time).toBeGreaterThan(now);
      head = due.head;
    }
  });

  it("shows a solo note when it sounds, and clicks never", () => {
    expect(dueAt(SCORE, startingAt(0), 1).heard).toEqual(["n1", "n2"]);
    expect(dueAt(SCORE, { start: 0, next: 4, shown: 3 }, 1.99).heard).toEqual([]);
  });

  it("takes twice as long at half speed", () => {
    expect(times(run({ ...SCORE, speed: 0.5 }, 10, 0.025))).toEqual([0, 1, 2, 4]);
    expect(dueAt({ ...SCORE, speed: 0.5 }, startingAt(0), 5.9).head).not.toBeNull();
    expect(dueAt({ ...SCORE, speed: 0.5 }, startingAt(0), 6).head).toBeNull();
  });

  it("begins anew where it is to be looped, without a gap", () => {
    const again = dueAt({ ...SCORE, loop: true }, { start: 0, next: 4, shown: 4 }, 3.01);
    expect(again.head).toEqual({ start: 3, next: 0, shown: 0 });
    expect(times(run({ ...SCORE, loop: true }, 6.5, 0.025)).slice(0, 9)).toEqual([
      0, 0.5, 1, 2, 3, 3.5, 4, 5, 6,
    ]);
  });
});
