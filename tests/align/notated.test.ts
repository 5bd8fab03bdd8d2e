import { describe, expect, test } from "vitest";
import { align, placeNotes } from "../../src/align/index.ts";
import { chordSpans, parseChart } from "../../src/chart/index.ts";
import type { Note, SourceBar, Take } from "../../src/take/index.ts";

const CHART = parseChart("key: C\nmeter: 4/4\n| C7 | F7 | C7 G7 | C7 |");
const AUTO = { method: "auto", tempo: null, anchors: [] } as const;

/** A notated take: bars as given, one note of the line at each tick; 12 ticks to a quarter note, 120 a minute. */
function notated(bars: readonly [number, boolean][], ticks: readonly number[]): Take {
  let tick = 0;
  const sourceBars: SourceBar[] = bars.map(([length, implicit], i) => {
    const bar = { number: String(i + 1), tick, ticks: length, implicit, pass: 0 };
    tick += length;
    return bar;
  });
  const notes: Note[] = ticks.map((at, i) => ({
    id: `n${i + 1}`,
    pitch: 72,
    onset: at / 24,
    duration: 0.2,
    sounding: 0.2,
    velocity: 80,
    tick: at,
    ticks: 6,
    part: "P1",
    printed: null,
  }));
  return {
    format: "musicxml",
    title: null,
    ticksPerQuarter: 12,
    notes,
    parts: [{ id: "P1", name: "", staves: 1, program: null, notes: notes.length }],
    tempos: [{ tick: 0, seconds: 0, quartersPerMinute: 120 }],
    tempoStated: false,
    meters: [{ tick: 0, beats: 4, unit: 4 }],
    keys: [],
    bars: sourceBars,
    chords: [],
    texts: [],
    pedal: [],
    swing: null,
    warnings: [],
  };
}

function placed(take: Take, chart = CHART) {
  const hands = take.notes.map(() => ({ hand: "right", solo: true, margin: 1 }) as const);
  const alignment = align(take, chart, hands, AUTO);
  return { alignment, notes: placeNotes(take, chart, chordSpans(chart), hands, alignment) };
}

const whole = (n: number): [number, boolean][] => Array.from({ length: n }, () => [48, false]);

describe("a notated source", () => {
  test("gives positions exactly from its ticks, triplets too", () => {
    const { alignment, notes } = placed(notated(whole(4), [0, 4, 8, 12, 18, 21, 48, 66]));
    expect(alignment.method).toBe("notated");
    expect(notes.map((note) => note.position)).toEqual([0, 1 / 3, 2 / 3, 1, 1.5, 1.75, 4, 5.5]);
    expect(notes.map((note) => note.bar)).toEqual([1, 1, 1, 1, 1, 1, 2, 2]);
    expect(notes.map((note) => note.timing).every((timing) => timing === null)).toBe(true);
    expect(notes.at(-1)!.beat).toBe(2.5);
  });

  test("takes an uncounted first bar as a pickup into the first chorus", () => {
    const { alignment, notes } = placed(notated([[12, true], ...whole(4)], [0, 6, 12]));
    expect(notes.map(({ chorus, bar, beat, position }) => [chorus, bar, beat, position])).toEqual([
      [1, 0, 4, -1],
      [1, 0, 4.5, -0.5],
      [1, 1, 1, 0],
    ]);
    expect(alignment.pickupBeats).toBe(1);
    // The pickup hears the form's last chord, as if the form came round.
    expect(notes[0]!.span).toBe(chordSpans(CHART).length - 1);
  });

  test("counts choruses from its bars, and leaves a short rest of bars as a tag", () => {
    const { alignment, notes } = placed(notated(whole(9), [0, 192, 384]));
    expect(alignment.choruses).toBe(2);
    expect(notes.map(({ chorus, bar }) => [chorus, bar])).toEqual([
      [1, 1],
      [2, 1],
      [2, 5],
    ]);
    expect(notes[2]!.span).toBe(chordSpans(CHART).length - 1);
    expect(alignment.bars).toHaveLength(9);
  });

  test("joins the two halves of a bar that a repeat sign has cut", () => {
    const { alignment, notes } = placed(
      notated(
        [
          [48, false],
          [24, false],
          [24, true],
          [48, false],
          [48, false],
        ],
        [48, 72, 96],
      ),
    );
    expect(notes.map(({ bar, beat }) => [bar, beat])).toEqual([
      [2, 1],
      [2, 3],
      [3, 1],
    ]);
    expect(alignment.warnings).toEqual([]);
  });

  test("says so when its bars are not the chart's", () => {
    const { alignment, notes } = placed(
      notated(
        [
          [48, false],
          [72, false],
          [48, false],
          [48, false],
        ],
        [48, 84, 120],
      ),
    );
    expect(alignment.warnings.map((warning) => warning.code)).toEqual(["bar-length-differs"]);
    expect(notes.map(({ bar, beat }) => [bar, beat])).toEqual([
      [2, 1],
      [2, 3],
      [3, 1],
    ]);
  });

  test("changes chord on the beat of the chart", () => {
    const { notes } = placed(notated(whole(4), [96, 119, 120]));
    const spans = chordSpans(CHART);
    expect(notes.map((note) => spans[note.span]!.symbol)).toEqual(["C7", "C7", "G7"]);
  });
});
