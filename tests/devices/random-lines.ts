/** Random lines: pitches and rhythm by lot, as a floor that no device may rise from. */
import type { Chart, ChordSpan } from "../../src/chart/index.ts";
import type { PlacedNote } from "../../src/take/index.ts";

const NOTES = 64;

/** Sixty-four notes in eighths with rests, half of them random between C4 and A5, half of the lines a random walk. */
export function randomLine(chance: () => number, chart: Chart, spans: readonly ChordSpan[]) {
  const chorus = spans.at(-1)!.start + spans.at(-1)!.beats;
  const walks = chance() < 0.5;
  const notes: PlacedNote[] = [];
  const phrases: { firstNote: string; lastNote: string }[] = [];
  let position = 0;
  let pitch = 70;
  while (notes.length < NOTES) {
    const isRest = chance() < 0.12;
    if (!isRest) {
      pitch = walks
        ? Math.min(81, Math.max(60, pitch + Math.round((chance() - 0.5) * 10)))
        : 60 + Math.floor(chance() * 22);
      const place = position % chorus;
      const id = `n${notes.length + 1}`;
      const before = notes.at(-1);
      const opens = before === undefined || position - before.position! > 0.5;
      if (opens) phrases.push({ firstNote: id, lastNote: id });
      else phrases[phrases.length - 1] = { ...phrases.at(-1)!, lastNote: id };
      const bar = Math.floor(place / chart.meter.beats);
      notes.push({
        id,
        pitch,
        onset: position / 2,
        duration: 0.25,
        sounding: 0.25,
        velocity: 80,
        tick: position * 480,
        ticks: 240,
        part: "p",
        printed: null,
        hand: "right",
        solo: true,
        chorus: Math.floor(position / chorus) + 1,
        bar: bar + 1,
        beat: place - bar * chart.meter.beats + 1,
        position,
        beats: 0.5,
        timing: 0,
        span: spans.findLastIndex(({ start }) => start <= place),
      });
    }
    position += isRest ? 1 : 0.5;
  }
  return { notes, phrases };
}
