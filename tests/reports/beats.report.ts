/**
 * `npm run report -- beats FOLDER [CHART FILE]`: scores a folder of performances that carry beat annotations, for
 * those who hold such data. Beside each performance (`NAME.mid`, `NAME.musicxml`) stands `NAME.beats` (or `.tsv`,
 * `.txt`): one beat a line, seconds and, after a tab, an optional mark (a number that is 1 on the first beat of a
 * bar, or a word with "db" or "downbeat"). `NAME.chart` or `chart.txt` is the chart, in the chart format; without
 * one a chart is taken from the performance's own chord symbols, or one chord (no chord) in the meter of the marks.
 */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { align } from "../../src/align/index.ts";
import { chartOfTake, parseChart } from "../../src/chart/index.ts";
import type { Chart } from "../../src/chart/types.ts";
import { readTake } from "../../src/ingest/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { Problem, secondsAt, type Take } from "../../src/take/index.ts";
import { readBeatMarks, scoreBeats } from "../align/beat-score.ts";

export function report(args: string[]): void {
  const [folder, chartFile] = args;
  if (folder === undefined || !existsSync(folder)) {
    console.log("Name a folder of performances with beat annotations beside them (NAME.mid and NAME.beats).");
    return;
  }
  const scores: { beats: number; downbeats: number | null }[] = [];
  for (const file of readdirSync(folder).sort()) {
    if (!/\.(mid|midi|musicxml|xml|mxl)$/i.test(file)) continue;
    const stem = file.replace(/\.[^.]+$/, "");
    const marks = [".beats", ".tsv", ".txt"]
      .map((end) => join(folder, stem + end))
      .find((path) => existsSync(path));
    if (marks === undefined) {
      console.log(`${file}: no beats beside it, left out`);
      continue;
    }
    try {
      const score = scoreFile(
        join(folder, file),
        readFileSync(marks, "utf8"),
        chartText(folder, stem, chartFile),
      );
      scores.push(score);
      const bars = score.downbeats === null ? "" : `, first beats F ${score.downbeats.toFixed(4)}`;
      console.log(`${file}: beats F ${score.beats.toFixed(4)}${bars} (${score.method})`);
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
      console.log(`${file}: left out: ${error.message}`);
    }
  }
  if (scores.length === 0) return;
  const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
  console.log(`${scores.length} performances: mean beats F ${mean(scores.map((s) => s.beats)).toFixed(4)}`);
  const bars = scores.flatMap((s) => (s.downbeats === null ? [] : [s.downbeats]));
  if (bars.length > 0) console.log(`${bars.length} with first beats: mean F ${mean(bars).toFixed(4)}`);
}

function chartText(folder: string, stem: string, chartFile: string | undefined): string | null {
  const path = [join(folder, `${stem}.chart`), chartFile, join(folder, "chart.txt")].find(
    (candidate) => candidate !== undefined && existsSync(candidate),
  );
  return path === undefined ? null : readFileSync(path, "utf8");
}

/** Scores one performance. Beats of the meter are compared, dotted quarters in compound meters. */
export function scoreFile(
  path: string,
  annotation: string,
  chart: string | null,
): { beats: number; downbeats: number | null; method: string } {
  const take = readTake(readFileSync(path), { name: path });
  const marks = readBeatMarks(annotation);
  const laid = chart === null ? (chartOfTake(take) ?? bareChart(marks)) : parseChart(chart);
  return scoreTake(take, marks, laid);
}

function scoreTake(take: Take, marks: ReturnType<typeof readBeatMarks>, chart: Chart) {
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  const alignment = align(take, chart, hands, { method: "auto", tempo: null, anchors: [] });
  const beat = chart.meter.unit >= 8 && chart.meter.beats % 3 === 0 ? 1.5 : 4 / chart.meter.unit;
  const bar = (chart.meter.beats * 4) / chart.meter.unit;
  const every = (step: number) => {
    const times: number[] = [];
    const [from, to] = [marks.beats[0]! - 0.1, marks.beats.at(-1)! + 0.1];
    for (let k = -400; k < 40_000; k++) {
      const t = secondsAt(alignment.map, k * step);
      if (t > to) break;
      if (t >= from) times.push(t);
    }
    return times;
  };
  return {
    beats: scoreBeats(marks.beats, every(beat)).f,
    downbeats: marks.downbeats.length === 0 ? null : scoreBeats(marks.downbeats, every(bar)).f,
    method: alignment.method,
  };
}

/** One bar without a chord, as long as most bars between marked first beats. */
function bareChart(marks: ReturnType<typeof readBeatMarks>): Chart {
  const { beats, downbeats } = marks;
  const counts = downbeats.slice(1).map((to, i) => beats.filter((t) => t >= downbeats[i]! && t < to).length);
  const sorted = [...counts].sort((a, b) => a - b);
  const usual = sorted[sorted.length >> 1] ?? 4;
  return parseChart(`key: C\nmeter: ${usual === 3 ? 3 : 4}/4\n| N.C. |`);
}
