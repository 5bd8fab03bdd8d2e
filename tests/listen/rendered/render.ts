/** Takes of MIDI as a piano that the network never heard plays them, in a room, through a phone: by fluidsynth. */
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { decodeSound } from "../../../server/listen/decode-sound.ts";
import { fullScale } from "../../../src/listen/samples.ts";
import { noise } from "../sounds.ts";

/** Of Debian's musescore-general-soundfont: the concert grand that corpus/listening/README.md keeps from training. */
const GRAND = "/usr/share/sounds/sf3/MuseScore_General_Full.sf3";
const FLUIDSYNTH = "/usr/bin/fluidsynth";

/** What is missing to render, or null. */
export const RENDERING_MISSING = !existsSync(FLUIDSYNTH)
  ? "fluidsynth is not installed (Debian package fluidsynth)"
  : !existsSync(GRAND)
    ? "the grand is not installed (Debian package musescore-general-soundfont)"
    : null;

/** The dry sound of a MIDI file, mono at 16 kHz. */
export async function renderGrand(midi: Uint8Array, font = GRAND): Promise<Float32Array> {
  const folder = mkdtempSync(join(tmpdir(), "ledgerline-sound-"));
  try {
    const [from, to] = [join(folder, "a.mid"), join(folder, "a.wav")];
    writeFileSync(from, midi);
    const plain = ["-R", "0", "-C", "0", "-g", "0.6", "-r", "44100"];
    execFileSync(FLUIDSYNTH, ["-ni", ...plain, "-F", to, font, from], { stdio: "ignore" });
    const sound = await decodeSound(new Uint8Array(readFileSync(to)), "a.wav");
    return Float32Array.from(sound, (value) => value / fullScale(sound));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const RATE = 16_000;

/** The surroundings in which a dry sound is heard. */
export const SURROUNDINGS = {
  /** As it is. */
  direct: (dry: Float32Array) => dry,
  /** A microphone two metres away in a living room: the room holds half as much as the direct sound, 50 dB of noise. */
  room: (dry: Float32Array) => hissing(inRoom(dry, 0.6, 0.5, 23), -50, 29),
  /** A phone in a living room. */
  phone: (dry: Float32Array) => hissing(throughPhone(inRoom(dry, 0.5, 0.33, 7)), -45, 11),
  /** A phone at the far end of a hall: the room holds more than the direct sound, and hisses. */
  hall: (dry: Float32Array) => hissing(throughPhone(inRoom(dry, 1.4, 1.2, 31)), -38, 37),
} as const;

export type Surroundings = keyof typeof SURROUNDINGS;

/**
 * The direct sound with a tail of noise that dies away by 60 dB.
 *
 * @param seconds in which it dies away
 * @param energy of the tail against that of the direct sound
 */
function inRoom(dry: Float32Array, seconds: number, energy: number, seed: number): Float32Array {
  const tail = noise(seconds, 1, seed).map((value, i) => value * 10 ** ((-3 * i) / (seconds * RATE)));
  const whole = tail.reduce((sum, value) => sum + value * value, 0);
  const wet = dry.slice();
  // A sparse tail of a few hundred echoes sounds alike and costs a tenth.
  for (let at = 24; at < tail.length; at += 11) {
    const gain = tail[at]! * Math.sqrt((energy * 11) / whole);
    for (let i = at; i < wet.length; i++) wet[i] = wet[i]! + gain * dry[i - at]!;
  }
  return wet;
}

/** Nothing below 150 Hz and little above 6000, as a phone records. */
function throughPhone(sound: Float32Array): Float32Array {
  const [low, high] = [1 - Math.exp((-2 * Math.PI * 150) / RATE), 1 - Math.exp((-2 * Math.PI * 6000) / RATE)];
  let [rumble, smooth] = [0, 0];
  return sound.map((value) => {
    rumble += low * (value - rumble);
    smooth += high * (value - rumble - smooth);
    return smooth;
  });
}

/** With noise of so many decibels against the loudest moment. */
function hissing(sound: Float32Array, decibels: number, seed: number): Float32Array {
  const peak = sound.reduce((most, value) => Math.max(most, Math.abs(value)), 1e-9);
  const hiss = noise(sound.length / RATE, peak * 10 ** (decibels / 20) * Math.sqrt(3), seed);
  return sound.map((value, i) => value + (hiss[i] ?? 0));
}
