/** A sampled grand, one sample every three keys, loaded as far as it is needed. Alexander Holm's samples, CC BY 3.0. */

const STEPS = ["A", "C", "D#", "F#"] as const;

interface Sample {
  /** MIDI number of the key that was recorded. */
  readonly pitch: number;
  readonly file: string;
}

/** A0 (21) to C8 (108), every third key. */
const SAMPLES: readonly Sample[] = Array.from({ length: 30 }, (_, i) => {
  const pitch = 21 + i * 3;
  const octave = Math.floor(pitch / 12) - 1;
  return { pitch, file: `${STEPS[i % 4]}${octave}v10.mp3` };
});

export interface Piano {
  /** Loads what these keys need; resolves when they can sound. */
  ready(pitches: Iterable<number>): Promise<void>;
  /** Plays a key at `time` (seconds of the context) for `seconds`; returns the way to cut it off. */
  strike(pitch: number, velocity: number, time: number, seconds: number): () => void;
}

export function createPiano(context: AudioContext, out: AudioNode): Piano {
  const loaded = new Map<string, Promise<AudioBuffer>>();
  const buffers = new Map<string, AudioBuffer>();

  const load = (sample: Sample): Promise<AudioBuffer> => {
    const known = loaded.get(sample.file);
    if (known) return known;
    const coming = fetch(`/piano/${encodeURIComponent(sample.file)}`)
      .then((answer) => {
        if (!answer.ok) throw new Error("The piano's sound could not be loaded.");
        return answer.arrayBuffer();
      })
      .then((bytes) => context.decodeAudioData(bytes))
      .then((buffer) => {
        buffers.set(sample.file, buffer);
        return buffer;
      });
    loaded.set(sample.file, coming);
    coming.catch(() => loaded.delete(sample.file));
    return coming;
  };

  return {
    async ready(pitches) {
      await Promise.all([...new Set([...pitches].map(sampleFor))].map(load));
    },
    strike(pitch, velocity, time, seconds) {
      const sample = sampleFor(pitch);
      const buffer = buffers.get(sample.file);
      if (!buffer) return () => {};
      const source = context.createBufferSource();
      const level = context.createGain();
      source.buffer = buffer;
      source.playbackRate.value = 2 ** ((pitch - sample.pitch) / 12);
      const loud = (velocity / 127) ** 1.4 * 0.9;
      const end = time + Math.max(0.06, seconds);
      level.gain.setValueAtTime(loud, time);
      level.gain.setValueAtTime(loud, end);
      level.gain.exponentialRampToValueAtTime(0.0008, end + 0.16);
      source.connect(level).connect(out);
      source.start(time);
      source.stop(end + 0.2);
      return () => {
        level.gain.cancelScheduledValues(context.currentTime);
        level.gain.setTargetAtTime(0, context.currentTime, 0.02);
        source.stop(context.currentTime + 0.1);
      };
    },
  };
}

function sampleFor(pitch: number): Sample {
  const i = Math.min(29, Math.max(0, Math.round((pitch - 21) / 3)));
  return SAMPLES[i]!;
}
