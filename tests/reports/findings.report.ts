/**
 * `npm run report -- findings [SOLOS] [SEED]`: what is said of open solos where people placed them, beside the same
 * solos with their pitches shuffled, drawn at random, and moved in time: praises and tasks a take, against their
 * bounds, and the share of takes on which each rule is said. A seed makes other copies.
 *
 * `npm run report -- findings generated [TAKES]`: how often each rule speaks over generated takes, and is chosen.
 */
import { generateTake } from "../../corpus/generator/generate-take.ts";
import { randomSpec } from "../../corpus/generator/random-spec.ts";
import { analyse } from "../../src/analyse.ts";
import { chartText } from "../../src/chart/index.ts";
import { allFindings, RULES } from "../../src/findings/index.ts";
import { solosOnCharts } from "../outside/chart-trials.ts";
import { findingsByTruth } from "../outside/open-accounts.ts";
import { OPEN_SOLOS_MISSING } from "../outside/open-solos.ts";

const COPIES = [null, "pitches shuffled", "pitches drawn", "moved in time"] as const;

/** On average of takes; shuffled and drawn pitches at most, real solos at least; a rule on at most this share of them. */
const BOUNDS = { praises: 0.3, tasks: 0.5, real: 1.5, rule: 0.35 } as const;

export function report([first = "60", second]: string[]): void {
  if (first === "generated") generated(Number(second ?? 60));
  else if (OPEN_SOLOS_MISSING !== null) console.log(`skipped: ${OPEN_SOLOS_MISSING}`);
  else ofOpenSolos(Number(first), Number(second ?? 4242));
}

interface Told {
  praises: number;
  tasks: number;
  judgedTasks: number;
  takes: number;
  readonly rules: Map<string, number>;
}

function ofOpenSolos(most: number, seed: number): void {
  const solos = solosOnCharts()
    .filter(({ solo }) => solo.half === 1)
    .slice(0, most);
  const columns = COPIES.map((copy) => {
    const told: Told = { praises: 0, tasks: 0, judgedTasks: 0, takes: solos.length, rules: new Map() };
    for (const on of solos) {
      for (const { id, kind, basis } of findingsByTruth(on, copy, seed).findings) {
        if (kind === "works") told.praises++;
        if (kind === "practise") told.tasks++;
        if (kind === "practise" && basis === "chance") told.judgedTasks++;
        told.rules.set(id, (told.rules.get(id) ?? 0) + 1);
      }
    }
    return told;
  });
  const row = (of: (told: Told) => number) =>
    columns.map((told) => (of(told) / told.takes).toFixed(2)).join(", ");
  console.log(`${solos.length} solos, seed ${seed}: real, shuffled, random, moved in time`);
  console.log(`praises a take: ${row(({ praises }) => praises)}`);
  console.log(`tasks a take: ${row(({ tasks }) => tasks)}`);
  console.log(`tasks that chance decides: ${row(({ judgedTasks }) => judgedTasks)}`);
  const [real, shuffled, random] = columns as [Told, Told, Told];
  for (const { praises, judgedTasks, takes } of [shuffled, random]) {
    bound("praises of chance", praises / takes, "at most", BOUNDS.praises);
    bound("tasks of chance", judgedTasks / takes, "at most", BOUNDS.tasks);
  }
  bound("praises of real solos", real.praises / real.takes, "at least", BOUNDS.real);
  for (const [id, count] of [...real.rules].sort((a, b) => b[1] - a[1])) {
    const rule = RULES.find((one) => one.id === id)!;
    const shares = columns.map((told) => percent((told.rules.get(id) ?? 0) / told.takes));
    const often = count / real.takes > BOUNDS.rule ? `  above ${percent(BOUNDS.rule).trim()}` : "";
    console.log(`  ${shares.join(" ")}  ${rule.kind.padEnd(9)} ${id}${often}`);
  }
}

function bound(name: string, value: number, way: "at most" | "at least", limit: number): void {
  const met = way === "at most" ? value <= limit : value >= limit;
  console.log(`${name}: ${value.toFixed(2)}, ${way} ${limit}: ${met ? "met" : "MISSED"}`);
}

function generated(count: number): void {
  const spoke = new Map<string, number>();
  const chosen = new Map<string, number>();
  const kinds = { works: 0, practise: 0, notice: 0 };
  for (let seed = 1; seed <= count; seed++) {
    const spec = randomSpec(seed);
    const account = analyse(generateTake(seed, spec).bytes, chartText(spec.chart), { name: spec.title });
    for (const { id } of allFindings(account)) spoke.set(id, (spoke.get(id) ?? 0) + 1);
    for (const { id, kind } of account.findings) {
      chosen.set(id, (chosen.get(id) ?? 0) + 1);
      kinds[kind]++;
    }
  }
  console.log(`${count} generated takes: share in which each rule speaks, and is chosen`);
  for (const rule of [...RULES].sort((a, b) => (spoke.get(b.id) ?? 0) - (spoke.get(a.id) ?? 0))) {
    const shares = [spoke, chosen].map((counts) => percent((counts.get(rule.id) ?? 0) / count));
    console.log(`${shares.join(" ")}  ${rule.kind.padEnd(9)} ${rule.id}`);
  }
  console.log(
    `a take gets ${(kinds.works / count).toFixed(1)} that work, ${(kinds.practise / count).toFixed(1)} to practise, ${(kinds.notice / count).toFixed(1)} notices`,
  );
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`.padStart(6);
}
