/**
 * What the network says of the keys, taken piece by piece. Only what notes are made of is kept of it: peaks of the
 * onset, and one bit for each key and frame that it sounds in. All that is said of half an hour would be 64 MB; so it
 * is 2 MB, and some numbers a note.
 */
export const KEYS = 88;

/** What the network says, frame after frame, of each of the 88 keys; probabilities and loudness from 0 to 1. */
export interface KeysHeard {
  readonly frames: number;
  readonly onset: Float32Array;
  readonly sounding: Float32Array;
  readonly loudness: Float32Array;
}

/** A frame at which an onset is likelier than before and after it. */
export interface Peak {
  readonly frame: number;
  /** Where it stands between frames. */
  readonly at: number;
  /** The onset's probability. */
  readonly height: number;
  readonly loudness: number;
}

export interface KeptKeys {
  readonly frames: number;
  /** The frames that follow those before. */
  take(said: KeysHeard): void;
  /** To be called when all was taken. */
  end(): void;
  /** Of a key, in their order. */
  peaksOf(key: number): readonly Peak[];
  sounds(key: number, frame: number): boolean;
}

export const HEARING = {
  /** Less likely peaks are no notes. Kept low, since each note carries its certainty. */
  onset: 0.1,
  /** A note goes on while its key sounds more likely than not. */
  sounding: 0.5,
} as const;

/** Frames on each side of a strike over which the network's onset rises and falls. */
const SLOPE = 3;

/** Bytes that hold a bit for each key. */
const WIDTH = KEYS / 8;

/** @param frames that will be taken in all */
export function keepKeys(frames: number): KeptKeys {
  const bits = new Uint8Array(frames * WIDTH);
  const peaks: Peak[][] = Array.from({ length: KEYS }, () => []);
  let taken = 0;
  /** Frames that are not looked at yet, after so many that were; they follow each other. */
  let held = { onset: new Float32Array(0), loudness: new Float32Array(0) };
  let looked = 0;

  const look = (ahead: number) => {
    const start = taken - held.onset.length / KEYS;
    for (; looked < taken - ahead; looked++) {
      const row = looked - start;
      for (let key = 0; key < KEYS; key++) {
        const peak = peakAt(held.onset, row, key);
        if (peak === null) continue;
        const loudness = held.loudness[row * KEYS + key]!;
        peaks[key]!.push({
          frame: looked,
          at: Math.max(0, looked + peak.off),
          height: peak.height,
          loudness,
        });
      }
    }
  };
  return {
    frames,
    take({ frames: more, onset, sounding, loudness }) {
      const before = Math.min(held.onset.length / KEYS, taken - looked + SLOPE);
      held = {
        onset: joinedTail(held.onset, before, onset),
        loudness: joinedTail(held.loudness, before, loudness),
      };
      for (let t = 0; t < more; t++)
        for (let key = 0; key < KEYS; key++)
          if (sounding[t * KEYS + key]! >= HEARING.sounding) {
            const byte = (taken + t) * WIDTH + (key >> 3);
            bits[byte] = bits[byte]! | (1 << (key & 7));
          }
      taken += more;
      look(SLOPE);
    },
    end: () => look(0),
    peaksOf: (key) => peaks[key]!,
    sounds: (key, frame) => (bits[frame * WIDTH + (key >> 3)]! & (1 << (key & 7))) !== 0,
  };
}

/** The last frames of what was held, and those that follow. */
function joinedTail(held: Float32Array, frames: number, more: Float32Array): Float32Array<ArrayBuffer> {
  const joined = new Float32Array(frames * KEYS + more.length);
  joined.set(held.subarray(held.length - frames * KEYS));
  joined.set(more, frames * KEYS);
  return joined;
}

/** The peak of a key in a row of frames, if there is one, and how far off the row it stands. */
function peakAt(
  onset: Float32Array,
  row: number,
  key: number,
): { readonly height: number; readonly off: number } | null {
  const height = onset[row * KEYS + key]!;
  if (height < HEARING.onset) return null;
  if (height < (onset[(row - 1) * KEYS + key] ?? 0) || height <= (onset[(row + 1) * KEYS + key] ?? 0))
    return null;
  return { height, off: offOf(onset, row, key) };
}

/** The centre of the probabilities around a peak, as far as they fall away from it, in frames from it. */
function offOf(onset: Float32Array, row: number, key: number): number {
  let [moment, weight] = [0, onset[row * KEYS + key]!];
  for (const side of [-1, 1]) {
    let before = onset[row * KEYS + key]!;
    for (let d = 1; d <= SLOPE; d++) {
      const p = onset[(row + side * d) * KEYS + key];
      if (p === undefined || p > before) break;
      moment += side * d * p;
      weight += p;
      before = p;
    }
  }
  return moment / weight;
}
