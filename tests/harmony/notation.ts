/**
 * A tiny notation for tests: a chart, two slashes, and the solo bar by bar.
 *
 *   C7 | F7 // D4@2 *Eb4@2.5 E4@3 | F4@1
 *
 * `Eb4@2.5` is a note on beat 2.5 of its bar (in the meter's unit); `:2` after it is its length in quarter-note beats
 * (by default it lasts to the next note, but no more than one beat); `*` marks the note that the test asks about, `~` a grace note; a `<` before a
 * note puts it into the comping hand. Bars beyond the chart are the next chorus. A first bar written as `^` is a pickup.
 */
import { type Chart, type ChordSpan, chordSpans, parseChart } from "../../src/chart/index.ts";
import { labelNotes, type NoteLabel, sentenceFor } from "../../src/harmony/index.ts";
import type { Finger, PlacedNote } from "../../src/take/index.ts";

export interface Written {
  readonly chart: Chart;
  readonly spans: readonly ChordSpan[];
  readonly notes: readonly PlacedNote[];
  /** Indexes of the notes marked with `*`. */
  readonly marked: readonly number[];
}

export interface Setting {
  readonly key?: string;
  readonly idiom?: "blues" | "standard";
  readonly meter?: string;
  /** Quarter notes a minute. */
  readonly tempo?: number;
  /** Choruses that have gone before. */
  readonly later?: number;
  /** Takes beat and position away, as in a rubato take. */
  readonly rubato?: boolean;
}

const CLASSES: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** MIDI number of a name by the keyboard's own arithmetic: C4 is 60, a sharp is one more. */
export function pitchOf(name: string): number {
  const [, letter, marks, octave] = /^([A-G])([#b]*)(-?\d)$/.exec(name)!;
  const alter = [...marks!].reduce((sum, mark) => sum + (mark === "#" ? 1 : -1), 0);
  return CLASSES[letter!]! + alter + 12 * (Number(octave) + 1);
}

export function written(text: string, setting: Setting = {}): Written {
  const [chords, solo] = text.split("//") as [string, string];
  const heading = [
    `key: ${setting.key ?? "C"}`,
    `idiom: ${setting.idiom ?? "standard"}`,
    `meter: ${setting.meter ?? "4/4"}`,
  ];
  const chart = parseChart(`${heading.join("\n")}\n${chords.trim()}`);
  const spans = chordSpans(chart);
  const chorus = spans.at(-1)!.start + spans.at(-1)!.beats;
  const quarter = 4 / chart.meter.unit;
  const bar = chart.meter.beats * quarter;
  const bars = solo.split("|");
  const pickup = bars[0]!.trim().startsWith("^") ? 1 : 0;
  const raw = bars.flatMap((content, at) =>
    content
      .replace("^", "")
      .trim()
      .split(/\s+/)
      .filter((word) => word !== "")
      .map((word) => {
        const [, flags, name, beat, length] = /^([*~<]*)([A-G][#b]*-?\d)@([\d.]+)(?::([\d.]+))?$/.exec(word)!;
        const position = (at - pickup) * bar + (Number(beat) - 1) * quarter;
        return { flags: flags!, name: name!, beat: Number(beat), position, length, bar: at - pickup + 1 };
      }),
  );
  const seconds = 60 / (setting.tempo ?? 120);
  const notes = raw.map((note, i): PlacedNote & { marked: boolean } => {
    const later = raw.slice(i + 1).find((other) => other.position > note.position + 1e-9);
    const gap = later === undefined ? 1 : later.position - note.position;
    const beats = note.length === undefined ? Math.min(1, gap) : Number(note.length);
    const grace = note.flags.includes("~");
    const place = ((note.position % chorus) + chorus) % chorus;
    const span = spans.findLastIndex((each) => each.start <= place + 1e-6);
    const barsInChorus = chart.bars.length;
    const turn = Math.max(0, Math.floor((note.bar - 1) / barsInChorus));
    // A grace note sounds just before the note that it decorates.
    const onset = note.position * seconds + 10 - (grace ? 0.06 : 0);
    return {
      id: `n${i + 1}`,
      pitch: pitchOf(note.name),
      onset,
      duration: grace ? 0.05 : beats * seconds,
      sounding: beats * seconds,
      velocity: 80,
      tick: Math.round(note.position * 480),
      ticks: Math.round(beats * 480),
      part: "p",
      printed: null,
      hand: note.flags.includes("<") ? "left" : "right",
      solo: !note.flags.includes("<"),
      chorus: turn + 1 + (setting.later ?? 0),
      bar: note.bar - turn * barsInChorus,
      beat: setting.rubato ? null : note.beat,
      position: setting.rubato ? null : note.position,
      beats: setting.rubato ? null : beats,
      timing: setting.rubato ? null : 0,
      span,
      marked: note.flags.includes("*"),
    };
  });
  const marked = notes.flatMap((note, i) => (note.marked ? [i] : []));
  return { chart, spans, notes, marked };
}

/** Labels of all notes written. */
export function labelled(text: string, setting: Setting = {}): Written & { readonly labels: NoteLabel[] } {
  const take = written(text, setting);
  return { ...take, labels: labelNotes(take.notes, take.chart, take.spans) };
}

/** The label of the one marked note, with the name of its target. */
export function asked(text: string, setting: Setting = {}): NoteLabel & { readonly leadsTo: string | null } {
  const { labels, marked } = labelled(text, setting);
  const label = labels[marked[0]!]!;
  const target = label.target === null ? null : labels[Number(label.target.slice(1)) - 1]!.spelling;
  return { ...label, leadsTo: target };
}

/** The sentence of the one marked note. */
export function said(text: string, setting: Setting & { finger?: Finger; slide?: boolean } = {}): string {
  const { labels, marked, notes, spans, chart } = labelled(text, setting);
  const at = marked[0]!;
  const target = labels[at]!.target === null ? null : Number(labels[at]!.target!.slice(1)) - 1;
  return sentenceFor(notes[at]!, labels[at]!, {
    target: target === null ? null : notes[target]!,
    targetLabel: target === null ? null : labels[target]!,
    span: spans[notes[at]!.span]!,
    nextSpan: spans[(notes[at]!.span + 1) % spans.length]!,
    meter: chart.meter,
    finger: setting.finger ?? null,
    slide: setting.slide ?? false,
  });
}
