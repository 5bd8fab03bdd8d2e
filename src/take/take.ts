import type { Note } from "./note.ts";
import type { Warning } from "./problem.ts";

/** A voice of the source that can be chosen as the solo: a MIDI track and channel, or a MusicXML part. */
export interface Part {
  /** "t1", "t1c2" (track 1, channel 2) in MIDI; the part's `id` in MusicXML. */
  readonly id: string;
  readonly name: string;
  /** Number of staves; 1 for MIDI. */
  readonly staves: number;
  /** General MIDI program, 0 to 127, or null when none is given. */
  readonly program: number | null;
  readonly notes: number;
}

/** From `tick` on, `quartersPerMinute`; `seconds` is the time of `tick`. */
export interface TempoMark {
  readonly tick: number;
  readonly seconds: number;
  readonly quartersPerMinute: number;
}

/** From `tick` on, `beats` of `1/unit` notes in a bar. */
export interface MeterMark {
  readonly tick: number;
  readonly beats: number;
  readonly unit: number;
}

export interface KeyMark {
  readonly tick: number;
  /** -7 (seven flats) to 7 (seven sharps). */
  readonly fifths: number;
  readonly mode: "major" | "minor";
}

/** A bar of notation, as played out (a repeated bar stands twice). Empty for MIDI, whose bar lines are only a claim. */
export interface SourceBar {
  /** As printed, "1", "X1". */
  readonly number: string;
  readonly tick: number;
  readonly ticks: number;
  /** True for pickups and split bars that do not count. */
  readonly implicit: boolean;
  /** 0 the first time through, 1 the second, ... */
  readonly pass: number;
}

/** A chord symbol that the source carries: MusicXML `<harmony>`, or a MIDI text that reads as a chord. */
export interface SourceChord {
  readonly tick: number;
  /** In usual spelling, "Bb7", "F#m7b5", "N.C.". */
  readonly text: string;
}

export interface SourceText {
  readonly tick: number;
  readonly kind: "text" | "lyric" | "marker" | "cue" | "title" | "tempo" | "copyright";
  readonly text: string;
}

/** A change of the sustain pedal. */
export interface PedalMark {
  readonly seconds: number;
  readonly down: boolean;
}

/** Swing as a notated source states it: the long and the short part of a pair of `unit` notes. */
export interface StatedSwing {
  readonly first: number;
  readonly second: number;
  readonly unit: "eighth" | "16th";
}

/** One recorded or notated solo, as read from one file, with the source's own facts. Everything in it is sorted by time. */
export interface Take {
  /** "sound": the notes were heard in a recording, each with a certainty. */
  readonly format: "midi" | "musicxml" | "sound";
  readonly title: string | null;
  readonly ticksPerQuarter: number;
  /** Sorted by onset, then pitch. */
  readonly notes: readonly Note[];
  readonly parts: readonly Part[];
  /** At least one mark, the first at tick 0. */
  readonly tempos: readonly TempoMark[];
  /** True when the source states a tempo itself; false when `tempos` is the format's default. */
  readonly tempoStated: boolean;
  /** At least one mark, the first at tick 0. */
  readonly meters: readonly MeterMark[];
  /** True when the source states a meter itself; false or missing when `meters` is the format's default. */
  readonly meterStated?: boolean;
  readonly keys: readonly KeyMark[];
  readonly bars: readonly SourceBar[];
  readonly chords: readonly SourceChord[];
  readonly texts: readonly SourceText[];
  readonly pedal: readonly PedalMark[];
  readonly swing: StatedSwing | null;
  readonly warnings: readonly Warning[];
}

/** Seconds of a tick by the take's tempo marks; before the first of them by the first. */
export function secondsOfTick(take: Take, tick: number): number {
  const mark = take.tempos.findLast((tempo) => tempo.tick <= tick) ?? take.tempos[0]!;
  return mark.seconds + ((tick - mark.tick) * 60) / (mark.quartersPerMinute * take.ticksPerQuarter);
}

/** The tick of a moment in seconds, by the take's tempo marks. */
export function tickAt(take: Take, seconds: number): number {
  let mark = take.tempos[0]!;
  for (const next of take.tempos) if (next.seconds <= seconds + 1e-9) mark = next;
  const ticks = ((seconds - mark.seconds) * mark.quartersPerMinute * take.ticksPerQuarter) / 60;
  return mark.tick + Math.round(ticks);
}

/** The end of the last key press, in seconds; 0 for a take without notes. */
export function takeSeconds(take: Take): number {
  return take.notes.reduce((end, note) => Math.max(end, note.onset + note.duration), 0);
}
