import type { Chord } from "../../src/chart/index.ts";
import type { Harmony, Stretch } from "./harmony.ts";
import type { Random } from "./random.ts";
import type { CompingSpec } from "./spec.ts";

/** A note of the left hand as it is meant. */
export interface CompingNote {
  /** Quarter-note beats from the first bar line, unswung. */
  readonly at: number;
  readonly length: number;
  readonly pitch: number;
  /** Order in a rolled chord, 0 for the lowest. */
  readonly roll: number;
}

/** Where the left hand strikes in a bar, and for how long. */
const BARS: readonly (readonly (readonly [number, number])[])[] = [
  [
    [0, 1.5],
    [1.5, 0.5],
  ],
  [
    [0, 1],
    [2.5, 1],
  ],
  [[0, 3]],
  [
    [1, 0.5],
    [3, 0.5],
  ],
  [
    [0, 0.5],
    [1.5, 1.5],
  ],
];

/** The left hand of a whole take. */
export function composeComping(
  spec: CompingSpec,
  harmony: Harmony,
  choruses: number,
  random: Random,
): CompingNote[] {
  const notes: CompingNote[] = [];
  if (spec.style === "none") return notes;
  for (let chorus = 0; chorus < choruses; chorus++) {
    const start = chorus * harmony.chorusBeats;
    harmony.stretches.forEach((stretch, k) => {
      const next = harmony.stretches[(k + 1) % harmony.stretches.length]!;
      notes.push(...comp(spec.style, stretch, next, start + stretch.start, random));
    });
  }
  return notes.sort((a, b) => a.at - b.at || a.pitch - b.pitch);
}

function comp(
  style: CompingSpec["style"],
  stretch: Stretch,
  next: Stretch,
  at: number,
  random: Random,
): CompingNote[] {
  switch (style) {
    case "walking":
      return walk(stretch, next, at, random);
    case "rolled":
      return bars(stretch, at).flatMap((bar) =>
        rolledChord(stretch.chord).map((pitch, roll) => ({
          at: bar.at,
          length: bar.beats * 0.95,
          pitch,
          roll,
        })),
      );
    case "shells":
      return strikes(stretch, at, shell(stretch.chord), random);
    case "guide tones":
      return bassAndGuideTones(stretch, at, random);
    case "none":
      return [];
  }
}

function bars(stretch: Stretch, at: number): { at: number; beats: number }[] {
  const list: { at: number; beats: number }[] = [];
  for (let beat = 0; beat < stretch.beats; beat += 4) {
    list.push({ at: at + beat, beats: Math.min(4, stretch.beats - beat) });
  }
  return list;
}

function strikes(stretch: Stretch, at: number, voicing: readonly number[], random: Random): CompingNote[] {
  return bars(stretch, at).flatMap((bar) =>
    random
      .pick(BARS)
      .filter(([beat], i) => beat < bar.beats && (i === 0 || beat > 0))
      .flatMap(([beat, length]) =>
        voicing.map((pitch) => ({
          at: bar.at + beat,
          length: Math.min(length, bar.beats - beat),
          pitch,
          roll: 0,
        })),
      ),
  );
}

/** Root and seventh (or sixth), with the third where it does not growl. */
function shell(chord: Chord): number[] {
  const root = inRange(chord.rootClass, 40);
  const tones = voices(chord);
  const keys = [root, root + tones.seventh];
  if (root >= 43) keys.push(root + tones.third);
  return keys.filter((key) => key <= 55).sort((a, b) => a - b);
}

/** The root low on the first beat, then the hand moves up to the third and seventh. */
function bassAndGuideTones(stretch: Stretch, at: number, random: Random): CompingNote[] {
  const tones = voices(stretch.chord);
  const root = inRange(stretch.chord.rootClass, 36);
  const upper = [tones.third, tones.seventh]
    .map((tone) => inRange(stretch.chord.rootClass + tone, 45))
    .sort((a, b) => a - b);
  return bars(stretch, at).flatMap((bar) => {
    const beat = bar.beats < 4 ? 1 : random.pick([1.5, 2, 2.5]);
    const length = bar.beats < 4 ? 0.9 : random.pick([0.5, 1]);
    return [
      { at: bar.at, length: 0.9, pitch: root, roll: 0 },
      ...upper.map((pitch) => ({ at: bar.at + beat, length, pitch, roll: 0 })),
    ];
  });
}

function rolledChord(chord: Chord): number[] {
  const root = inRange(chord.rootClass, 36);
  const tones = voices(chord);
  return [root, root + tones.fifth, inRange(chord.rootClass + tones.third, root + 9)].filter(
    (key) => key <= 56,
  );
}

/** One note a beat: root, chord tones, and a half or whole step into the next root. */
function walk(stretch: Stretch, next: Stretch, at: number, random: Random): CompingNote[] {
  const root = inRange(stretch.chord.rootClass, 36);
  const tones = voices(stretch.chord);
  const target = inRange(next.chord.rootClass, 36);
  const inner = [root + tones.third, root + tones.fifth, root + 12 <= 52 ? root + 12 : root];
  const notes: CompingNote[] = [];
  for (let beat = 0; beat < stretch.beats; beat++) {
    const lead = beat === stretch.beats - 1;
    const first = beat % 4 === 0;
    const pitch = lead
      ? target + (random.chance(0.5) ? -1 : random.chance(0.5) ? 1 : 2)
      : first
        ? root
        : random.pick(inner);
    notes.push({ at: at + beat, length: 0.95, pitch: Math.min(56, Math.max(34, pitch)), roll: 0 });
  }
  return notes;
}

function voices(chord: Chord): { third: number; fifth: number; seventh: number } {
  const find = (role: string, otherwise: number) =>
    chord.tones.find((tone) => tone.role === role)?.semitones ?? otherwise;
  return { third: find("third", 4), fifth: find("fifth", 7), seventh: find("seventh", 12) };
}

/** The lowest key of a pitch class from `low` up. */
function inRange(pitchClass: number, low: number): number {
  return low + ((((pitchClass - low) % 12) + 12) % 12);
}
