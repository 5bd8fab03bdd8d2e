/** The measures that a corpus is looked at by, with their units and how a value is said. */
import type { CorpusMeasureName } from "../../server/contract/corpus-results.ts";
import { percent } from "../../src/words/index.ts";

export interface CorpusMeasure {
  readonly id: CorpusMeasureName;
  readonly name: string;
  /** For the head of a column. */
  readonly short: string;
  readonly say: (value: number) => string;
}

export const CORPUS_MEASURES: readonly CorpusMeasure[] = [
  { id: "tempo", name: "Tempo (♩ a minute)", short: "tempo", say: (v) => v.toFixed(0) },
  { id: "swing", name: "Swing, long part over short", short: "swing", say: (v) => `${v.toFixed(2)} : 1` },
  { id: "placementShare", name: "Notes in a hand placement", short: "in placements", say: percent },
  { id: "runShare", name: "Notes in stepwise runs", short: "in runs", say: percent },
  { id: "rests", name: "Time in which the solo rests", short: "rests", say: percent },
  { id: "perSecond", name: "Notes a second", short: "notes a second", say: (v) => v.toFixed(1) },
];

/** "+4.1", "−0.3": a robust score with its sign. */
export function scoreText(score: number): string {
  return `${score < 0 ? "−" : "+"}${Math.abs(score).toFixed(1)}`;
}
