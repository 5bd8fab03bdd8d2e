/**
 * Pushes in performed swing: the eighth before the bar line falls late in its beat, by 3:2 up to 3:1 [lit: Friberg &
 * Sundström 2002 for the range], and is the next chord's all the same. The performance is written as MIDI bytes and
 * goes the whole way through reading, hands and alignment.
 */
import { writeMidi } from "midi-file";
import { describe, expect, it } from "vitest";
import { analyse } from "../../src/analyse.ts";
import { pitchOf } from "./notation.ts";

const PPQ = 480;
const BARS = 8;

/** One bar of eighths over G7 after a rest that pushes the third of C, one over C that pushes the third of G7; again and again. */
const LINE = [
  ["B4@1.5", "G4@2", "A4@2.5", "B4@3", "D5@3.5", "F5@4", "E5@4.5"],
  ["G4@2", "C5@2.5", "E5@3", "D5@3.5", "C5@4", "B4@4.5"],
];
const BASS = ["G2@1", "C3@1"];

/** Ticks of a beat whose off-beat comes after `ratio` to 1 of the beat. */
function tickOf(bar: number, beat: number, ratio: number): number {
  const whole = Math.floor(beat);
  const part = beat === whole ? 0 : ratio / (ratio + 1);
  return Math.round((bar * 4 + whole - 1 + part) * PPQ);
}

function performance(ratio: number): Uint8Array {
  const events: { tick: number; on: boolean; pitch: number; channel: number }[] = [];
  for (let bar = 0; bar < BARS; bar++) {
    const play = (word: string, channel: number, ticks: number) => {
      const [name, beat] = word.split("@") as [string, string];
      const tick = tickOf(bar, Number(beat), ratio);
      events.push({ tick, on: true, pitch: pitchOf(name), channel });
      events.push({ tick: tick + ticks, on: false, pitch: pitchOf(name), channel });
    };
    for (const word of LINE[bar % 2]!) play(word, 0, word.endsWith("4.5") ? 400 : 120);
    play(BASS[bar % 2]!, 1, 4 * PPQ - 10);
  }
  events.sort((a, b) => a.tick - b.tick || Number(a.on) - Number(b.on));
  let last = 0;
  const track = events.map(({ tick, on, pitch, channel }) => {
    const deltaTime = tick - last;
    last = tick;
    return { deltaTime, type: on ? "noteOn" : "noteOff", channel, noteNumber: pitch, velocity: on ? 80 : 0 };
  });
  return Uint8Array.from(
    writeMidi({
      header: { format: 0, numTracks: 1, ticksPerBeat: PPQ },
      tracks: [
        [
          { deltaTime: 0, type: "setTempo", microsecondsPerBeat: 500_000 },
          {
            deltaTime: 0,
            type: "timeSignature",
            numerator: 4,
            denominator: 4,
            metronome: 24,
            thirtyseconds: 8,
          },
          ...track,
          { deltaTime: 0, type: "endOfTrack" },
        ] as never[],
      ],
    }),
  );
}

describe("chords pushed by a swung eighth", () => {
  it.each([1, 1.5, 2, 2.5, 3])("at %s:1 are heard as anticipations", (ratio) => {
    const { notes } = analyse(performance(ratio), "key: C\nG7 | C", { method: "click" });
    const pushed = notes.filter((note) => note.solo && note.beat === 4.5);
    expect(pushed).toHaveLength(BARS);
    const roles = pushed.map((note) => `${note.spelling} over ${note.chord}: ${note.lineRole}`);
    expect(new Set(roles)).toEqual(new Set(["E5 over G7: anticipation", "B4 over C: anticipation"]));
    expect(pushed[0]!.account).toMatch(/the third of (the )?C\b/);
  });

  it("and the eighths that belong to their chord are not", () => {
    const { notes } = analyse(performance(2), "key: C\nG7 | C", { method: "click" });
    const others = notes.filter((note) => note.solo && note.beat !== 4.5);
    expect(others.map((note) => note.lineRole)).not.toContain("anticipation");
  });
});
