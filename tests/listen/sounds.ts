/** Sounds that tests are made of, by adding sines: nothing here was recorded. */

/** A sine of amplitude 1. */
export function tone(hertz: number, seconds: number, rate = 16_000): Float32Array {
  return Float32Array.from({ length: Math.round(seconds * rate) }, (_, i) =>
    Math.sin((2 * Math.PI * hertz * i) / rate),
  );
}

export interface SungNote {
  readonly pitch: number;
  /** Seconds. */
  readonly onset: number;
  readonly end: number;
  /** 0 to 1. */
  readonly loudness?: number;
}

/**
 * A plain string struck by a hammer: partials that are a little sharp (inharmonicity), weaker the higher, dying away
 * the faster the higher, with the short knock of the hammer. [lit: Fletcher & Rossing, The Physics of Musical
 * Instruments, on piano strings]
 */
export function piano(notes: readonly SungNote[], seconds: number, rate = 16_000): Float32Array {
  const sound = new Float32Array(Math.round(seconds * rate));
  let noise = 1;
  for (const { pitch, onset, end, loudness = 0.6 } of notes) {
    const hertz = 440 * 2 ** ((pitch - 69) / 12);
    const stiff = 0.0003 * 2 ** ((pitch - 60) / 18);
    const first = Math.round(onset * rate);
    for (let n = 1; n <= 24; n++) {
      const partial = n * hertz * Math.sqrt(1 + stiff * n * n);
      if (partial > 0.45 * rate) break;
      const level = (0.12 * loudness * Math.exp(-n / (2 + 6 * loudness))) / Math.sqrt(n);
      const decay = 0.5 + hertz / 400 + n * 0.25;
      for (let i = first; i < sound.length; i++) {
        const t = (i - first) / rate;
        const held = t < end - onset ? 1 : Math.exp(-(t - (end - onset)) * 25);
        if (held < 0.001) break;
        const rise = Math.min(1, t / 0.003);
        sound[i] =
          sound[i]! + level * rise * held * Math.exp(-decay * t) * Math.sin(2 * Math.PI * partial * t);
      }
    }
    for (let i = first; i < Math.min(sound.length, first + 0.02 * rate); i++) {
      noise = (Math.imul(noise, 1_664_525) + 1_013_904_223) | 0;
      sound[i] = sound[i]! + (noise / 2 ** 31) * 0.02 * loudness * Math.exp((-(i - first) / rate) * 200);
    }
  }
  return sound;
}

/** Noise of even strength, the same for the same seed. */
export function noise(seconds: number, level: number, seed = 1): Float32Array {
  let state = seed;
  return Float32Array.from({ length: Math.round(seconds * 16_000) }, () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) | 0;
    return (state / 2 ** 31) * level;
  });
}

/** A WAVE file of 16 bits, one channel. [lit: IBM and Microsoft, Multimedia Programming Interface 1.0, chapter 3] */
export function wave(sound: Float32Array, rate = 16_000): Uint8Array {
  const bytes = new Uint8Array(44 + 2 * sound.length);
  const view = new DataView(bytes.buffer);
  const text = (at: number, letters: string) => {
    for (let i = 0; i < letters.length; i++) bytes[at + i] = letters.charCodeAt(i);
  };
  text(0, "RIFF");
  view.setUint32(4, 36 + 2 * sound.length, true);
  text(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, rate, true);
  view.setUint32(28, 2 * rate, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  text(36, "data");
  view.setUint32(40, 2 * sound.length, true);
  for (const [i, value] of sound.entries())
    view.setInt16(44 + 2 * i, Math.round(32_767 * Math.max(-1, Math.min(1, value))), true);
  return bytes;
}

/** First three resonances of the vowel of "father", in Hz, and how strong they are. [lit: Peterson & Barney 1952] */
const VOWEL = [
  [730, 1],
  [1090, 0.5],
  [2440, 0.25],
] as const;

/** Someone who sings on one vowel, a note every three quarters of a second, trembling five times a second. */
export function singing(pitches: readonly number[], rate = 16_000): Float32Array {
  const each = 0.75;
  let phase = 0;
  return Float32Array.from({ length: Math.round(pitches.length * each * rate) }, (_, i) => {
    const t = i / rate;
    const pitch = pitches[Math.floor(t / each)]! + 0.4 * Math.sin(2 * Math.PI * 5.5 * t);
    const hertz = 440 * 2 ** ((pitch - 69) / 12);
    phase += hertz / rate;
    let value = 0;
    for (let n = 1; n <= 20; n++) {
      const shape = VOWEL.reduce(
        (sum, [at, level]) => sum + level / (1 + ((n * hertz - at) / 100) ** 2),
        0.02,
      );
      value += (Math.sin(2 * Math.PI * n * phase) * shape) / n;
    }
    return 0.3 * value * Math.min(1, (t % each) / 0.05);
  });
}

/** An organ: steady chords, two seconds each, with the ranks of six harmonics. */
export function organ(chords: readonly (readonly number[])[], rate = 16_000): Float32Array {
  return Float32Array.from({ length: chords.length * 2 * rate }, (_, i) => {
    const t = i / rate;
    let value = 0;
    for (const pitch of chords[Math.floor(t / 2)]!) {
      const hertz = 440 * 2 ** ((pitch - 69) / 12);
      for (const n of [1, 2, 3, 4, 6, 8]) value += 0.03 * Math.sin(2 * Math.PI * n * hertz * t);
    }
    return value;
  });
}
