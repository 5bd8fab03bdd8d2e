/** The charts that a take may be played on, for its player to look at, correct and confirm. */
import type { AnalyseOptionsInput } from "./account.ts";
import { barText } from "./chart/chart-text.ts";
import { type Chart, chartOfTake, chartText, keyName, proposeChart, recogniseForm } from "./chart/index.ts";
import { readTake } from "./ingest/index.ts";
import { checkOptions } from "./options.ts";
import { partHands } from "./parting/index.ts";
import { compingOf, noChart, printedIn } from "./settle-chart.ts";

export interface ProposedChart {
  /** "12-bar blues in F", "16 bars in Ebm". */
  readonly description: string;
  /** In the chart format. */
  readonly text: string;
  readonly key: string;
  readonly meter: Chart["meter"];
  readonly idiom: Chart["idiom"];
  /** Id of the form that it follows, or null. */
  readonly form: string | null;
  /** 0 to 1; 1 for what the source prints. */
  readonly confidence: number;
  /** Chords of each bar in the chart format, "F7:3 Bdim7:1", and how sure they are, 0 to 1. */
  readonly bars: readonly { readonly bar: number; readonly chords: string; readonly confidence: number }[];
}

export interface Proposal {
  /** Where the charts come from: chord symbols of the source, or what the comping hand plays. */
  readonly source: "source harmony" | "source text" | "comping";
  /** The likeliest first; at least one. */
  readonly charts: readonly ProposedChart[];
}

/**
 * What a take says of its chart: its own chord symbols, else the forms and chords that its comping hand may play.
 * However unsure, they are named: it is for the player to judge.
 *
 * @throws Problem when the file or the options cannot be worked with, and "chart-missing" when nothing is heard
 */
export function proposeFor(bytes: Uint8Array, options: AnalyseOptionsInput = {}): Proposal {
  const chosen = checkOptions(options);
  const take = readTake(bytes, chosen);
  const printed = chartOfTake(take);
  if (printed !== null) {
    const form = recogniseForm(printed);
    const description = form?.description ?? `${printed.bars.length} bars in ${keyName(printed.key)}`;
    const sure = printed.bars.map(() => 1);
    return {
      source: printedIn(take),
      charts: [asProposed(printed, { description, form: form?.form ?? null, confidence: 1 }, sure)],
    };
  }
  const { hands } = partHands(take, chosen);
  const heard = proposeChart(take, compingOf(take, hands), { tempo: chosen.tempo });
  if (heard === null) throw noChart();
  return {
    source: "comping",
    charts: heard.candidates.map(({ chart, description, form, confidence, bars }) =>
      asProposed(
        chart,
        { description, form: form?.form ?? null, confidence },
        bars.map((bar) => bar.confidence),
      ),
    ),
  };
}

function asProposed(
  chart: Chart,
  what: Pick<ProposedChart, "description" | "form" | "confidence">,
  sure: readonly number[],
): ProposedChart {
  return {
    ...what,
    text: chartText(chart),
    key: keyName(chart.key),
    meter: chart.meter,
    idiom: chart.idiom,
    bars: chart.bars.map((bar, index) => ({
      bar: bar.number,
      chords: barText(bar, chart.meter),
      confidence: sure[index]!,
    })),
  };
}
