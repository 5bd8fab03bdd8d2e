/**
 * Where a take begins over the last bars of its form: who goes on into the form was led in by them, and chorus 1 comes
 * next; who begins sooner is inside the form. [practice: the last four bars of sixteen, the last eight of thirty-two]
 */
import { describe, expect, it } from "vitest";
import { align } from "../../src/align/index.ts";
import { parseChart } from "../../src/chart/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { type PlayedNote, takeOf } from "./human-solos.ts";

const SIXTEEN = parseChart(
  "key: C\n| Cmaj7 | A7 | Dm7 | G7 | Ebmaj7 | Abmaj7 | Dbmaj7 | G7 | Cm7 | F7 | Bbmaj7 | Ebmaj7 | Am7b5 | D7 | Gm7 | C7 |",
);
const BARS = 16;
const BEAT = 60 / 140;
/** Chord tones by eighths of a bar: root, third, fifth, seventh and back. */
const UP_AND_DOWN = [0, 1, 2, 3, 2, 1, 0, 1];

/** A line of chord tones over shells on a click, from the first beat of a bar (from 1) to the end of the form after it. */
function begunIn(bar: number) {
  const notes: PlayedNote[] = [];
  for (let b = bar - 1; b < 2 * BARS; b++) {
    const { chord } = SIXTEEN.bars[b % BARS]!.chords[0]!;
    const from = 4 * (b - bar + 1) + 8;
    const strike = (semitones: number, at: number, beats: number, part: string) => {
      const onset = (from + at) * BEAT + 0.006 * Math.sin(2.4 * notes.length);
      const pitch = (part === "t1" ? 60 : 48) + (chord!.rootClass % 12) + semitones;
      notes.push({ pitch, onset, duration: beats * BEAT, tick: Math.round((onset / BEAT) * 480), part });
    };
    UP_AND_DOWN.forEach((tone, k) => {
      strike(chord!.tones[tone]!.semitones, k / 2, 0.4, "t1");
    });
    for (const { semitones } of chord!.tones.slice(0, 3)) strike(semitones, 0, 3.8, "t2");
  }
  const tempos = [{ tick: 0, seconds: 0, quartersPerMinute: 140 }];
  const take = takeOf(notes, { tempos, stated: true, meterStated: true });
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  return align(take, SIXTEEN, hands, { method: "auto", tempo: null, anchors: [] });
}

describe("a take that begins over the last bars of its form", () => {
  it.each([13, 14, 16])("is led in by them from bar %d on", (bar) => {
    const { bars, warnings, pickupBeats } = begunIn(bar);
    expect(warnings.map(({ code }) => code)).not.toContain("begins-inside-form");
    expect(bars[0]).toMatchObject({ chorus: 1, bar: 1 });
    expect(pickupBeats).toBe(4 * (BARS + 1 - bar));
  });

  it.each([9, 11, 12])("is inside the form from bar %d on", (bar) => {
    const { bars, warnings } = begunIn(bar);
    expect(warnings.map(({ code }) => code)).toContain("begins-inside-form");
    expect(bars[0]).toMatchObject({ chorus: 1, bar });
  });
});
