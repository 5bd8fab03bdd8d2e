/** What a recording may hold beside a piano or instead of it: other instruments, a band, someone who talks, a metronome. */
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { decodeSound } from "../../../server/listen/decode-sound.ts";
import { type PlayTrack, playMidi } from "../../../src/export/play-midi.ts";
import { fullScale } from "../../../src/listen/samples.ts";
import type { Note } from "../../../src/take/index.ts";
import { renderGrand } from "./render.ts";

/** Of Debian's timgm6mb-soundfont: corpus/listening/README.md keeps all its instruments but the pianos from training. */
const OTHERS_FONT = "/usr/share/sounds/sf2/TimGM6mb.sf2";
const SPEAKER = "/usr/bin/espeak-ng";
const TEMPO = 120;
const RATE = 16_000;

/** General MIDI's numbers of instruments that are taken for a piano most easily, and of some that students play. */
export const PROGRAMS: Readonly<Record<string, number>> = {
  vibraphone: 11,
  marimba: 12,
  organ: 16,
  accordion: 21,
  harmonica: 22,
  "nylon guitar": 24,
  "steel guitar": 25,
  "jazz guitar": 26,
  "distorted guitar": 30,
  "double bass": 32,
  violin: 40,
  cello: 42,
  harp: 46,
  strings: 48,
  choir: 52,
  trumpet: 56,
  trombone: 57,
  "alto saxophone": 65,
  "tenor saxophone": 66,
  clarinet: 71,
  flute: 73,
};

/** Those that play one note at a time. */
const SINGLE = /harmonica|violin|cello|trumpet|trombone|saxophone|clarinet|flute|bass/;
/** Where they lie best: notes are moved there by octaves. [practice] */
const MIDDLE: Readonly<Record<string, number>> = {
  "double bass": 40,
  cello: 52,
  trombone: 54,
  "tenor saxophone": 58,
};

/** The same notes played by another instrument; the highest of those struck together where it has one voice. */
export async function playedBy(instrument: string, notes: readonly Note[]): Promise<Float32Array> {
  const own = SINGLE.test(instrument) ? topLine(notes) : notes;
  const mean = own.reduce((sum, { pitch }) => sum + pitch, 0) / own.length;
  const moved = 12 * Math.round(((MIDDLE[instrument] ?? mean) - mean) / 12);
  return rendered([
    {
      name: instrument,
      channel: 0,
      program: PROGRAMS[instrument]!,
      notes: own.map((n) => atBeats(n, n.pitch + moved)),
    },
  ]);
}

/** Bass, drums and a guitar that keep time for so many seconds over the roots of a twelve-bar blues. */
export async function playedByBand(seconds: number): Promise<Float32Array> {
  const beats = Math.floor((seconds * TEMPO) / 60);
  const roots = [0, 0, 0, 0, 5, 5, 0, 0, 7, 5, 0, 7];
  const root = (beat: number) => 40 + roots[Math.floor(beat / 4) % 12]!;
  const each = Array.from({ length: beats }, (_, at) => at);
  const bass = each.map((at) => ({ at, beats: 0.9, pitch: root(at) + [0, 4, 7, 9][at % 4]!, velocity: 90 }));
  const chords = each
    .filter((at) => at % 2 === 1)
    .flatMap((at) => [16, 22, 26].map((step) => ({ at, beats: 0.5, pitch: root(at) + step, velocity: 70 })));
  const drums = each.flatMap((at) => [
    { at, beats: 0.1, pitch: 51, velocity: 85 },
    { at: at + 0.66, beats: 0.1, pitch: 51, velocity: 60 },
    { at, beats: 0.1, pitch: at % 2 === 0 ? 36 : 38, velocity: 80 },
  ]);
  return rendered([
    { name: "bass", channel: 0, program: 32, notes: bass },
    { name: "guitar", channel: 1, program: 26, notes: chords },
    { name: "drums", channel: 9, program: 0, notes: drums },
  ]);
}

/** Someone who talks, by a program that speaks; null where it is not installed (Debian package espeak-ng). */
export async function spoken(text: string, speaker = "en-gb"): Promise<Float32Array | null> {
  if (!existsSync(SPEAKER)) return null;
  const folder = mkdtempSync(join(tmpdir(), "ledgerline-spoken-"));
  try {
    const file = join(folder, "a.wav");
    execFileSync(SPEAKER, ["-v", speaker, "-w", file, text]);
    const sound = await decodeSound(new Uint8Array(readFileSync(file)), "a.wav");
    return Float32Array.from(sound, (value) => value / fullScale(sound));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** A metronome's clicks, two a second. */
export function clicks(seconds: number): Float32Array {
  return Float32Array.from({ length: Math.round(seconds * RATE) }, (_, i) => {
    const t = (i % (RATE / 2)) / RATE;
    return Math.sin(2 * Math.PI * 1500 * t) * Math.exp(-t * 120);
  });
}

/** One sound and another that is so many decibels louder in all, around its end again where it is shorter. */
export function together(first: Float32Array, second: Float32Array, decibels: number): Float32Array {
  const gain = (rms(first) / rms(second)) * 10 ** (decibels / 20);
  return first.map((value, i) => value + gain * second[i % second.length]!);
}

/** Of differences from sample to sample, since an ear hears little of what is low. */
function rms(sound: Float32Array): number {
  let sum = 0;
  for (let i = 1; i < sound.length; i++) sum += (sound[i]! - sound[i - 1]!) ** 2;
  return Math.sqrt(sum / sound.length) + 1e-9;
}

function rendered(tracks: readonly PlayTrack[]): Promise<Float32Array> {
  const midi = playMidi({ title: "others", tempo: TEMPO, meter: { beats: 4, unit: 4 }, tracks });
  return renderGrand(midi, OTHERS_FONT);
}

const atBeats = ({ onset, sounding, velocity }: Note, pitch: number) => ({
  at: (onset * TEMPO) / 60,
  beats: (Math.max(0.08, sounding) * TEMPO) / 60,
  pitch,
  velocity,
});

function topLine(notes: readonly Note[]): Note[] {
  const top = notes.filter(
    (note) => !notes.some((o) => Math.abs(o.onset - note.onset) < 0.05 && o.pitch > note.pitch),
  );
  return top.map((note, i) => ({
    ...note,
    sounding: Math.max(0.08, Math.min(note.sounding, (top[i + 1]?.onset ?? Infinity) - note.onset)),
  }));
}
