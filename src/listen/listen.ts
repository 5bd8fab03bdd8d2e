/** The flow from sound to heard notes, piece by piece. The network is handed in: who runs it, and where, is not known here. */
import { COMPANY_WIDTH, companyOf } from "./company.ts";
import { decodeNotes, type Heardness, KEYS } from "./decode-notes.ts";
import type { Heard } from "./heard.ts";
import { pedalMarks } from "./pedal.ts";
import { LEAD_IN, piecesOf } from "./pieces.ts";
import { refuseOthers, refuseSound, refuseUnheard } from "./refusals.ts";
import { fullScale, type Samples } from "./samples.ts";
import { putShares } from "./shares.ts";
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
 * @param samples mono sound at 16 kHz
 * @throws Problem for what is no recording of a piano that can be heard; the signal's reason when it was ended
 */
export async function listen(
  samples: Samples,
  network: Network,
  options: ListenOptions = {},
): Promise<Heard> {
  refuseSound(samples);
  const heardness = await heardnessOf(samples, network, options);
  const heard: Heard = {
    heard: "piano",
    version: 1,
    seconds: samples.length / SOUND.rate,
    notes: decodeNotes(heardness).map((note) => ({
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

/** What the network says of a whole sound, from `LEAD_IN` frames before it begins. */
async function heardnessOf(
  samples: Samples,
  network: Network,
  { progress, signal }: ListenOptions = {},
): Promise<Heardness> {
  const frames = LEAD_IN + framesOf(samples.length);
  const whole = {
    frames,
    // Half an hour is 16 million numbers each; onsets are finer, since strikes stand between frames.
    onset: new Uint16Array(frames * WIDTHS.onset),
    sounding: new Uint8Array(frames * WIDTHS.sounding),
    loudness: new Uint8Array(frames * WIDTHS.loudness),
    pedal: new Float32Array(frames * WIDTHS.pedal),
    company: new Uint8Array(frames * WIDTHS.company),
  };
  const spectrum = createSpectrum();
  const gain = Math.min(MOST_GAIN / fullScale(samples), PEAK / peakOf(samples));
  for (const { from, to, heardFrom, heardTo } of piecesOf(samples.length)) {
    signal?.throwIfAborted();
    const said = await network(spectrum.frames(samples, heardFrom, heardTo, gain), heardTo - heardFrom);
    for (const name of ["onset", "sounding", "loudness", "pedal", "company"] as const) {
      const width = WIDTHS[name];
      const taken = said[name].subarray((from - heardFrom) * width, (to - heardFrom) * width);
      putShares(whole[name], taken, (from + LEAD_IN) * width);
    }
    progress?.((to + LEAD_IN) / frames);
  }
  return whole;
}

function peakOf(samples: Samples): number {
  let peak = 1e-9;
  for (const sample of samples) peak = Math.max(peak, Math.abs(sample));
  return peak;
}
