import { type PlayNote, type PlayTrack, playMidi } from "../export/play-midi.ts";
import { type Backing, backingOf } from "./backing.ts";
import type { Exercise, TempoStep } from "./exercise.ts";

/** General MIDI percussion: high and low wood block. */
const ACCENT = 76;
const CLICK = 77;
const DRUMS = 9;
const BASS_PROGRAM = 32;

/** A slide's black key sounds so long before its white key, in quarter-note beats. */
const GRACE = 0.12;

export interface PlayAlong {
  /** Quarter notes a minute. */
  readonly tempo: number;
  readonly click: TempoStep["click"];
  readonly backing: Backing;
  /** Bars of click before the exercise begins. */
  readonly countIn: number;
  /** False leaves the right hand to the student. */
  readonly rightHand: boolean;
}

/** The exercise as a MIDI file of format 1: right hand, bass or shells, and click, to play along with. */
export function exerciseMidi(exercise: Exercise, play: PlayAlong): Uint8Array {
  const tracks = exerciseTracks(exercise, play);
  return playMidi({ title: exercise.title, tempo: play.tempo, meter: exercise.meter, tracks });
}

/** How long the exercise lasts with its count-in, in quarter notes. */
export function exerciseBeats({ bars, meter }: Exercise, { countIn }: PlayAlong): number {
  return ((countIn + bars.length) * meter.beats * 4) / meter.unit;
}

/** Right hand, bass or shells, and click of the exercise, from the first click of its count-in on. */
export function exerciseTracks(exercise: Exercise, play: PlayAlong): PlayTrack[] {
  const barBeats = (exercise.meter.beats * 4) / exercise.meter.unit;
  const start = play.countIn * barBeats;
  const end = exerciseBeats(exercise, play);
  const tracks: PlayTrack[] = [];
  if (play.rightHand)
    tracks.push({
      name: "Right hand",
      channel: 0,
      program: 0,
      notes: rightHand(exercise, barBeats, start),
    });
  const bass = backingOf(exercise, play.backing).map((note) => ({
    ...note,
    at: note.at + start,
    velocity: 62,
  }));
  if (bass.length > 0) {
    tracks.push({
      name: "Left hand",
      channel: 1,
      program: play.backing === "walking bass" ? BASS_PROGRAM : 0,
      notes: bass,
    });
  }
  tracks.push({ name: "Click", channel: DRUMS, program: 0, notes: clicks(exercise, play, start, end) });
  return tracks;
}

function rightHand(exercise: Exercise, barBeats: number, start: number): PlayNote[] {
  return exercise.bars.flatMap((bar, i) =>
    bar.notes.map((note): PlayNote => {
      const at = start + i * barBeats + note.at;
      const from = swung(exercise, at);
      if (note.slide === "from")
        return { at: Math.max(0, from - GRACE), beats: GRACE, pitch: note.pitch, velocity: 60 };
      const until = swung(exercise, at + note.beats);
      return { at: from, beats: (until - from) * 0.95, pitch: note.pitch, velocity: 80 };
    }),
  );
}

/** Off-beats come as late as in the take: a ratio of 2 puts them after two thirds of the beat. */
function swung({ swingRatio }: Exercise, at: number): number {
  const beat = Math.floor(at + 1e-9);
  if (swingRatio === null || Math.abs(at - beat - 0.5) >= 0.01) return at;
  return beat + swingRatio / (swingRatio + 1);
}

/** The count-in clicks every beat; after it the step of the plan decides. */
function clicks(exercise: Exercise, play: PlayAlong, start: number, end: number): PlayNote[] {
  const unit = 4 / exercise.meter.unit;
  const presses: PlayNote[] = [];
  for (let at = 0; at < end - 1e-9; at += unit) {
    const beat = Math.round(at / unit) % exercise.meter.beats;
    const counting = at < start - 1e-9;
    if (!counting && play.click === "none") continue;
    if (!counting && play.click === "two and four" && beat % 2 === 0) continue;
    presses.push({ at, beats: 0.1, pitch: beat === 0 ? ACCENT : CLICK, velocity: beat === 0 ? 100 : 80 });
  }
  return presses;
}
