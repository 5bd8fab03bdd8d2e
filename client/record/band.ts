/** Count-in, click and backing to play to, going round the form until stopped. */
import type { Chart } from "../../src/chart/types.ts";
import { type Backing, backingOf, type ClickOn } from "../sound/backing.ts";
import { createPiano } from "../sound/piano.ts";
import { click } from "../sound/player.ts";
import { clockRuns, momentOf } from "./heard-clock.ts";

export interface Band {
  /** `performance.now()` at which the start of the count-in is heard. */
  readonly startedAt: number;
  /** Seconds since the start of the count-in. */
  now(): number;
  strike(pitch: number, velocity: number): void;
  stop(): void;
}

export interface BandWishes {
  readonly chart: Chart;
  readonly quartersPerMinute: number;
  readonly countInBars: number;
  readonly backing: ReadonlySet<Backing>;
  readonly clickOn: ClickOn;
  /** Keys that the player's own notes may need. */
  readonly ownKeys: readonly number[];
}

const AHEAD = 0.3;

export async function startBand(wishes: BandWishes): Promise<Band> {
  const { chart, quartersPerMinute, countInBars, backing, clickOn } = wishes;
  const context = new AudioContext();
  await context.resume();
  const piano = createPiano(context, context.destination);
  const bar = ((chart.meter.beats * 4) / chart.meter.unit) * (60 / quartersPerMinute);
  const beat = bar / chart.meter.beats;
  const chorus = chart.bars.length * bar;
  const notes = backingOf(
    chart,
    chart.bars.map((one, i) => ({ bar: one.number, start: i * bar, end: (i + 1) * bar })),
    backing,
    { steady: true, clickOn },
  );
  const sounding = notes.filter((note) => note.kind !== "click").map((note) => note.pitch);
  // Without a network a key that was never heard here stays silent; the click and the recording need none.
  await piano.ready([...sounding, ...wishes.ownKeys]).catch(() => {});
  await clockRuns(context);
  const zero = context.currentTime + 0.15;
  const startedAt = momentOf(context, zero);
  for (let i = 0; i < countInBars * chart.meter.beats; i++) {
    click(context, zero + i * beat, i % chart.meter.beats === 0);
  }
  let next = 0;
  let round = 0;
  const timer = setInterval(() => {
    if (notes.length === 0) return;
    for (;;) {
      const note = notes[next]!;
      const time = zero + countInBars * bar + round * chorus + note.onset;
      if (time > context.currentTime + AHEAD) break;
      if (note.kind === "click") click(context, time, note.pitch === 1);
      else piano.strike(note.pitch, note.velocity, time, note.duration);
      next++;
      if (next === notes.length) {
        next = 0;
        round++;
      }
    }
  }, 40);
  return {
    startedAt,
    now: () => (performance.now() - startedAt) / 1000,
    strike: (pitch, velocity) => {
      piano.strike(pitch, velocity, context.currentTime, 0.9);
    },
    stop() {
      clearInterval(timer);
      void context.close();
    },
  };
}
