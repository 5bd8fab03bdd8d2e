/** A head that is set apart is no solo: what is said of the solo is said of the rest. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { analyse } from "../../src/analyse.ts";
import { chartText, formChart } from "../../src/chart/index.ts";

const take = new Uint8Array(
  readFileSync(new URL("../../corpus/takes/maren-quick-change.mid", import.meta.url)),
);
const chart = chartText(formChart("blues-quick-change", "F"));

it("is counted neither in shares nor in ideas, devices, phrases and findings", () => {
  const whole = analyse(take, chart);
  const rest = analyse(take, chart, { headChoruses: 1 });
  const head = rest.notes.filter((note) => note.head);
  expect(head.map(({ id }) => id)).toEqual(
    whole.notes.filter((note) => note.solo && note.chorus === 1).map(({ id }) => id),
  );
  expect(head.every((note) => !note.solo && note.lineRole === null && note.motifs.length === 0)).toBe(true);
  expect(head[0]!.account).toContain(", in the head");
  expect(rest.choruses.map((chorus) => chorus.notes)).toEqual([
    0,
    ...whole.choruses.slice(1).map((chorus) => chorus.notes),
  ]);
  const ids = new Set(head.map(({ id }) => id));
  const told = [
    ...rest.motifs.flatMap((motif) => motif.occurrences.map(({ firstNote }) => firstNote)),
    ...rest.devices.flatMap((device) => device.notes),
    ...rest.phrases.map((phrase) => phrase.firstNote),
    ...rest.findings.flatMap((finding) => finding.evidence),
  ];
  expect(told.filter((id) => ids.has(id))).toEqual([]);
});

it("may not be all that there is", () => {
  expect(() => analyse(take, chart, { headChoruses: 99 })).toThrow(/leaves nothing of a take/);
});
