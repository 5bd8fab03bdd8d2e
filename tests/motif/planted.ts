/**
 * Invented lines to measure discovery by: notes of a first-order Markov chain (noise, by construction without ideas),
 * into which motifs are planted at known places, plainly, transposed, or with one note changed, added or left out.
 * Everything follows from a seed.
 */
import type { AccountMotif } from "../../src/account.ts";
import type { Degree } from "../../src/chart/index.ts";
import type { MotifNote } from "../../src/motif/index.ts";
import type { Finger } from "../../src/take/index.ts";
import type { OccurrenceSet } from "./establishment.ts";

export type Planting = "none" | "exact" | "transposed" | "varied";

export interface PlantedTake {
  readonly notes: readonly MotifNote[];
  /** Of each planted motif, the index of the first note and the number of notes of every occurrence. */
  readonly planted: readonly (readonly { readonly start: number; readonly notes: number }[])[];
}

export interface PlantedShape {
  readonly notes: number;
  readonly motifs: number;
  /** Notes of a motif, and how often each is played: from, to. */
  readonly length: readonly [number, number];
  readonly returns: readonly [number, number];
  /** Semitones within which most steps of the chain lie: 3 leaps about, 1.5 goes by step. */
  readonly spread: number;
}

/** Mulberry32: a small seeded generator of numbers in [0, 1). */
export function generator(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const SCALE = [0, 2, 3, 4, 5, 7, 9, 10];
/** Degrees by semitones above the root. */
const PLAIN_DEGREES: readonly Degree[] = "1 b9 9 b3 3 11 #11 5 b13 13 b7 7".split(" ") as Degree[];
/** Roots of a twelve-bar blues, semitones above the tonic. */
const ROOTS = [0, 0, 0, 0, 5, 5, 0, 0, 7, 5, 0, 0];

export function plantedTake(seed: number, planting: Planting, shape: PlantedShape): PlantedTake {
  const random = generator(seed * 7919 + 17);
  const pitches = chain(random, shape.spread);
  const motifs = planting === "none" ? 0 : shape.motifs;
  const noise = pitches.play(shape.notes, pitches.start());
  const events: { at: number; motif: number; pitches: number[] }[] = [];
  for (let motif = 0; motif < motifs; motif++) {
    const idea = pitches.play(between(random, shape.length), pitches.start());
    const returns = between(random, shape.returns);
    for (let k = 0; k < returns; k++) {
      events.push({
        at: Math.floor(random() * noise.length),
        motif,
        pitches: k === 0 ? idea : altered(idea, planting, random),
      });
    }
  }
  events.sort((a, b) => a.at - b.at);
  const line: number[] = [];
  const planted: { start: number; notes: number }[][] = Array.from({ length: motifs }, () => []);
  let e = 0;
  for (let i = 0; i <= noise.length; i++) {
    for (; e < events.length && (events[e]!.at === i || i === noise.length); e++) {
      planted[events[e]!.motif]!.push({ start: line.length, notes: events[e]!.pitches.length });
      line.push(...events[e]!.pitches);
    }
    if (i < noise.length) line.push(noise[i]!);
  }
  const inside = new Set(
    planted.flat().flatMap((p) => Array.from({ length: p.notes - 1 }, (_, k) => p.start + k)),
  );
  return { notes: asNotes(line, inside, random), planted };
}

function between(random: () => number, [from, to]: readonly [number, number]): number {
  return from + Math.floor(random() * (to - from + 1));
}

/** A chain over the tones of a scale, near tones likelier, with every likelihood bent at random. */
function chain(random: () => number, spread: number) {
  const states: number[] = [];
  for (let octave = 48; octave < 84; octave += 12) for (const tone of SCALE) states.push(octave + tone);
  const rows = states.map((from) =>
    states.map(
      (to) => Math.exp(-Math.abs(to - from) / spread) * -Math.log(1 - random()) * (to === from ? 0.3 : 1),
    ),
  );
  const draw = (weights: readonly number[]) => {
    let left = random() * weights.reduce((s, w) => s + w, 0);
    for (let i = 0; i < weights.length; i++) {
      left -= weights[i]!;
      if (left <= 0) return i;
    }
    return weights.length - 1;
  };
  return {
    start: () => Math.floor(states.length * (0.3 + 0.4 * random())),
    play(length: number, from: number): number[] {
      const played: number[] = [];
      for (let state = from, i = 0; i < length; i++) {
        played.push(states[state]!);
        state = draw(rows[state]!);
      }
      return played;
    },
  };
}

function altered(idea: readonly number[], planting: Planting, random: () => number): number[] {
  const shift = 1 + Math.floor(random() * 6);
  const moved = idea.map((pitch) => pitch + shift * (shift % 2 === 0 ? 1 : -1));
  switch (planting) {
    case "none":
    case "exact":
      return [...idea];
    case "transposed":
      return moved;
    case "varied": {
      const at = Math.floor(random() * idea.length);
      const kind = Math.floor(random() * 3);
      const other = () => 1 + Math.floor(random() * 4);
      const sign = random() < 0.5 ? 1 : -1;
      if (kind === 0) return moved.map((pitch, i) => (i === at ? pitch + sign * other() : pitch));
      if (kind === 1) return [...moved.slice(0, at), moved[at]! + sign * other(), ...moved.slice(at)];
      return moved.filter((_, i) => i !== at);
    }
  }
}

/** Gives pitches a rhythm (with rests, but not inside a motif), chords, degrees and fingers. */
function asNotes(pitches: readonly number[], inside: ReadonlySet<number>, random: () => number): MotifNote[] {
  let position = 0;
  let length = 0.5;
  let finger: Finger = 2;
  let phrase = 1;
  return pitches.map((pitch, i) => {
    const start = position;
    if (random() < 0.35) length = [0.25, 1 / 3, 0.5, 0.5, 0.5, 1][Math.floor(random() * 6)]!;
    position += length;
    const onset = start * 0.4;
    const bar = Math.floor(start / 4);
    const root = ROOTS[bar % 12]!;
    finger = (1 + Math.floor(random() * 5)) as Finger;
    const own = phrase;
    if (random() < 0.06 && !inside.has(i)) {
      position = Math.ceil(position) + 1;
      phrase++;
    }
    return {
      id: `n${i + 1}`,
      pitch,
      onset,
      duration: length * 0.38,
      sounding: length * 0.38,
      velocity: 80,
      tick: Math.round(start * 480),
      ticks: Math.round(length * 480),
      part: "t1",
      printed: null,
      hand: "right",
      solo: true,
      chorus: 1 + Math.floor(bar / 12),
      bar: 1 + (bar % 12),
      beat: 1 + (start % 4),
      position: start,
      beats: length * 0.95,
      timing: 0,
      span: 0,
      degree: PLAIN_DEGREES[(((pitch - root) % 12) + 12) % 12]!,
      finger,
      phrase: `p${own}`,
    };
  });
}

export interface DiscoveryScore {
  /** Planted occurrences, and those of them that one idea a motif finds (three notes in four at least in common). */
  readonly planted: number;
  readonly found: number;
  /** Ideas told, and those of them of which half the occurrences were planted. */
  readonly told: number;
  readonly right: number;
}

/** Occurrences of the planted motifs, and of what was told, as sets of notes, for the published scores. */
export function occurrenceSets(
  take: PlantedTake,
  motifs: readonly AccountMotif[],
): { truth: OccurrenceSet[]; found: OccurrenceSet[] } {
  const place = new Map(take.notes.map((note, i) => [note.id, i]));
  const span = (start: number, end: number) =>
    new Set(Array.from({ length: end - start }, (_, k) => start + k));
  return {
    truth: take.planted.map((motif) => motif.map(({ start, notes }) => span(start, start + notes))),
    found: motifs.map((motif) =>
      motif.occurrences.map(({ firstNote, lastNote }) =>
        span(place.get(firstNote)!, place.get(lastNote)! + 1),
      ),
    ),
  };
}

/** Compares what was told with what was planted, note by note. */
export function scoreDiscovery(take: PlantedTake, motifs: readonly AccountMotif[]): DiscoveryScore {
  const place = new Map(take.notes.map((note, i) => [note.id, i]));
  const told = motifs.map((motif) =>
    motif.occurrences.map(({ firstNote, lastNote }) => ({
      start: place.get(firstNote)!,
      notes: place.get(lastNote)! - place.get(firstNote)! + 1,
    })),
  );
  const hits = (planted: PlantedTake["planted"][number], idea: (typeof told)[number]) =>
    planted.filter((p) => idea.some((t) => likeness(p, t) >= 0.75)).length;
  const all = take.planted.flat();
  return {
    planted: all.length,
    found: take.planted.reduce((sum, p) => sum + Math.max(0, ...told.map((idea) => hits(p, idea))), 0),
    told: told.length,
    right: told.filter(
      (idea) => idea.filter((t) => all.some((p) => likeness(p, t) >= 0.5)).length >= idea.length / 2,
    ).length,
  };
}

/** Notes in common over the notes of the longer one (Collins's cardinality score). */
function likeness(
  a: { readonly start: number; readonly notes: number },
  b: { readonly start: number; readonly notes: number },
): number {
  const common = Math.min(a.start + a.notes, b.start + b.notes) - Math.max(a.start, b.start);
  return Math.max(0, common) / Math.max(a.notes, b.notes);
}
