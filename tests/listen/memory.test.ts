/** What is kept while a recording is heard grows little with its length: half an hour must fit beside a server. */
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { expect, test } from "vitest";
import { listen, type Network, type Sound } from "../../src/listen/index.ts";

const RATE = 16_000;

setFlagsFromString("--expose-gc");
const gc = runInNewContext("gc") as () => void;
/** Bytes outside the heap that are alive: what a collection found is given back while the next one runs. */
function alive(): number {
  for (let times = 0; times < 3; times++) gc();
  return process.memoryUsage().arrayBuffers;
}

/** Three keys struck every second, and the pedal. */
const struck: Network = async (_bands, frames) => {
  const said = {
    onset: new Float32Array(frames * 88),
    sounding: new Float32Array(frames * 88).fill(0.7),
    loudness: new Float32Array(frames * 88).fill(0.5),
    pedal: new Float32Array(frames).fill(0.7),
    company: new Float32Array(frames * 5).fill(0.2),
  };
  for (let t = 50; t < frames; t += 100) for (const key of [30, 39, 46]) said.onset[t * 88 + key] = 0.95;
  for (let t = 0; t < frames; t++) said.company[t * 5] = 0.9;
  return said;
};

/** A sound that takes no memory itself, and the longest part that was asked for. */
function humming(seconds: number): Sound & { readonly longest: () => number } {
  let longest = 0;
  const wave = Int16Array.from({ length: 2 ** 17 }, (_, i) => Math.round(9000 * Math.sin(i / 7)));
  return {
    length: seconds * RATE,
    full: 32_767,
    part(from, to) {
      longest = Math.max(longest, to - from);
      return wave.subarray(0, to - from);
    },
    longest: () => longest,
  };
}

/** Bytes outside the heap that are alive when the last piece was heard, more than when the first one was. */
async function keptOver(seconds: number) {
  const sound = humming(seconds);
  const counted: number[] = [];
  const progress = (share: number) => {
    if (counted.length === 0 || share >= 1) counted.push(alive());
  };
  const { notes } = await listen(sound, struck, { progress });
  return { kept: counted.at(-1)! - counted[0]!, notes: notes.length, longest: sound.longest() };
}

test("of the sound, and of what the network said of it, nothing is kept", {
  timeout: 120_000,
}, async () => {
  const [short, long] = [await keptOver(30), await keptOver(150)];
  expect(long.notes).toBeGreaterThan(4 * short.notes);
  expect(long.longest).toBe(short.longest);
  // A piece with its surroundings is four seconds and a half; going through it all takes no more at once.
  expect(long.longest).toBeLessThan(5 * RATE);
  // What notes are made of is there from the start. Two minutes of sound are 3.8 MB, all that is said of them 4.2 MB.
  expect(long.kept - short.kept).toBeLessThan(2 * 100_000);
});

test("what notes are made of takes a fifth of a megabyte a minute at most", async () => {
  const before = alive();
  let first = 0;
  const stop = new AbortController();
  const progress = () => {
    first = alive();
    stop.abort(new Error("enough"));
  };
  await expect(listen(humming(1800), struck, { progress, signal: stop.signal })).rejects.toThrow("enough");
  expect((first - before) / 30).toBeLessThan(200_000);
});
