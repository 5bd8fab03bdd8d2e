/** Notes down, inside a page, every sound that is scheduled on an audio context: which key, at which pitch, when. */
import type { Page } from "playwright-core";

export interface Sounded {
  /** MIDI number of the pitch that will be heard; null for a click. */
  readonly pitch: number | null;
  /** Frequency of a click's tone. */
  readonly hertz: number | null;
  /** Seconds of the audio context. */
  readonly when: number;
}

const NAMES = ["C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"];

/** To be called before the page is opened. */
export async function watchSound(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const sounded: { file: string | null; rate: number; hertz: number | null; when: number }[] = [];
    (window as unknown as { sounded: typeof sounded }).sounded = sounded;
    const addresses = new WeakMap<ArrayBuffer, string>();
    const files = new WeakMap<AudioBuffer, string>();
    const bytesOf = Response.prototype.arrayBuffer;
    Response.prototype.arrayBuffer = async function () {
      const bytes = await bytesOf.call(this);
      addresses.set(bytes, this.url);
      return bytes;
    };
    const decode = BaseAudioContext.prototype.decodeAudioData;
    BaseAudioContext.prototype.decodeAudioData = async function (bytes: ArrayBuffer) {
      const address = addresses.get(bytes) ?? "";
      const buffer = await decode.call(this, bytes);
      files.set(buffer, address);
      return buffer;
    };
    const startSample = AudioBufferSourceNode.prototype.start;
    AudioBufferSourceNode.prototype.start = function (when = 0) {
      sounded.push({
        file: (this.buffer && files.get(this.buffer)) ?? null,
        rate: this.playbackRate.value,
        hertz: null,
        when,
      });
      return startSample.call(this, when);
    };
    const startTone = OscillatorNode.prototype.start;
    OscillatorNode.prototype.start = function (when = 0) {
      sounded.push({ file: null, rate: 1, hertz: this.frequency.value, when });
      return startTone.call(this, when);
    };
  });
}

/** All that was scheduled so far, in order of time. */
export async function soundedIn(page: Page): Promise<Sounded[]> {
  const raw = await page.evaluate(
    () =>
      (
        window as unknown as {
          sounded: { file: string | null; rate: number; hertz: number | null; when: number }[];
        }
      ).sounded,
  );
  return raw
    .map(({ file, rate, hertz, when }) => ({
      pitch: file === null ? null : sampled(file) + 12 * Math.log2(rate),
      hertz,
      when,
    }))
    .sort((a, b) => a.when - b.when);
}

export const forget = (page: Page) =>
  page.evaluate(() => {
    (window as unknown as { sounded: unknown[] }).sounded.length = 0;
  });

/** MIDI number of the key that a sample file holds, from its name: "D#4v10.mp3" is 63 (C4 is 60). */
function sampled(address: string): number {
  const [, name, octave] = /([A-G]#?)(-?\d)v10\.mp3$/.exec(decodeURIComponent(address))!;
  return NAMES.indexOf(name!) + 12 * (Number(octave) + 1);
}
