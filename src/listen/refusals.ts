/** What is refused in words, before and after the network listened. */
import { isSure, Problem } from "../take/index.ts";
import { percent } from "../words/index.ts";
import { othersIn, PIANO_SHARE } from "./company.ts";
import type { Heard } from "./heard.ts";
import { type Sound, stretchesOf } from "./samples.ts";
import { SOUND } from "./spectrum.ts";

/** Longest and shortest sound that is listened to, in seconds. */
export const SOUND_LIMITS = { longest: 30 * 60, shortest: 1 } as const;

/** A loudest tenth of a second below this is silence: -60 dB of full scale, the noise of a poor microphone. [practice] */
const SILENCE = 0.001;
/** Less than this share of sure notes is not a piano that can be heard. */
const LEAST_SURE = 0.4;
/** Fewer notes than this are no solo. */
const FEWEST = 3;

const NEARER =
  "Put the phone nearer to the piano, on something soft, away from voices and machines, and play with less pedal.";

/** @throws Problem for sound that is too long, too short or silent */
export function refuseSound(sound: Sound): void {
  const seconds = sound.length / SOUND.rate;
  if (seconds > SOUND_LIMITS.longest) {
    throw new Problem(
      "sound-too-long",
      `The recording is ${Math.ceil(seconds / 60)} minutes long; at most ${SOUND_LIMITS.longest / 60} are listened to`,
      null,
      "Cut it to the solo.",
    );
  }
  if (seconds < SOUND_LIMITS.shortest) {
    throw new Problem(
      "sound-too-short",
      `The recording is ${seconds.toFixed(1)} seconds long`,
      null,
      "Choose a recording of a whole solo.",
    );
  }
  if (loudest(sound) < SILENCE) {
    throw new Problem(
      "sound-silent",
      "The recording is silent",
      null,
      "Check that the microphone was on and not covered, and record again.",
    );
  }
}

/** @throws Problem when most of what sounds is not a piano */
export function refuseOthers({ company }: Heard): void {
  if (!company || company.piano >= PIANO_SHARE.refused) return;
  throw new Problem(
    "others-heard",
    `Of what sounds in the recording, ${percent(company.piano)} is heard as a piano: the rest is ${othersIn(company)}`,
    null,
    "Record the piano alone, without a band, a backing track or singing. If nothing else played, put the phone nearer to the piano, on something soft.",
  );
}

/** @throws Problem when what was heard is no piano, or too unsure to say anything about */
export function refuseUnheard({ notes }: Heard): void {
  if (notes.length < FEWEST) {
    throw new Problem(
      "no-piano-heard",
      notes.length === 0
        ? "No piano was heard in the recording"
        : `Only ${notes.length === 1 ? "one note" : "two notes"} of a piano could be heard in the recording`,
      null,
      NEARER,
    );
  }
  const sure = notes.filter(isSure).length;
  if (sure / notes.length < LEAST_SURE) {
    throw new Problem(
      "piano-unsure",
      `Of ${notes.length} notes that may be there, ${sure === 0 ? "none" : `only ${sure}`} could be heard surely: the piano is far away, or covered by other sounds`,
      null,
      NEARER,
    );
  }
}

/** Root mean square of the loudest tenth of a second; full scale is 1. */
function loudest(sound: Sound): number {
  let most = 0;
  for (const samples of stretchesOf(sound, SOUND.rate / 10)) {
    let sum = 0;
    for (const sample of samples) sum += sample * sample;
    most = Math.max(most, sum / (SOUND.rate / 10));
  }
  return Math.sqrt(most) / sound.full;
}
