/** The bytes of a recording as mono sound of 16 kHz and 16 bits. A recording is decoded and resampled in parts, to keep memory small. */
import decode from "audio-decode";
import {
  createResampler,
  mono,
  putSamples,
  type Resampler,
  SOUND,
  SOUND_LIMITS,
  soundKind,
} from "../../src/listen/index.ts";
import { Problem } from "../../src/take/index.ts";
import { headFirst } from "./head-first.ts";

/** Bytes decoded at once. */
const PART = 1 << 18;

type Decoder = Awaited<ReturnType<typeof decode.wav>>;

const DECODERS: Readonly<Record<string, () => Promise<Decoder>>> = {
  WAVE: () => decode.wav(),
  MP3: () => decode.mp3(),
  FLAC: () => decode.flac(),
  Ogg: () => decode.oga(),
  Opus: () => decode.opus(),
  "MPEG-4": () => decode.m4a(),
  AAC: () => decode.aac(),
  AIFF: () => decode.aiff(),
  CAF: () => decode.caf(),
  AMR: () => decode.amr(),
  WebM: () => decode.webm(),
};

/**
 * @param bytes a recording, told by its first bytes
 * @param name of the file, for messages
 * @throws Problem when it cannot be decoded
 */
export async function decodeSound(bytes: Uint8Array, name: string): Promise<Int16Array> {
  // Joined at the end, parts of half an hour would be held twice. What is not filled takes no memory.
  const sound = new Int16Array(MOST);
  let length = 0;
  await decodeTo(bytes, name, (part) => {
    putSamples(sound, part, length);
    length += part.length;
  });
  return sound.subarray(0, length);
}

/** As `decodeSound`; hands the sound on in parts as it is decoded, from -1 to 1. */
export async function decodeTo(
  bytes: Uint8Array,
  name: string,
  take: (part: Float32Array) => void,
): Promise<void> {
  const kind = kindOf(bytes);
  const open = DECODERS[kind];
  if (open === undefined) throw unreadable(name, kind, "no decoder is at hand");
  try {
    await decodeParts(bytes, await open(), take);
  } catch (error) {
    if (error instanceof Problem) throw error;
    throw unreadable(name, kind, error instanceof Error ? error.message : String(error));
  }
}

/** Samples that are handed on at most: as many as are listened to, and a part more, so that what is longer is refused. */
const MOST = (SOUND_LIMITS.longest + 1) * SOUND.rate;

async function decodeParts(
  bytes: Uint8Array,
  decoder: Decoder,
  take: (part: Float32Array) => void,
): Promise<void> {
  let length = 0;
  let resampler: Resampler | null = null;
  const takeMore = (part: Float32Array) => {
    const kept = part.subarray(0, MOST - length);
    take(kept);
    length += kept.length;
  };
  try {
    for (const part of partsOf(bytes)) {
      const { channelData, sampleRate } = await decoder(part);
      if (channelData.length === 0) continue;
      resampler ??= createResampler(sampleRate);
      takeMore(resampler.push(mono(channelData)));
      // The refusal says how long it may be; what comes after need not be decoded for that.
      if (length === MOST) return;
    }
    const { channelData, sampleRate } = await decoder.flush();
    if (channelData.length > 0) {
      resampler ??= createResampler(sampleRate);
      takeMore(resampler.push(mono(channelData)));
    }
    if (resampler === null) throw new Error("it holds no sound");
    takeMore(resampler.finish());
  } finally {
    decoder.free();
  }
}

/** The bytes in the order and in the parts in which they are decoded. */
function* partsOf(bytes: Uint8Array): Generator<Uint8Array> {
  const whole = kindOf(bytes) === "MPEG-4" ? headFirst(bytes) : [bytes];
  for (const stretch of whole)
    for (let from = 0; from < stretch.length; from += PART) yield stretch.subarray(from, from + PART);
}

/** Ogg files hold sound of two kinds, told apart by the head of their first page. */
function kindOf(bytes: Uint8Array): string {
  const kind = soundKind(bytes) ?? "unknown";
  const start = Buffer.from(bytes.subarray(0, 64)).toString("latin1");
  return kind === "Ogg" && start.includes("OpusHead") ? "Opus" : kind;
}

function unreadable(name: string, kind: string, why: string): Problem {
  return new Problem(
    "unreadable-sound",
    `${name} is a ${kind} recording that cannot be decoded: ${why}`,
    null,
    "Export it as WAV, MP3, FLAC, Ogg, Opus or M4A and send that.",
  );
}
