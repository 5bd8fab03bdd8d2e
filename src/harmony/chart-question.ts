/** What is asked of a chart that the notes do not fit. */
import { mean } from "d3-array";
import type { Alignment, Warning } from "../take/index.ts";
import type { ChartFit } from "./chart-fit.ts";

/**
 * The question that a doubtful chart raises; none where it fits, nothing can be said, or it has been confirmed.
 *
 * @example "The notes do not fit this chart. The same chart in C fits better. ..."
 */
export function chartQuestion(fit: ChartFit | null, confirmed: boolean): Warning[] {
  if (fit === null || fit.verdict === "fits" || confirmed) return [];
  if (fit.verdict === "cannot be told") {
    const message =
      "Whether this is the chart that was played cannot be told while it is not sure where its bars lie. Tell the tempo, tap the beat or pin a bar line, or confirm the chart.";
    return [{ code: "chart-cannot-be-told", message, where: null }];
  }
  const doubtful = fit.verdict === "doubtful";
  return [
    {
      code: doubtful ? "chart-doubtful" : "chart-does-not-fit",
      message: [
        doubtful
          ? "It is not sure that this is the chart that was played."
          : "The notes do not fit this chart.",
        betterInWords(fit),
        "Change the chart, its key or where bar 1 falls, or confirm it; until then nothing is said of the harmony.",
      ]
        .filter((sentence) => sentence !== "")
        .join(" "),
      where: null,
    },
  ];
}

/** Share of takes that are given the chart that was played. [practice] */
const RIGHT_CHART = 0.9;

/**
 * Notes that were laid in the wrong bars fit the right chart badly as well: the log odds of a bar fall by this share of
 * those by which the chart falls short of one that fits. Chosen with the rules of `src/align/lattice/found-shares.ts`: under
 * each of them .3 to .5 says best which bars of open solos are right.
 */
const SHORT = 0.4;
/** What counts as fitting and as not fitting at all. */
const FITTING = { most: 0.95, least: 0.05 } as const;

/**
 * The alignment with the doubt about its chart in what it says of its bars: a bar of another chart's is no bar, and
 * notes that fit no chord may stand in the wrong bar. A chart that fits well or has been confirmed changes nothing.
 */
export function withChartDoubt<T extends Alignment>(
  alignment: T,
  fit: ChartFit | null,
  confirmed: boolean,
): T {
  if (fit === null || confirmed) return alignment;
  const right = RIGHT_CHART * fit.score;
  const share = fit.verdict === "fits" ? 1 : right / (right + (1 - RIGHT_CHART) * (1 - fit.score));
  // Bars that notation states, or pins tell, are not heard by their notes.
  const told = alignment.method === "notated" || alignment.anchors.length > 1;
  const short = told ? 0 : SHORT * (logOdds(FITTING.most) - logOdds(fit.score));
  const doubted = (sure: number) =>
    share * (short <= 0 || sure <= 0 ? sure : sure / (sure + (1 - sure) * Math.exp(short)));
  const bars = alignment.bars.map((bar) => ({ ...bar, confidence: doubted(bar.confidence) }));
  if (short <= 0)
    return share === 1 ? alignment : { ...alignment, confidence: share * alignment.confidence, bars };
  return { ...alignment, confidence: mean(bars.map(({ confidence }) => confidence)) ?? 0, bars };
}

/** Log odds of a score, held between what counts as fitting and as not fitting at all. */
function logOdds(score: number): number {
  const held = Math.max(FITTING.least, Math.min(FITTING.most, score));
  return Math.log(held / (1 - held));
}

function betterInWords({ better }: ChartFit): string {
  const best = better[0];
  if (best === undefined) return "";
  return `${best.chart === null ? "The same chart" : capital(best.chart)} in ${best.key} fits better.`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
