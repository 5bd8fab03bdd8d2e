/**
 * Pieces that people played with both hands, freely, with true beats, where the data stands beside the project. Their
 * chords are written down nowhere: they are read off what sounds between the true beats, one sum over the whole piece.
 */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { parseChart } from "../../src/chart/index.ts";
import type { Chart } from "../../src/chart/types.ts";
import { readTake } from "../../src/ingest/index.ts";
import type { Note, Take } from "../../src/take/index.ts";

const FOLDER = new URL("../../../shared/data/performances/", import.meta.url);
export const PERFORMANCES_THERE = existsSync(FOLDER);

export interface TwoHanded {
  readonly id: string;
  readonly composer: string;
  readonly take: Take;
  /** Seconds of the beats as people counted them. */
  readonly beats: readonly number[];
  /** Number of the first of them that begins a bar. */
  readonly firstBar: number;
  /** Quarter notes of the chart in each of them. */
  readonly quarters: number;
  /** One chord a beat where they change, one chorus; and bars of the same meter without chords. */
  readonly chart: Chart;
  readonly bare: Chart;
  /** True where all bars have one meter. */
  readonly oneMeter: boolean;
}

/**
 * Composers in the order of their names, every other one in a half.
 *
 * @param most beats of the longest piece that is read
 */
export function readTwoHanded(half: 0 | 1 | "all" = "all", most = Number.POSITIVE_INFINITY): TwoHanded[] {
  const rows = readFileSync(new URL("MANIFEST.tsv", FOLDER), "utf8")
    .trim()
    .split("\n")
    .slice(1)
    .map((row) => row.split("\t"));
  const composers = [...new Set(rows.map((row) => row[3]!))].sort();
  const files = new Set(readdirSync(FOLDER));
  return rows
    .filter(
      ([id, , , composer, beats]) =>
        files.has(`${id}.mid`) &&
        Number(beats) <= most &&
        (half === "all" || composers.indexOf(composer!) % 2 === half),
    )
    .map(([id, , , composer]) => twoHanded(id!, composer!));
}

function twoHanded(id: string, composer: string): TwoHanded {
  const take = readTake(readFileSync(new URL(`${id}.mid`, FOLDER)), { name: `${id}.mid` });
  const marks = readFileSync(new URL(`${id}.beats.tsv`, FOLDER), "utf8")
    .trim()
    .split("\n")
    .slice(1)
    .map((line) => {
      const [seconds, kind, signature] = line.split("\t");
      return { seconds: Number(seconds), down: kind === "downbeat", signature: signature ?? "" };
    });
  const downs = marks.flatMap(({ down }, i) => (down ? [i] : []));
  const inBar = mostCommon(downs.slice(1).map((at, k) => at - downs[k]!));
  const signatures = new Set(marks.map(({ signature }) => signature).filter((text) => text !== ""));
  const meter = [...signatures].find((text) => fits(text, inBar)) ?? `${inBar}/4`;
  const [beats, unit] = meter.split("/").map(Number) as [number, number];
  const first = downs[0]!;
  const chords = chordsOf(
    take.notes,
    marks.map(({ seconds }) => seconds),
  ).slice(first);
  const share = beats / inBar;
  const bars: string[] = [];
  for (let b = 0; b * inBar < chords.length; b++) {
    const bar = chords.slice(b * inBar, (b + 1) * inBar);
    while (bar.length < inBar) bar.push(bar.at(-1)!);
    const runs: [string, number][] = [];
    for (const chord of bar) {
      if (runs.at(-1)?.[0] === chord) runs.at(-1)![1] += share;
      else runs.push([chord, share]);
    }
    bars.push(runs.map(([chord, length]) => `${chord}:${length}`).join(" "));
  }
  const heading = `key: C\nmeter: ${beats}/${unit}\n`;
  return {
    id,
    composer,
    take,
    beats: marks.map(({ seconds }) => seconds),
    firstBar: first,
    quarters: (share * 4) / unit,
    chart: parseChart(`${heading}| ${bars.join(" | ")} |`),
    bare: parseChart(`${heading}| N.C. |`),
    oneMeter: signatures.size === 1,
  };
}

function fits(signature: string, inBar: number): boolean {
  const beats = Number(signature.split("/")[0]);
  return beats === inBar || (beats % 3 === 0 && beats > 3 && beats / 3 === inBar);
}

function mostCommon(values: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]![0];
}

/** Chord names with their tones over the root: the triads and sevenths of any harmony textbook [memory]. */
const KINDS: readonly (readonly [string, readonly number[]])[] = [
  ["", [0, 4, 7]],
  ["m", [0, 3, 7]],
  ["7", [0, 4, 7, 10]],
  ["m7", [0, 3, 7, 10]],
  ["maj7", [0, 4, 7, 11]],
  ["m7b5", [0, 3, 6, 10]],
  ["dim7", [0, 3, 6, 9]],
];
const ROOTS = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"];
/** Nats that another chord than the beat before costs, a tone beyond the triad, and the shares of tones of a chord. */
const CHANGE = 2.5;
const SEVENTH = 0.4;
const WITHIN = 0.85;

/** One chord for each beat: the best row of chords for what sounds, changes being dear (Viterbi 1967). */
function chordsOf(notes: readonly Note[], beats: readonly number[]): string[] {
  const states = ROOTS.flatMap((root, r) =>
    KINDS.map(([kind, tones]) => ({ name: root + kind, root: r, tones: tones.map((t) => (t + r) % 12) })),
  );
  const back: Int16Array[] = [];
  let score: Float64Array = new Float64Array(states.length);
  for (let b = 0; b < beats.length; b++) {
    const [from, to] = [beats[b]!, beats[b + 1] ?? beats[b]! + 1];
    const weight = new Float64Array(12);
    let bass = 128;
    for (const { onset, duration, pitch } of notes) {
      const shared = Math.min(to, onset + duration) - Math.max(from, onset);
      if (shared <= 0.02) continue;
      weight[pitch % 12]! += Math.min(1, shared / (to - from));
      if (shared > 0.3 * (to - from)) bass = Math.min(bass, pitch);
    }
    const best = score.reduce((most, value, s) => (value > score[most]! ? s : most), 0);
    const next = new Float64Array(states.length);
    const from_ = new Int16Array(states.length);
    states.forEach(({ root, tones }, s) => {
      let fit = tones.length > 3 ? -SEVENTH : 0;
      for (let pc = 0; pc < 12; pc++) {
        const inside = tones.includes(pc);
        fit +=
          weight[pc]! *
          Math.log(inside ? (WITHIN * 12) / tones.length : ((1 - WITHIN) * 12) / (12 - tones.length));
      }
      if (bass < 128 && bass % 12 === root) fit += 0.7;
      const stay = score[s]!;
      const change = score[best]! - CHANGE;
      from_[s] = stay >= change ? s : best;
      next[s] = fit + Math.max(stay, change);
    });
    back.push(from_);
    score = next;
  }
  let at = score.reduce((most, value, s) => (value > score[most]! ? s : most), 0);
  const names: string[] = [];
  for (let b = beats.length - 1; b >= 0; b--) {
    names.unshift(states[at]!.name);
    at = back[b]![at]!;
  }
  return names;
}
