import type { ChordSpan } from "../../src/chart/index.ts";
import { chordSpans, formChart, parseChart } from "../../src/chart/index.ts";
import { labelNotes, sentenceFor } from "../../src/harmony/index.ts";
import type { PlacedNote } from "../../src/take/index.ts";
import type { Bench } from "./types.ts";

const NOTES = 100_000;

/** A seeded walk over the keyboard in eighth notes, with chords now and then: all rules are asked. */
function wander(spans: readonly ChordSpan[], rubato: boolean): PlacedNote[] {
  let seed = 7;
  const draw = (n: number) => {
    seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
    return Math.floor((seed / 2_147_483_648) * n);
  };
  const chorus = spans.at(-1)!.start + spans.at(-1)!.beats;
  const notes: PlacedNote[] = [];
  let pitch = 65;
  let step = 0;
  while (notes.length < NOTES) {
    pitch = Math.min(90, Math.max(50, pitch + [-4, -2, -1, -1, 0, 1, 1, 2, 5][draw(9)]!));
    const position = step / 2;
    const place = position % chorus;
    const span = spans.findLastIndex((each) => each.start <= place);
    for (const below of draw(8) === 0 ? [0, 4, 12] : [0]) {
      notes.push({
        id: `n${notes.length + 1}`,
        pitch: pitch - below,
        onset: position / 2,
        duration: 0.24,
        sounding: 0.24,
        velocity: 80,
        tick: step * 240,
        ticks: 240,
        part: "p",
        printed: null,
        hand: "right",
        solo: true,
        chorus: 1 + Math.floor(position / chorus),
        bar: 1 + Math.floor(place / 4),
        beat: rubato ? null : 1 + (place % 4),
        position: rubato ? null : position,
        beats: rubato ? null : 0.48,
        timing: 0,
        span,
      });
    }
    step++;
  }
  return notes;
}

function seconds(work: () => unknown): number {
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < 3; round++) {
    const start = performance.now();
    work();
    best = Math.min(best, performance.now() - start);
  }
  return best / 1000;
}

export const bench: Bench = {
  name: `harmony: labels of ${NOTES.toLocaleString("en")} notes`,
  run() {
    const lines: string[] = [];
    const open = parseChart("key: C\nN.C. | N.C. | N.C. | N.C.");
    for (const [name, chart, rubato] of [
      ["a blues in F", formChart("blues-basic", "F"), false],
      ["a blues in F, rubato", formChart("blues-basic", "F"), true],
      ["no chords at all", open, false],
    ] as const) {
      const spans = chordSpans(chart);
      const notes = wander(spans, rubato);
      const floor = seconds(() => JSON.stringify(notes));
      const labels = labelNotes(notes, chart, spans);
      const label = seconds(() => labelNotes(notes, chart, spans));
      const half = notes.slice(0, NOTES / 2);
      const halved = seconds(() => labelNotes(half, chart, spans));
      const say = seconds(() =>
        notes.map((note, i) =>
          sentenceFor(note, labels[i]!, {
            target: null,
            targetLabel: null,
            span: spans[note.span]!,
            nextSpan: spans[(note.span + 1) % spans.length]!,
            meter: chart.meter,
            finger: null,
            slide: false,
          }),
        ),
      );
      lines.push(
        `${name}: labels ${(label / floor).toFixed(1)} and sentences ${(say / floor).toFixed(1)} times the writing of the notes as JSON ` +
          `(${label.toFixed(2)} s, ${say.toFixed(2)} s); half the notes take ${(halved / label).toFixed(2)} of the time`,
      );
    }
    return lines;
  },
};
