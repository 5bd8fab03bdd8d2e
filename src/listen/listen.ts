/** The flow from sound to heard notes, piece by piece. The network is handed in: who runs it, and where, is not known here. */
import { COMPANY_WIDTH, companyOf } from "./company.ts";
import { notesOf } from "./decode-notes.ts";
import type { Heard } from "./heard.ts";
import { KEYS, type KeptKeys, keepKeys } from "./keys-heard.ts";
import { pedalMarks } from "./pedal.ts";
import { LEAD_IN, piecesOf } from "./pieces.ts";
import { refuseOthers, refuseSound, refuseUnheard } from "./refusals.ts";
import { type Samples, type Sound, soundOf, stretchesOf } from "./samples.ts";
import { putShares, type Shares } from "./shares.ts";
import { createSpectrum, FRAMES_A_SECOND, framesOf, SOUND } from "./spectrum.ts";

/** What the network says of some frames; the arguments are their bands, frame after frame, and their number. */
export type Network = (
  bands: Float32Array,
  frames: number,
) => Promise<Readonly<Record<keyof typeof WIDTHS, Float32Array>>>;

/** Highest peak that a recording is scaled to, as the network knows its sound best. */
const PEAK = 0.5;
/** A recording is not made louder than this: what is softer still is noise. */
const MOST_GAIN = 200;

export interface ListenOptions {
  /** Called with the share that is done, 0 to 1. */
  readonly progress?: ((share: number) => void) | undefined;
  /** Ends the work between two pieces. */
  readonly signal?: AbortSignal | undefined;
}

/**
 * @param samples mono sound at 16 kHz, or where it is read from a part at a time
 * @throws Problem for what is no recording of a piano that can be heard; the signal's reason when it was ended
 */
export async function listen(
  samples: Samples | Sound,
  network: Network,
  options: ListenOptions = {},
): Promise<Heard> {
  const sound = soundOf(samples);
  refuseSound(sound);
  const heardness = await heardnessOf(sound, network, options);
  const heard: Heard = {
    heard: "piano",
    version: 1,
    seconds: sound.length / SOUND.rate,
    notes: notesOf(heardness.keys).map((note) => ({
      ...note,
      onset: withoutLeadIn(note.onset),
      end: withoutLeadIn(note.end),
    })),
    pedal: pedalMarks(heardness.pedal).map((mark) => ({ ...mark, seconds: withoutLeadIn(mark.seconds) })),
    company: companyOf(heardness.company),
  };
  refuseOthers(heard);
  refuseUnheard(heard);
  return heard;
}

/** @param seconds from the first frame that is heard */
const withoutLeadIn = (seconds: number): number => Math.max(0, seconds - LEAD_IN / FRAMES_A_SECOND);

/** Numbers of each frame in each of the network's answers. */
const WIDTHS = { onset: KEYS, sounding: KEYS, loudness: KEYS, pedal: 1, company: COMPANY_WIDTH } as const;

/** What is kept of what the network says of a whole sound, from `LEAD_IN` frames before it begins. */
interface Heardness {
  readonly keys: KeptKeys;
  /** Of the sustain pedal, one number a frame. */
  readonly pedal: Float32Array;
  /** Whose sound it is, `COMPANY_WIDTH` numbers a frame. */
  readonly company: Shares;
}

async function heardnessOf(
  sound: Sound,
  network: Network,
  { progress, signal }: ListenOptions = {},
): Promise<Heardness> {
  const frames = LEAD_IN + framesOf(sound.length);
  const keys = keepKeys(frames);
  const whole = {
    pedal: new Float32Array(frames * WIDTHS.pedal),
    company: new Uint8Array(frames * WIDTHS.company),
  };
  const spectrum = createSpectrum();
  const gain = Math.min(MOST_GAIN / sound.full, PEAK / peakOf(sound));
  for (const { from, to, heardFrom, heardTo } of piecesOf(sound.length)) {
    signal?.throwIfAborted();
    const said = await network(spectrum.frames(sound, heardFrom, heardTo, gain), heardTo - heardFrom);
    const taken = (name: keyof typeof WIDTHS) =>
      said[name].subarray((from - heardFrom) * WIDTHS[name], (to - heardFrom) * WIDTHS[name]);
    keys.take({
      frames: to - from,
      onset: taken("onset"),
      sounding: taken("sounding"),
      loudness: taken("loudness"),
    });
    for (const name of ["pedal", "company"] as const)
      putShares(whole[name], taken(name), (from + LEAD_IN) * WIDTHS[name]);
    progress?.((to + LEAD_IN) / frames);
  }
  keys.end();
  return { keys, ...whole };
}

function peakOf(sound: Sound): number {
  let peak = 1e-9;
  for (const samples of stretchesOf(sound))
    for (const sample of samples) peak = Math.max(peak, Math.abs(sample));
  return peak;
}
