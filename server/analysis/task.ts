/** What goes to an analysing worker and what comes back; both survive the way between threads. */
import type { MessagePort } from "node:worker_threads";
import type { AnalyseOptionsInput, Analysis, LensState } from "../../src/account.ts";
import type { Tally } from "../corpus/tally.ts";
import type { SerialisedProblem } from "../serialise-problem.ts";

export interface AnalysisTask {
  readonly bytes: Uint8Array;
  /** Chart text; null lets the take bring its own. */
  readonly chart: string | null;
  readonly options: AnalyseOptionsInput;
}

/** As it goes to a thread, which says on the port that it has begun. */
export interface ThreadTask extends AnalysisTask {
  readonly begun: MessagePort;
}

/** The few facts of an account that lists are made of, so that a list never opens accounts. */
export interface AnalysisFacts {
  readonly chartName: string | null;
  readonly key: string;
  readonly idiom: string;
  readonly method: string;
  readonly confidence: number;
  readonly choruses: number;
  readonly tempo: number | null;
  readonly notes: number;
  readonly soloNotes: number;
  readonly seconds: number;
  readonly warnings: number;
  /** Codes of the warnings, each once, in alphabetical order; missing in facts from before. */
  readonly warningCodes?: readonly string[];
  /** "4/4"; missing in facts from before. */
  readonly meter?: string;
  readonly swing: number | null;
  /** Shares of solo notes in a placement and in stepwise runs, and of time at rest. */
  readonly placementShare: number;
  readonly runShare: number;
  readonly rests: number;
  readonly perSecond: number;
  readonly low: number | null;
  readonly high: number | null;
  readonly motifs: number;
  readonly phrases: number;
  /** How far the take reaches its lens; null without one, missing in facts from before. */
  readonly lens?: { readonly id: string; readonly state: LensState } | null;
}

/** A motif of one take, as far as the vocabulary of a corpus needs it. */
export interface FoundIdea {
  readonly viewpoint: string;
  /** Symbols of the pattern as a JSON list, so that it can be sought again as it is. */
  readonly pattern: string;
  /** Number of notes. */
  readonly length: number;
  readonly occurrences: number;
}

/** An analysis as it is stored: the account, and what lists, summaries and searches need of it. */
export interface MadeAnalysis {
  /** JSON, compressed. */
  readonly account: Uint8Array;
  readonly facts: AnalysisFacts;
  readonly tallies: readonly Tally[];
  readonly ideas: readonly FoundIdea[];
  /** The solo as `encodeLine` writes it. */
  readonly line: Uint8Array;
  /** The same as `packStored` makes it. */
  readonly packed: Uint8Array;
  /** Its tables as `packBlock` writes them, each under its `blockName`. */
  readonly blocks: readonly { readonly name: string; readonly block: Uint8Array }[];
}

/** Code of the problem that an analysis ends with through a fault of the program. */
export const BROKEN_OFF = "analysis-broke-off";

export type AnalysisResult =
  | ({ readonly ok: true } & MadeAnalysis)
  | {
      readonly ok: false;
      readonly problem: SerialisedProblem;
    };

export function ideasOf(analysis: Analysis): FoundIdea[] {
  return analysis.motifs.map(({ viewpoint, pattern, length, occurrences }) => ({
    viewpoint,
    pattern: JSON.stringify(pattern),
    length,
    occurrences: occurrences.length,
  }));
}

export function factsOf(analysis: Analysis): AnalysisFacts {
  return {
    chartName: analysis.chart.name,
    key: analysis.chart.key,
    idiom: analysis.chart.idiom,
    method: analysis.alignment.method,
    confidence: analysis.alignment.confidence,
    choruses: analysis.alignment.choruses,
    tempo: analysis.alignment.tempo?.median ?? null,
    notes: analysis.source.notes,
    soloNotes: analysis.notes.filter((note) => note.solo).length,
    seconds: analysis.source.seconds,
    warnings: analysis.warnings.length,
    warningCodes: [...new Set(analysis.warnings.map(({ code }) => code))].sort(),
    meter: `${analysis.chart.meter.beats}/${analysis.chart.meter.unit}`,
    swing: analysis.rhythm.swing?.median ?? null,
    placementShare: analysis.handFit.share,
    runShare: share(analysis, (chorus) => chorus.runShare),
    rests: analysis.rhythm.rests,
    perSecond: analysis.rhythm.density.perSecond,
    low: analysis.register.low,
    high: analysis.register.high,
    motifs: analysis.motifs.length,
    phrases: analysis.phrases.length,
    lens: analysis.lens === undefined ? null : { id: analysis.lens.lens, state: analysis.lens.state },
  };
}

/** A share of the choruses as a share of the take, weighted by their notes. */
function share(analysis: Analysis, of: (chorus: Analysis["choruses"][number]) => number): number {
  const notes = analysis.choruses.reduce((sum, chorus) => sum + chorus.notes, 0);
  return notes === 0
    ? 0
    : analysis.choruses.reduce((sum, chorus) => sum + of(chorus) * chorus.notes, 0) / notes;
}
