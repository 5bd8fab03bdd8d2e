/** The takes of the demo class with their accounts, for what is written from them. */
import { readFileSync } from "node:fs";
import type { Manifest } from "../../corpus/corpus-files.ts";
import type { Analysis } from "../../src/account.ts";
import { analyse } from "../../src/analyse.ts";
import { chartText, formChart } from "../../src/chart/index.ts";

const ROOT = new URL("../../corpus/", import.meta.url);

export interface DemoTake {
  readonly id: string;
  readonly analysis: Analysis;
}

export function demoTakes(): DemoTake[] {
  const manifest = JSON.parse(readFileSync(new URL("manifest.json", ROOT), "utf8")) as Manifest;
  return manifest.takes.map((take) => {
    const { form, key, file } = manifest.charts.find(({ id }) => id === take.chart)!;
    const chart =
      form === null ? readFileSync(new URL(file!, ROOT), "utf8") : chartText(formChart(form, key));
    const bytes = new Uint8Array(readFileSync(new URL(take.file, ROOT)));
    return { id: take.id, analysis: analyse(bytes, chart, { name: take.file, shapes: [...take.shapes] }) };
  });
}
