import type { KeyMark, Take } from "../take/index.ts";
import { rankKeys } from "./find-key.ts";
import type { Setting } from "./functions.ts";
import { keyOfSignature, keyOn } from "./key.ts";
import type { ChartBar, Key } from "./types.ts";

/** How much a key signature speaks for its major key and for the relative minor, on the scale of `rankKeys`. */
const SIGNATURE_WEIGHT = 0.3;

/**
 * The key and idiom in which chords heard or printed in a take make most sense, with its first key signature as
 * witness; the signature also spells the tonic.
 */
export function settingInTake(bars: readonly ChartBar[], take: Take): Setting {
  const heard = rankKeys(bars, { key: null, idiom: null }).map((candidate) => {
    const key = signedKey(candidate.key, take);
    return key === null ? candidate : { ...candidate, key, score: candidate.score + SIGNATURE_WEIGHT };
  });
  const { key, idiom } = heard.reduce((a, b) => (b.score > a.score ? b : a));
  return { key, idiom };
}

/** Of the two keys that a signature stands for, the one in which these chords make more sense. */
export function keyUnder({ fifths }: KeyMark, bars: readonly ChartBar[]): Key {
  const scored = (["major", "minor"] as const).map((mode) => {
    const key = keyOfSignature(fifths, mode);
    return rankKeys(bars, { key, idiom: null })[0]!;
  });
  return scored.reduce((a, b) => (b.score > a.score ? b : a)).key;
}

/** The key spelled as the take's signature spells it, else as it is usually signed. */
export function spelledInTake(key: Key, take: Take): Key {
  return signedKey(key, take) ?? keyOn(key.tonicClass, key.mode);
}

/** The key as the take's first signature has it; null when that is of other keys, or none. */
function signedKey(key: Key, take: Take): Key | null {
  const mark = take.keys[0];
  // Sequencers write a signature of C into every file unasked.
  if (mark === undefined || (take.format === "midi" && mark.fifths === 0)) return null;
  const signed = keyOfSignature(mark.fifths, key.mode);
  return signed.tonicClass === key.tonicClass ? signed : null;
}
