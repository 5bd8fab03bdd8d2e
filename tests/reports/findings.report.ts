/** How often each rule speaks over generated takes, and how often it is chosen: `npm run report -- findings 100`. */
import { generateTake } from "../../corpus/generator/generate-take.ts";
import { randomSpec } from "../../corpus/generator/random-spec.ts";
import { analyse } from "../../src/analyse.ts";
import { chartText } from "../../src/chart/index.ts";
import { allFindings, RULES } from "../../src/findings/index.ts";

export function report(args: string[]): void {
  const count = Number(args[0] ?? 60);
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
  const percent = (n: number) => `${Math.round((100 * n) / count)} %`.padStart(6);
  console.log(`${count} generated takes: share in which each rule speaks, and is chosen`);
  for (const rule of [...RULES].sort((a, b) => (spoke.get(b.id) ?? 0) - (spoke.get(a.id) ?? 0))) {
    console.log(
      `${percent(spoke.get(rule.id) ?? 0)} ${percent(chosen.get(rule.id) ?? 0)}  ${rule.kind.padEnd(9)} ${rule.id}`,
    );
  }
  console.log(
    `a take gets ${(kinds.works / count).toFixed(1)} that work, ${(kinds.practise / count).toFixed(1)} to practise, ${(kinds.notice / count).toFixed(1)} notices`,
  );
}
