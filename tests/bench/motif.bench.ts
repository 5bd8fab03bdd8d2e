import { discover } from "../../src/motif/discovery.ts";
import { findMotifs, type MotifNote, suffixArray } from "../../src/motif/index.ts";
import { occurrencesIn } from "../../src/motif/motif-index.ts";
import { joinedText, type SymbolText, sortText } from "../../src/motif/symbol-text.ts";
import { generator } from "../motif/planted.ts";
import type { Bench } from "./types.ts";

/** Bounds: time for each doubling, discovery over a bare sort, milliseconds of a search. */
const DOUBLING = 2.4;
const OVER_SORT = 3;
const SEARCH_MS = 20;

const DOUBLINGS = [1e3, 1e4, 1e5, 5e5];

export const bench: Bench = {
  name: "motifs: discovery and search",
  run() {
    const lines: string[] = [];
    for (const n of DOUBLINGS) {
      const [one, two] = [n, 2 * n].map((size) => {
        const notes = noiseNotes(size);
        return fastest(n < 1e5 ? 7 : 2, () => findMotifs(notes, { seed: 1 }));
      }) as [number, number];
      lines.push(
        `six viewpoints, ${count(n)} to ${count(2 * n)} notes: ${ms(one)} to ${ms(two)}, ` +
          `${(two / one).toFixed(2)} times (at most ${DOUBLING})`,
      );
    }
    const text = intervalText(1e6);
    const bare = fastest(5, () => suffixArray(text.text, text.breaks + text.codes.length));
    const whole = fastest(5, () => discover(sortText(text), "chromatic interval"));
    lines.push(
      `one viewpoint, ${count(1e6)} notes: ${ms(whole)} against a bare sort of ${ms(bare)}, ` +
        `${(whole / bare).toFixed(2)} times (at most ${OVER_SORT})`,
    );
    lines.push(...searchLines(1e7));
    return lines;
  },
};

function searchLines(n: number): string[] {
  const text = sortText(intervalText(n));
  const random = generator(5);
  let slowest = 0;
  let found = 0;
  for (let k = 0; k < 200; k++) {
    const at = Math.floor(random() * (n - 20));
    const pattern = Int32Array.from(
      text.text.subarray(at, at + 4 + (k % 8)),
      (symbol) => text.codes[symbol - text.breaks]!,
    );
    let fastest = Number.POSITIVE_INFINITY;
    let places = 0;
    for (let run = 0; run < 3; run++) {
      const start = performance.now();
      places = occurrencesIn(text, pattern).slice().sort().length;
      fastest = Math.min(fastest, performance.now() - start);
    }
    slowest = Math.max(slowest, fastest);
    found += places;
  }
  return [
    `exact search in ${count(n)} notes: ${slowest.toFixed(3)} ms for the slowest of 200 patterns, ` +
      `${count(found)} places found in all (at most ${SEARCH_MS} ms)`,
  ];
}

/** A wandering line of intervals: a chain, so that steps hang together as in a melody. */
function wander(n: number): Int8Array {
  const random = generator(n);
  const pitches = new Int8Array(n);
  let [pitch, step] = [64, 0];
  for (let i = 0; i < n; i++) {
    const draw = Math.floor((random() + random() + random()) * 5) - 7;
    step = random() < 0.3 ? step : draw;
    if (pitch + step < 36 || pitch + step > 96) step = -step;
    pitch += step;
    pitches[i] = pitch;
  }
  return pitches;
}

function intervalText(n: number): SymbolText {
  const pitches = wander(n + 1);
  const codes = new Int32Array(n);
  for (let i = 0; i < n; i++) codes[i] = pitches[i + 1]! - pitches[i]! + 128;
  return joinedText([codes], [0], true, null);
}

/** What notes are made of, in columns. */
interface Columns {
  readonly pitch: Int8Array;
  readonly start: Float64Array;
  readonly beats: Float64Array;
  readonly finger: Int8Array;
}

const DEGREE_NAMES = ["1", "9", "b3", "3", "11", "5", "13", "b7"] as const;

/**
 * A note that reads itself from the columns: a million notes with a score of boxed numbers each would measure how long
 * the collector takes to walk over the benchmark's own input.
 */
class ColumnNote {
  readonly #columns: Columns;
  readonly #at: number;

  constructor(columns: Columns, at: number) {
    this.#columns = columns;
    this.#at = at;
  }
  get id(): string {
    return `n${this.#at + 1}`;
  }
  get pitch(): number {
    return this.#columns.pitch[this.#at]!;
  }
  get position(): number {
    return this.#columns.start[this.#at]!;
  }
  get onset(): number {
    return this.position / 2;
  }
  get beats(): number {
    return this.#columns.beats[this.#at]! * 0.9;
  }
  get duration(): number {
    return this.beats / 2;
  }
  get sounding(): number {
    return this.duration;
  }
  get tick(): number {
    return this.position * 480;
  }
  get ticks(): number {
    return this.#columns.beats[this.#at]! * 480;
  }
  get chorus(): number {
    return 1 + Math.floor(this.position / 48);
  }
  get bar(): number {
    return 1 + (Math.floor(this.position / 4) % 12);
  }
  get beat(): number {
    return 1 + (this.position % 4);
  }
  get degree() {
    return DEGREE_NAMES[this.pitch % 8]!;
  }
  get finger() {
    return this.#columns.finger[this.#at]! as 1 | 2 | 3 | 4 | 5;
  }
  get phrase(): string {
    return `p${Math.floor(this.#at / 20)}`;
  }
  get hand(): "right" {
    return "right";
  }
  get solo(): boolean {
    return true;
  }
  get velocity(): number {
    return 80;
  }
  get part(): string {
    return "t1";
  }
  get printed(): null {
    return null;
  }
  get timing(): number {
    return 0;
  }
  get span(): number {
    return 0;
  }
}

function noiseNotes(n: number): MotifNote[] {
  const random = generator(n + 1);
  const columns = {
    pitch: wander(n),
    start: new Float64Array(n),
    beats: new Float64Array(n),
    finger: new Int8Array(n),
  };
  let position = 0;
  for (let i = 0; i < n; i++) {
    columns.start[i] = position;
    columns.beats[i] = [0.25, 0.5, 0.5, 1][Math.floor(random() * 4)]!;
    columns.finger[i] = 1 + Math.floor(random() * 5);
    position += columns.beats[i]!;
  }
  return Array.from({ length: n }, (_, i) => new ColumnNote(columns, i));
}

/** Processor time of the fastest of some runs: the clock on the wall would measure the neighbours too. */
function fastest(times: number, work: () => unknown): number {
  let best = Number.POSITIVE_INFINITY;
  for (let k = 0; k < times; k++) {
    const start = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(start);
    best = Math.min(best, (user + system) / 1000);
  }
  return best;
}

function count(n: number): string {
  return n.toLocaleString("en");
}

function ms(time: number): string {
  return `${time.toFixed(time < 10 ? 1 : 0)} ms`;
}
