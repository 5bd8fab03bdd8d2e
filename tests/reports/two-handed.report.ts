/**
 * `npm run report -- two-handed`: how well the beats of free playing with both hands are found, with chords read off
 * what sounds and without any, by tables counted in pieces of other composers.
 *
 * `npm run report -- two-handed whole`: the same of the whole alignment, as users get it, with how it was found, how many
 * bars are right of those said to be so sure, and the other readings that it names.
 *
 * `npm run report -- two-handed tables`: counts all pieces into `src/align/free/free-tables.ts`.
 */

import { quartersOfBeat } from "../../src/align/free/free-form.ts";
import type { FreeTables } from "../../src/align/free/free-model.ts";
import { layFreely } from "../../src/align/free/lay-freely.ts";
import { align } from "../../src/align/index.ts";
import type { Chart } from "../../src/chart/types.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { positionAt, secondsAt } from "../../src/take/index.ts";
import { scoreBeats } from "../align/beat-score.ts";
import { freeTablesFrom } from "../align/count-free.ts";
import { PERFORMANCES_THERE, readTwoHanded, type TwoHanded } from "../align/two-handed.ts";
import { writeTables } from "./write-tables.ts";

const FILE = new URL("../../src/align/free/free-tables.ts", import.meta.url);

export function report(args: readonly string[]): void {
  if (!PERFORMANCES_THERE) {
    console.log("The performances are not beside the project: skipped");
    return;
  }
  if (args[0] === "whole") printWhole();
  else if (args[0] !== "tables") printHeldOut();
  else {
    writeTables({
      file: FILE,
      told: [
        "Counted in pieces that people played with both hands, with known beats, and with chords that were read off what",
        "sounds between them (`npm run report -- two-handed tables`). No piece can be read from them.",
      ],
      name: "FREE_TABLES",
      type: "FreeTables",
      from: "./free-model.ts",
      tables: freeTablesFrom(readTwoHanded()),
    });
  }
}

interface Whole {
  readonly f: number;
  readonly told: string;
  /** Bars of takes whose beats are said: how sure, and whether the bar line lies within half a beat of the true one. */
  readonly bars: readonly { readonly sure: number; readonly right: boolean }[];
}

function printWhole(): void {
  const rows = { chart: [] as Whole[], bare: [] as Whole[] };
  for (const half of [0, 1] as const) {
    const tables = freeTablesFrom(readTwoHanded(half === 0 ? 1 : 0));
    for (const piece of readTwoHanded(half)) {
      for (const name of ["chart", "bare"] as const) {
        const found = wholeOf(piece, piece[name], tables);
        rows[name].push(found);
        console.log(`${piece.id} ${name === "chart" ? "with chords" : "without"}: ${found.told}`);
      }
    }
  }
  for (const name of ["chart", "bare"] as const) {
    const f = rows[name].reduce((sum, row) => sum + row.f, 0) / rows[name].length;
    console.log(`${name === "chart" ? "with chords" : "without"}: beats F ${f.toFixed(3)} as users get it`);
    for (let decile = 0; decile < 10; decile++) {
      const bars = rows[name]
        .flatMap((row) => row.bars)
        .filter(({ sure }) => Math.min(9, Math.floor(10 * sure)) === decile);
      if (bars.length === 0) continue;
      const said = bars.reduce((sum, { sure }) => sum + sure, 0) / bars.length;
      const right = bars.filter((bar) => bar.right).length / bars.length;
      console.log(`  said ${said.toFixed(2)}: right ${right.toFixed(2)} of ${bars.length} bars`);
    }
  }
}

function wholeOf({ take, beats, firstBar }: TwoHanded, chart: Chart, tables: FreeTables): Whole {
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  const { map, method, confidence, bars, alternatives, tempo } = align(
    take,
    chart,
    hands,
    { method: "auto", tempo: null, anchors: [] },
    tables,
  );
  const quarters = quartersOfBeat(chart);
  const inBar = (4 * chart.meter.beats) / chart.meter.unit / quarters;
  const found: number[] = [];
  const last = positionAt(map, take.notes.at(-1)!.onset + 0.1) / quarters;
  for (let k = Math.ceil(map[0]!.position / quarters - 1e-6); k <= last; k++) {
    found.push(secondsAt(map, k * quarters));
  }
  const { f } = scoreBeats(beats, found);
  const usual = (row: readonly number[]) =>
    row
      .slice(1)
      .map((at, k) => at - row[k]!)
      .sort((a, b) => a - b)[row.length >> 1]!;
  const beat = usual(beats);
  const octave = Math.abs(Math.log(usual(found) / beat)) < Math.log(1.25);
  const downs = beats.filter((_, k) => (k - firstBar) % inBar === 0);
  const isRight = (number: number, start: number) =>
    chart.bars.length > 1
      ? Math.abs((beats[firstBar + number * inBar] ?? Number.POSITIVE_INFINITY) - start) < beat / 2
      : octave && downs.some((at) => Math.abs(at - start) < beat / 2);
  const others = (alternatives ?? []).map(({ why, score }) => `${why} ${score.toFixed(2)}`).join(", ");
  return {
    f,
    told: `beats F ${f.toFixed(3)}, ${method}, ${confidence.toFixed(2)} sure${others === "" ? "" : `; or ${others}`}`,
    bars:
      tempo === null
        ? []
        : bars.map(({ chorus, bar, start, confidence: sure }) => ({
            sure,
            right: isRight((chorus - 1) * chart.bars.length + bar - 1, start),
          })),
  };
}

function printHeldOut(): void {
  const scores: { readonly chords: number; readonly bare: number; readonly oneMeter: boolean }[] = [];
  for (const half of [0, 1] as const) {
    const tables = freeTablesFrom(readTwoHanded(half === 0 ? 1 : 0));
    for (const { id, take, chart, bare, beats, oneMeter } of readTwoHanded(half)) {
      const found = [chart, bare].map(
        (one) => scoreBeats(beats, [...(layFreely(take.notes, one, tables)?.beats ?? [])]).f,
      );
      scores.push({ chords: found[0]!, bare: found[1]!, oneMeter });
      console.log(`${id}: beats F ${found[0]!.toFixed(3)} with chords, ${found[1]!.toFixed(3)} without`);
    }
  }
  for (const [name, rows] of [
    ["all", scores],
    ["of one meter", scores.filter(({ oneMeter }) => oneMeter)],
  ] as const) {
    const mean = (of: (row: (typeof scores)[number]) => number) =>
      (rows.reduce((sum, row) => sum + of(row), 0) / rows.length).toFixed(3);
    console.log(
      `${name} (${rows.length}): beats F ${mean((row) => row.chords)} with chords, ${mean((row) => row.bare)} without`,
    );
  }
}
