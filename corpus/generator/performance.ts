import type { CompingNote } from "./comping.ts";
import type { LineNote } from "./line.ts";
import type { Random } from "./random.ts";
import type { TakeSpec } from "./spec.ts";

/** A key press. */
export interface Played {
  readonly onset: number;
  /** Seconds. */
  readonly duration: number;
  readonly pitch: number;
  readonly velocity: number;
}

export interface Performance {
  /** Parallel to the line. */
  readonly solo: readonly Played[];
  /** Parallel to the comping. */
  readonly comping: readonly Played[];
  /** Start of each bar from the first bar line on, and the end of the last, in seconds. */
  readonly barStarts: readonly number[];
}

/** Seconds that a finger rests on the black key before it falls. */
const GRACE = 0.075;

/**
 * Plays what was meant: bars in time or out of it, beats swung, onsets with a hand's small errors, phrases shaped by
 * touch. `lead` is the time of the first bar line in seconds.
 */
export function perform(
  spec: TakeSpec,
  solo: readonly LineNote[],
  comping: readonly CompingNote[],
  bars: number,
  lead: number,
  random: Random,
): Performance {
  const barStarts = playBars(spec, bars, lead, random);
  const ratios = Array.from({ length: bars * 4 + 8 }, () =>
    Math.max(1, spec.time.swing + random.normal(spec.time.swingSpread)),
  );
  const seconds = (at: number) => {
    const swung = swing(at, ratios);
    const bar = Math.min(bars - 1, Math.max(0, Math.floor(swung / 4)));
    const [start, end] = [barStarts[bar]!, barStarts[bar + 1]!];
    return start + ((swung - bar * 4) / 4) * (end - start);
  };
  const jitter = () => random.normal(spec.time.jitter);
  // The recorder starts with the count: nothing can sound before it.
  const onsets = solo.map((note) => Math.max(0, seconds(note.at) + spec.time.behind + jitter()));
  for (let i = 0; i < solo.length; i++)
    if (solo[i]!.grace) onsets[i] = onsets[i + 1]! - GRACE - 0.01 * random.next();
  for (let i = 1; i < onsets.length; i++) onsets[i] = Math.max(onsets[i]!, onsets[i - 1]! + 0.03);
  return {
    solo: solo.map((note, i) => {
      const meant = note.grace
        ? onsets[i + 1]! - onsets[i]!
        : seconds(note.at + note.length) - seconds(note.at);
      const next = onsets[i + 1] ?? Number.POSITIVE_INFINITY;
      const touch = note.length >= 1 ? 0.88 + 0.08 * random.next() : 0.86 + 0.12 * random.next();
      const held = note.grace ? meant * 0.95 : meant * touch;
      return {
        onset: onsets[i]!,
        duration: Math.max(0.04, Math.min(held, next - onsets[i]! - 0.004)),
        pitch: note.pitch,
        velocity: touchOf(note, solo, i, random),
      };
    }),
    comping: playComping(spec, comping, seconds, random),
    barStarts,
  };
}

function playBars(spec: TakeSpec, bars: number, lead: number, random: Random): number[] {
  const starts = [lead];
  let mood = 0;
  for (let bar = 0; bar < bars; bar++) {
    const minutes = (starts[bar]! - lead) / 60;
    mood = 0.6 * mood + random.normal(spec.time.wander);
    const drift = spec.time.kind === "free" ? 1 + (spec.time.drift / 100) * minutes : 1;
    // In free time a phrase hesitates before every fourth bar line.
    const breath = spec.time.kind === "rubato" ? (bar % 4 === 3 ? 1.35 : 0.9 + 0.25 * random.next()) : 1;
    const tempo = spec.time.tempo * drift * (1 + mood);
    starts.push(starts[bar]! + (240 / tempo) * breath);
  }
  return starts;
}

/** Moves the off-beat of a beat to where the ratio puts it; triplets stay even. */
function swing(at: number, ratios: readonly number[]): number {
  const beat = Math.floor(at + 1e-6);
  const inside = at - beat;
  if (Math.abs(inside - 0.5) > 0.01) return at;
  const ratio = ratios[Math.max(0, beat)] ?? 1;
  return beat + ratio / (1 + ratio);
}

/** Phrases swell to their highest part and fall; off-beats speak a little louder than the beats after them. */
function touchOf(note: LineNote, solo: readonly LineNote[], i: number, random: Random): number {
  let first = i;
  while (first > 0 && solo[first - 1]!.phrase === note.phrase) first--;
  let last = i;
  while (last + 1 < solo.length && solo[last + 1]!.phrase === note.phrase) last++;
  const through = last === first ? 0.5 : (i - first) / (last - first);
  const arch = 14 * (1 - (2 * through - 1.1) ** 2);
  const offBeat = Math.abs((note.at % 1) - 0.5) < 0.01 ? 6 : 0;
  const level = note.grace ? 58 : 70 + arch + offBeat + random.normal(4);
  return Math.round(Math.min(120, Math.max(28, level)));
}

function playComping(
  spec: TakeSpec,
  comping: readonly CompingNote[],
  seconds: (at: number) => number,
  random: Random,
): Played[] {
  const played = comping.map((note) => {
    const onset = seconds(note.at) + random.normal(spec.time.jitter * 0.8) + note.roll * 0.055;
    const length = seconds(note.at + note.length) - seconds(note.at);
    return {
      onset: Math.max(0, onset),
      duration: Math.max(0.08, length * 0.94),
      pitch: note.pitch,
      velocity: Math.round(Math.min(90, Math.max(30, 54 + random.normal(4)))),
    };
  });
  // A key must be let go before it can be struck again.
  const next = new Map<number, number>();
  for (let i = played.length - 1; i >= 0; i--) {
    const note = played[i]!;
    const again = next.get(note.pitch);
    if (again !== undefined && note.onset + note.duration > again - 0.01) {
      played[i] = { ...note, duration: Math.max(0.02, again - 0.01 - note.onset) };
    }
    next.set(note.pitch, note.onset);
  }
  return played;
}
