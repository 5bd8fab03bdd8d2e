/**
 * Two invented hands on one track, in the ways in which hands come near each other. Both hands are physically
 * possible: no hand holds more than a tenth (a wider roll lets its lowest keys go and leaves them to the pedal), and a
 * key that one hand holds is not struck by the other: the line steps aside, or the comping hand lets go before.
 */
import { type Random, seeded } from "../align/simulator/random.ts";

export const MEETINGS = ["walking", "shells", "meeting", "crossing", "rolled", "stride"] as const;
export type Meeting = (typeof MEETINGS)[number];

export interface MeetingNote {
  readonly pitch: number;
  readonly onset: number;
  readonly duration: number;
  readonly velocity: number;
}

interface Played {
  pitch: number;
  onset: number;
  duration: number;
  velocity: number;
  right: boolean;
}

/**
 * Standard deviation of single onsets, seconds (motor noise; Wing & Kristofferson 1973, Repp 2005 [memory]), and by
 * how much the line is louder than the comping hand, in MIDI velocities: some 10 to 20 with trained players in
 * written music (Goebl 2001 [memory]), less in jazz; the simulator takes a fifth of that to be no help.
 */
const MOTOR = 0.008;
const LOUDER = { low: 0, high: 5 };
const LOUDNESS_SPREAD = 10;
/** Widest reach of a hand, semitones: 15 for thumb and little finger, 16 for large hands (Parncutt et al. 1997). */
const REACH = 16;

/** Notes of two hands, sorted by onset, and which of them are the right hand's. */
export function meetingHands(kind: Meeting, seed: number): { notes: MeetingNote[]; right: boolean[] } {
  const random = seeded(seed * 7 + 1000 * MEETINGS.indexOf(kind));
  const beat = random.between(0.3, 0.8);
  const beats = 64;
  const louder = random.between(LOUDER.low, LOUDER.high);
  const loud = (more: number) =>
    Math.round(Math.min(120, Math.max(20, 70 + more + random.normal(LOUDNESS_SPREAD))));
  const all: Played[] = [
    ...comping(kind, beats, random).map((note) => ({
      pitch: note.pitch,
      onset: note.at * beat + (note.late ?? 0) + random.normal(MOTOR),
      duration: note.length * beat,
      velocity: loud(0),
      right: false,
    })),
    ...melody(kind, beats, random).map((note) => ({
      pitch: note.pitch,
      onset: note.at * beat + random.normal(MOTOR),
      duration: note.length * beat,
      velocity: loud(louder),
      right: true,
    })),
  ];
  const possible = possibleHands(all);
  return {
    notes: possible.map(({ pitch, onset, duration, velocity }) => ({ pitch, onset, duration, velocity })),
    right: possible.map((note) => note.right),
  };
}

interface Written {
  readonly pitch: number;
  /** Beats. */
  readonly at: number;
  readonly length: number;
  /** Seconds after the beat, in a roll. */
  readonly late?: number;
}

function melody(kind: Meeting, beats: number, random: Random): Written[] {
  const notes: Written[] = [];
  // The line of hands that meet comes down into the comping hand's octave and goes up again.
  // A hand is crossed to reach what the other cannot: the line stays an octave below the answers.
  const [low, high] = kind === "meeting" ? [57, 79] : kind === "crossing" ? [60, 76] : [62, 86];
  let pitch = kind === "meeting" ? 62 : 70;
  let direction = 1;
  for (let eighth = 0; eighth < beats * 2; eighth++) {
    if (random.chance(0.2)) continue;
    pitch += direction * random.pick([1, 1, 2, 2, 3, 4]);
    if (random.chance(0.2) || pitch > high || pitch < low)
      direction = pitch > high ? -1 : pitch < low ? 1 : -direction;
    notes.push({ pitch, at: eighth / 2, length: random.between(0.3, 0.51) });
  }
  return notes;
}

function comping(kind: Meeting, beats: number, random: Random): Written[] {
  const notes: Written[] = [];
  let bass = 43;
  for (let b = 0; b < beats; b++) {
    const root = 36 + random.whole(0, 11);
    switch (kind) {
      case "walking":
        bass += random.pick([-5, -2, -1, 1, 2, 3, 5]);
        if (bass < 33) bass += 12;
        if (bass > 55) bass -= 12;
        notes.push({ pitch: bass, at: b, length: 0.9 });
        break;
      case "shells":
        // Root and seventh, or root and tenth, on beat 1 and often once more [practice].
        if (b % 4 === 0 || (b % 4 === 2 && random.chance(0.5))) {
          const length = random.between(0.5, 1.9);
          for (const up of random.pick([
            [0, 10],
            [0, 4, 10],
            [0, 16],
          ]))
            notes.push({ pitch: root + 6 + up, at: b, length });
        }
        break;
      case "meeting":
        // A comping hand around middle C [practice: voicings lie between C3 and E4], in the line's own octave at times.
        if (b % 4 === 0) {
          const lowest = 48 + random.whole(0, 6);
          const length = random.between(0.8, 3.6);
          for (const up of [0, 4, 7, 10]) notes.push({ pitch: lowest + up, at: b, length });
        }
        break;
      case "crossing":
        // Every eighth bar the left hand reaches over the line for a high answer, and comes back.
        if (b % 32 === 28)
          for (const up of [0, 1, 2, 3]) notes.push({ pitch: 88 + up * 2, at: b + up * 0.25, length: 0.2 });
        else if (b % 4 === 0)
          for (const up of [0, 4, 10]) notes.push({ pitch: root + up, at: b, length: 2.5 });
        break;
      case "rolled":
        if (b % 4 === 0) {
          const step = random.between(0.018, 0.045);
          for (const [k, up] of [0, 7, 16, 22].entries())
            notes.push({ pitch: root + (root > 41 ? -12 : 0) + up, at: b, length: 3, late: k * step });
        }
        break;
      case "stride":
        if (b % 2 === 0) notes.push({ pitch: root, at: b, length: 0.7 });
        else
          for (const up of [16, 19, 22])
            notes.push({ pitch: root + up - (root > 43 ? 12 : 0), at: b, length: 0.6 });
        break;
    }
  }
  return notes;
}

/** Keys are let go where a hand cannot hold on to them, or where the other hand wants the same key. */
function possibleHands(notes: readonly Played[]): Played[] {
  const sorted = notes.map((note) => ({ ...note })).sort((a, b) => a.onset - b.onset || a.pitch - b.pitch);
  const held: Played[] = [];
  const kept: Played[] = [];
  for (const note of sorted) {
    for (let k = held.length - 1; k >= 0; k--) {
      if (held[k]!.onset + held[k]!.duration <= note.onset) held.splice(k, 1);
    }
    // Both hands on one key in one stroke: the line steps to the next key.
    while (note.right && held.some((other) => other.pitch === note.pitch && note.onset - other.onset < 0.06))
      note.pitch++;
    for (const other of held) {
      const same = other.pitch === note.pitch;
      const tooFar = other.right === note.right && Math.abs(other.pitch - note.pitch) > REACH;
      if (same || tooFar)
        other.duration = Math.max(0.03, Math.min(other.duration, note.onset - other.onset - 0.01));
    }
    if (held.some((other) => other.pitch === note.pitch && other.onset + other.duration > note.onset))
      continue;
    held.push(note);
    kept.push(note);
  }
  return kept;
}
