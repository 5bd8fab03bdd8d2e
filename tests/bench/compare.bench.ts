import { readFileSync } from "node:fs";
import { analyse } from "../../src/analyse.ts";
import { chartText, formChart } from "../../src/chart/index.ts";
import { compareAll, compareSides, poolSamples, type Sample, sampleOf } from "../../src/compare/index.ts";
import { allFindings } from "../../src/findings/index.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/index.ts";
import { exerciseNamed, practiceSheet } from "../../src/practice/index.ts";
import type { Bench } from "./types.ts";

/** As many draws as the statistics make: random deals, bootstrap rounds; sixteen measures and four distributions. */
const DEALS = 1999;
const DRAWS = 999;
const MEASURES = 16;
const DISTRIBUTIONS = 4;

const ROUNDS = 3;

function seconds(work: () => unknown): number {
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < ROUNDS; round++) {
    const start = performance.now();
    work();
    best = Math.min(best, (performance.now() - start) / 1000);
  }
  return best;
}

/** The bare arithmetic of the same draws: one number a phrase, dealt and summed, without any measure. */
function bareDraws(phrases: number): number {
  const values = Float64Array.from({ length: phrases }, (_, i) => (i * 7919) % 101);
  const half = Math.floor(phrases / 2);
  let state = 1;
  const next = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 4_294_967_296;
  };
  let total = 0;
  for (let test = 0; test < MEASURES + DISTRIBUTIONS; test++) {
    for (let deal = 0; deal < DEALS; deal++) {
      let sum = 0;
      for (let i = 0; i < half; i++) {
        const j = i + Math.floor(next() * (phrases - i));
        const held = values[i]!;
        values[i] = values[j]!;
        values[j] = held;
        sum += values[i]!;
      }
      for (let i = half; i < phrases; i++) sum -= values[i]!;
      total += sum;
    }
  }
  for (let test = 0; test < MEASURES; test++) {
    for (let draw = 0; draw < DRAWS; draw++) {
      for (let i = 0; i < phrases; i++) total += values[Math.floor(next() * phrases)]!;
    }
  }
  return total;
}

export const bench: Bench = {
  name: "compare",
  run() {
    const chart = chartText(formChart("blues-quick-change", "F"));
    const accounts = ["tilda-week-1", "tilda-week-8", "maren-quick-change", "jonas-quick-change"].map((id) =>
      analyse(new Uint8Array(readFileSync(new URL(`../../corpus/takes/${id}.mid`, import.meta.url))), chart, {
        name: `${id}.mid`,
      }),
    );
    const sides = accounts.map((account) => sampleOf(account));
    const pooled = (side: Sample, times: number) =>
      poolSamples(
        side.name,
        Array.from({ length: times }, () => side),
      );
    const line = (name: string, measured: number, floor: number, what: string) =>
      `${name}: ${(1000 * measured).toFixed(1)} ms, ${Number((measured / floor).toPrecision(2))} times ${what}`;

    const phrases = (all: readonly Sample[]) => all.reduce((sum, side) => sum + side.units.length, 0);
    const [a, b] = [pooled(sides[0]!, 4), pooled(sides[1]!, 4)];
    const [a2, b2] = [pooled(sides[0]!, 8), pooled(sides[1]!, 8)];
    const once = seconds(() => compareSides(a, b, 1));
    const twice = seconds(() => compareSides(a2, b2, 1));
    const bare = seconds(() => bareDraws(phrases([a, b])));
    const row = Array.from({ length: 24 }, (_, i) => sides[i % sides.length]!);
    const many = seconds(() => compareAll(row, 1));
    const account = accounts[2]!;
    const text = JSON.stringify(account);
    const parsed = seconds(() => JSON.parse(text));
    const found = seconds(() => allFindings(account));
    const sheet = seconds(() => practiceSheet(account, BUILT_IN_SHAPES, { keys: ["C", "Eb", "G", "B"] }));
    const last = practiceSheet(account, BUILT_IN_SHAPES, { keys: ["C", "Eb", "G", "B"] }).exercises.at(-1)!;
    const single = seconds(() =>
      exerciseNamed(account, BUILT_IN_SHAPES, { keys: ["C", "Eb", "G", "B"] }, last.id),
    );
    return [
      line(`two sides of ${a.units.length} and ${b.units.length} phrases`, once, bare, "the bare draws"),
      line("twice as many phrases", twice, once, "the time of half of them (2 is linear)"),
      line("a row of 24 sides", many, once, "two sides"),
      line("all rules over one account", found, parsed, "reading the account's JSON"),
      line("a practice sheet in five keys", sheet, parsed, "reading the account's JSON"),
      line("one exercise of it by itself", single, sheet, "the whole sheet"),
    ];
  },
};
