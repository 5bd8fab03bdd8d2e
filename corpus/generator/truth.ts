import type { Finger, Hand } from "../../src/take/index.ts";
import type { CompingNote } from "./comping.ts";
import type { Harmony } from "./harmony.ts";
import type { LineNote } from "./line.ts";
import type { Performance } from "./performance.ts";
import type { PlantedMotif } from "./solo.ts";
import type { TakeSpec } from "./spec.ts";

/** What is known of a solo note because we played it. */
export interface TrueNote {
  readonly pitch: number;
  /** Seconds in the file; for notation at the stated tempo. */
  readonly onset: number;
  readonly chorus: number;
  /** Bar of the chart; 0 in a pickup. */
  readonly bar: number;
  /** As meant, unswung; 1 is the first beat. A grace note has the beat of the note that it falls into. */
  readonly beat: number;
  readonly hand: Hand;
  readonly finger: Finger;
  readonly placement: {
    readonly shape: string;
    readonly anchorFinger: Finger;
    readonly anchorPitch: number;
  } | null;
  /** True for the black key of a slide. */
  readonly grace: boolean;
  /** From 1. */
  readonly phrase: number;
  readonly motif: string | null;
}

export interface Truth {
  readonly choruses: number;
  readonly pickupBeats: number;
  readonly time: TakeSpec["time"]["kind"] | "notated";
  /** Quarter notes a minute at the start; null in rubato. */
  readonly tempo: number | null;
  readonly swing: number | null;
  /** Seconds. */
  readonly bars: readonly {
    readonly chorus: number;
    readonly bar: number;
    readonly start: number;
    readonly end: number;
  }[];
  readonly motifs: readonly {
    readonly id: string;
    readonly fingers: readonly Finger[];
    /** Indices into `notes` of each statement's first note. */
    readonly statements: readonly number[];
  }[];
  readonly phrases: readonly {
    readonly phrase: number;
    readonly firstNote: number;
    readonly lastNote: number;
  }[];
  /** The line, in time order. */
  readonly notes: readonly TrueNote[];
  /** The other hand. */
  readonly comping: readonly { readonly pitch: number; readonly onset: number }[];
}

export function truthOf(
  spec: TakeSpec,
  harmony: Harmony,
  line: readonly LineNote[],
  comping: readonly CompingNote[],
  motif: PlantedMotif,
  performance: Performance | null,
): Truth {
  const notation = spec.format === "musicxml";
  const lead = notation ? Math.ceil(spec.pickup) : 0;
  const notated = (at: number) => ((at + lead) * 60) / spec.time.tempo;
  const notes = line.map((note, i): TrueNote => {
    const chorus = Math.max(0, Math.floor(note.at / harmony.chorusBeats + 1e-9));
    const inside = note.at - chorus * harmony.chorusBeats;
    const bar = Math.floor(inside / 4 + 1e-9);
    return {
      pitch: note.pitch,
      onset: round(performance === null ? notated(note.at) : performance.solo[i]!.onset),
      chorus: chorus + 1,
      bar: bar + 1,
      beat: round(inside - bar * 4 + 1),
      hand: "right",
      finger: note.finger,
      placement:
        note.place === null
          ? null
          : {
              shape: note.place.shape,
              anchorFinger: note.place.anchorFinger,
              anchorPitch: note.place.anchorPitch,
            },
      grace: note.grace,
      phrase: note.phrase,
      motif: note.motif,
    };
  });
  const starts =
    performance?.barStarts ??
    Array.from({ length: harmony.bars * spec.choruses + 1 }, (_, k) => notated(k * 4));
  return {
    choruses: spec.choruses,
    pickupBeats: spec.pickup,
    time: notation ? "notated" : spec.time.kind,
    tempo: spec.time.kind === "rubato" ? null : spec.time.tempo,
    swing: notation || spec.time.kind === "rubato" ? null : spec.time.swing,
    bars: Array.from({ length: harmony.bars * spec.choruses }, (_, k) => ({
      chorus: Math.floor(k / harmony.bars) + 1,
      bar: (k % harmony.bars) + 1,
      start: round(starts[k]!),
      end: round(starts[k + 1]!),
    })),
    motifs: statements(notes, motif),
    phrases: phrasesOf(notes),
    notes,
    comping: comping.map((note, i) => ({
      pitch: note.pitch,
      onset: round(performance === null ? notated(note.at) : performance.comping[i]!.onset),
    })),
  };
}

/** Microseconds are enough, and print the same everywhere. */
function round(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}

function statements(notes: readonly TrueNote[], motif: PlantedMotif): Truth["motifs"] {
  const starts: number[] = [];
  notes.forEach((note, i) => {
    if (note.motif !== null && (notes[i - 1]?.phrase !== note.phrase || notes[i - 1]?.motif === null))
      starts.push(i);
  });
  return starts.length === 0 ? [] : [{ id: motif.id, fingers: motif.fingers, statements: starts }];
}

function phrasesOf(notes: readonly TrueNote[]): Truth["phrases"] {
  const phrases: { phrase: number; firstNote: number; lastNote: number }[] = [];
  notes.forEach((note, i) => {
    const current = phrases[phrases.length - 1];
    if (current?.phrase === note.phrase) current.lastNote = i;
    else phrases.push({ phrase: note.phrase, firstNote: i, lastNote: i });
  });
  return phrases;
}

/** One line for each note, so that changes can be read. */
export function truthText(truth: Truth): string {
  const list = (items: readonly unknown[]) =>
    items.length === 0 ? "[]" : `[\n    ${items.map((item) => JSON.stringify(item)).join(",\n    ")}\n  ]`;
  const { bars, motifs, phrases, notes, comping, ...head } = truth;
  const fields = [
    ...Object.entries(head).map(([name, value]) => `${JSON.stringify(name)}: ${JSON.stringify(value)}`),
    `"bars": ${list(bars)}`,
    `"motifs": ${list(motifs)}`,
    `"phrases": ${list(phrases)}`,
    `"notes": ${list(notes)}`,
    `"comping": ${list(comping)}`,
  ];
  return `{\n  ${fields.join(",\n  ")}\n}\n`;
}
