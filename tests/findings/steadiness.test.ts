/**
 * What is said of a take does not turn into its opposite when bars or chords of it change by a few: the demo class by
 * its files, and solos that people improvised where people placed them (the half that nothing was fitted to). What is
 * the opposite of what is told by the table of exclusions.
 */
import { describe, expect, it } from "vitest";
import { analyse } from "../../src/analyse.ts";
import { chordSpans, parseChart } from "../../src/chart/index.ts";
import { EXCLUSIONS } from "../../src/findings/exclusions.ts";
import { judgeFindings, RULES } from "../../src/findings/index.ts";
import { demoAccount, demoBytes, demoChart, demoClass } from "../demo-class.ts";
import { type SoloOnChart, solosOnCharts } from "../outside/chart-trials.ts";
import { factsByTruth } from "../outside/open-accounts.ts";
import { OPEN_SOLOS_MISSING } from "../outside/open-solos.ts";

/** Milliseconds: takes are analysed whole, several times. */
const PATIENCE = 900_000;
const SOLOS = 16;
/** Quarter-note beats by which the notes of a bar are moved, and seconds by which a bar line of the demo class is. */
const MOVED_BEATS = 0.5;
const MOVED_SECONDS = 0.12;

const kinds = new Map(RULES.map(({ id, kind }) => [id, kind]));
const isJudged = (...pair: readonly string[]) => pair.every((id) => kinds.get(id) !== "notice");

/** Pairs of the table of which one was said before and the other is said now. */
function turned(before: ReadonlySet<string>, after: ReadonlySet<string>): string[] {
  return EXCLUSIONS.filter(([a, b]) => isJudged(a, b)).flatMap(([a, b]) =>
    (before.has(a) && after.has(b)) || (before.has(b) && after.has(a)) ? [`${a}, ${b}`] : [],
  );
}

/** The chart with some bars playing the chords of the bar before them. */
function withBarsHeld(text: string, held: readonly number[]): string {
  const chart = parseChart(text);
  const bars = chart.bars.map(({ number, chords }) =>
    number > 1 && held.includes(number) ? "%" : chords.map((one) => `${one.symbol}:${one.beats}`).join(" "),
  );
  const heading = text.split("\n").filter((line) => /^(?:key|meter|idiom):/.test(line));
  return [...heading, `| ${bars.join(" | ")} |`].join("\n");
}

const said = (findings: readonly { readonly id: string }[]) => new Set(findings.map(({ id }) => id));

describe("the demo class, when a little of a take changes", () => {
  it.each(demoClass.takes)(
    "$id says nothing that is the opposite",
    (take) => {
      const own = demoAccount(take, { chartConfirmed: true });
      const before = said(own.findings);
      const options = { name: take.file, shapes: [...take.shapes], chartConfirmed: true };
      const bar = own.alignment.bars[Math.floor(own.alignment.bars.length / 2)];
      const anchors =
        bar === undefined
          ? []
          : [{ seconds: bar.start + MOVED_SECONDS, chorus: bar.chorus, bar: bar.bar, beat: 1 }];
      for (const [what, chart, more] of [
        ["two bars hold their chord", withBarsHeld(demoChart(take), [2, 10]), {}],
        ["three bars hold their chord", withBarsHeld(demoChart(take), [4, 7, 12]), {}],
        ["a bar line is moved", demoChart(take), { anchors }],
      ] as const) {
        const after = said(analyse(demoBytes(take), chart, { ...options, ...more }).findings);
        expect(turned(before, after), what).toEqual([]);
      }
    },
    PATIENCE,
  );
});

describe.skipIf(OPEN_SOLOS_MISSING !== null)("solos by people, when a little of them changes", () => {
  const findings = (on: SoloOnChart) => {
    const { facts, lines } = factsByTruth(on, null);
    return said(judgeFindings(facts, lines).findings);
  };
  const onChart = (on: SoloOnChart, text: string): SoloOnChart => {
    const chart = parseChart(text);
    return { ...on, chart, spans: chordSpans(chart) };
  };
  const withBarMoved = (on: SoloOnChart): SoloOnChart => {
    const beats = (on.chart.meter.beats * 4) / on.chart.meter.unit;
    const middle = Math.floor(on.positions[on.positions.length >> 1]! / beats);
    const positions = on.positions.map((position) =>
      Math.floor(position / beats) === middle ? position + MOVED_BEATS : position,
    );
    return { ...on, positions: positions.toSorted((a, b) => a - b) };
  };

  it(
    "say nothing that is the opposite",
    () => {
      const found: string[] = [];
      const held = solosOnCharts().filter(({ solo }) => solo.half === 1);
      for (const on of held.slice(0, SOLOS)) {
        const before = findings(on);
        const { chart } = on.solo;
        const changes = [
          onChart(on, withBarsHeld(chart, [2, 10])),
          onChart(on, withBarsHeld(chart, [5, 7, 12])),
          withBarMoved(on),
        ];
        for (const changed of changes)
          found.push(...turned(before, findings(changed)).map((pair) => `${on.solo.id}: ${pair}`));
      }
      expect(found).toEqual([]);
    },
    PATIENCE,
  );
});
