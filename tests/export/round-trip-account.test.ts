/** A take that is written and read again gives the same account, note for note: nothing that it uses is lost. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Manifest } from "../../corpus/corpus-files.ts";
import type { Analysis } from "../../src/account.ts";
import { analyse } from "../../src/analyse.ts";
import { chartText, formChart } from "../../src/chart/index.ts";
import { scoreOfTake } from "../../src/export/score-of-take.ts";
import { writeMidi } from "../../src/export/write-midi.ts";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import { readTake } from "../../src/ingest/index.ts";

const ROOT = new URL("../../corpus/", import.meta.url);
const manifest = JSON.parse(readFileSync(new URL("manifest.json", ROOT), "utf8")) as Manifest;

/**
 * What is said of the take, with seconds to a microsecond: sums of floating-point numbers depend on their order. Of
 * several ways to word a finding one is taken by the file's bytes, so words are not compared.
 */
function said(analysis: Analysis): unknown {
  const { source: _, warnings: __, ...rest } = analysis;
  const account = { ...rest, findings: rest.findings.map(({ text: ___, ...finding }) => finding) };
  return JSON.parse(
    JSON.stringify(account, (_key, value: unknown) =>
      typeof value === "number" ? Math.round(value * 1e6) / 1e6 : value,
    ),
  );
}

describe.each(manifest.takes)("$id written and read again", ({ chart: of, file, shapes }) => {
  it("gives the same account", () => {
    const bytes = new Uint8Array(readFileSync(new URL(file, ROOT)));
    const { form, key, file: chartFile } = manifest.charts.find(({ id }) => id === of)!;
    const chart =
      form === null ? readFileSync(new URL(chartFile!, ROOT), "utf8") : chartText(formChart(form, key));
    const take = readTake(bytes, { name: file });
    const again =
      take.format === "midi" ? writeMidi(take) : new TextEncoder().encode(writeMusicXml(scoreOfTake(take)));
    const options = { name: file, shapes: [...shapes] };
    expect(said(analyse(again, chart, options))).toEqual(said(analyse(bytes, chart, options)));
  });
});
