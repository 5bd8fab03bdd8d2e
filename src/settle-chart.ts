/** Which chart a take is heard against: the caller's, or the one that its source carries. */
import type { AnalyseOptions, Analysis } from "./account.ts";
import type { NoteHand } from "./align/types.ts";
import {
  type Chart,
  type ChordSpan,
  chartOfTake,
  chartText,
  keyInBar,
  keyName,
  parseKey,
  proposeChart,
  readChart,
} from "./chart/index.ts";
import { type Note, Problem, type Take, type Warning } from "./take/index.ts";

export interface SettledChart {
  readonly chart: Chart;
  readonly source: Analysis["chart"]["source"];
  readonly warnings: readonly Warning[];
}

/** A proposal less sure than this is not worked with unasked. [practice] */
const LEAST_CONFIDENCE = 0.5;

/**
 * The caller's chart; without one, the chord symbols of the source; without those, the form that the comping hand
 * plays, when it is clear enough, at the tempo of the options if they have one.
 *
 * @throws Problem for a chart with a mistake, and "chart-missing" when there is nothing to go by
 */
export function settleChart(
  text: string | null,
  take: Take,
  hands: readonly NoteHand[],
  options: Pick<AnalyseOptions, "key" | "idiom" | "tempo">,
): SettledChart {
  const found = findChart(text, take, hands, options.tempo);
  const { chart } = found;
  return {
    ...found,
    chart: {
      ...chart,
      key: options.key === null ? chart.key : parseKey(options.key),
      idiom: options.idiom ?? chart.idiom,
    },
  };
}

export function chartAccount(settled: SettledChart, spans: readonly ChordSpan[]): Analysis["chart"] {
  const { chart, source } = settled;
  let span = 0;
  return {
    name: chart.name,
    key: keyName(chart.key),
    meter: chart.meter,
    idiom: chart.idiom,
    bars: chart.bars.map((bar) => ({
      number: bar.number,
      key: keyName(keyInBar(chart, bar)),
      chords: bar.chords.map(({ symbol, beat, beats }) => {
        const { function: role, numeral, scale } = spans[span++]!;
        return { symbol, beat, beats, function: role, numeral, scale };
      }),
    })),
    source,
    text: chartText(chart),
  };
}

function findChart(
  text: string | null,
  take: Take,
  hands: readonly NoteHand[],
  tempo: number | null,
): SettledChart {
  if (text !== null && text.trim() !== "") return { ...readChart(text), source: "given" };
  const printed = chartOfTake(take);
  if (printed !== null) {
    return {
      chart: printed,
      source: printedIn(take),
      warnings: [
        {
          code: "chart-from-source",
          message:
            "No chart was given; the chord symbols in the file are used. Check them and correct what is not so.",
          where: null,
        },
      ],
    };
  }
  const proposal = proposeChart(take, compingOf(take, hands), { tempo });
  if (proposal === null || proposal.confidence < LEAST_CONFIDENCE) throw noChart();
  return {
    chart: proposal.chart,
    source: "proposed",
    warnings: [
      {
        code: "chart-proposed",
        message: `No chart was given; ${proposal.description} is proposed from what the other hand plays. Check it before you go by it.`,
        where: null,
      },
    ],
  };
}

/** What the hand that does not carry the solo plays. */
export function compingOf(take: Take, hands: readonly NoteHand[]): Note[] {
  return take.notes.filter((_, i) => !hands[i]!.solo);
}

/** Where a chart stands that the source itself carries. */
export function printedIn(take: Take): "source harmony" | "source text" {
  return take.format === "musicxml" ? "source harmony" : "source text";
}

export function noChart(): Problem {
  return new Problem(
    "chart-missing",
    "There is no chart: none was given, the file carries no chord symbols, and the comping is not clear enough to propose one",
    null,
    "Type the chords (| F7 | Bb7 | F7 | F7 | ...) or choose a form and its key.",
  );
}
