/** Takes of MIDI as a piano that the network never heard plays them, in a room, through a phone: by fluidsynth. */
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { decodeSound } from "../../../server/listen/decode-sound.ts";
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
    return await decodeSound(new Uint8Array(readFileSync(to)), "a.wav");
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/**
 * The same sound in a living room, recorded by a phone: the direct sound with a tail of noise that dies away by 60 dB
 * in .5 seconds and holds a third of the energy; nothing below 150 Hz and little above 6000; noise 45 dB under the
 * loudest.
 */
export function throughPhone(dry: Float32Array): Float32Array {
  const RATE = 16_000;
  const tail = noise(0.5, 1, 7).map((value, i) => value * 10 ** ((-3 * i) / (0.5 * RATE)));
  const energy = tail.reduce((sum, value) => sum + value * value, 0);
  const wet = dry.slice();
  // A sparse tail of a few hundred echoes sounds alike and costs a tenth.
  for (let at = 24; at < tail.length; at += 11) {
    const gain = tail[at]! * Math.sqrt((0.33 * 11) / energy);
    for (let i = at; i < wet.length; i++) wet[i] = wet[i]! + gain * dry[i - at]!;
  }
  const [low, high] = [1 - Math.exp((-2 * Math.PI * 150) / RATE), 1 - Math.exp((-2 * Math.PI * 6000) / RATE)];
  const peak = wet.reduce((most, value) => Math.max(most, Math.abs(value)), 1e-9);
  const hiss = noise(wet.length / RATE, peak * 10 ** (-45 / 20) * Math.sqrt(3), 11);
  let [rumble, smooth] = [0, 0];
  return wet.map((value, i) => {
    rumble += low * (value - rumble);
    smooth += high * (value - rumble - smooth);
    return smooth + (hiss[i] ?? 0);
  });
}
