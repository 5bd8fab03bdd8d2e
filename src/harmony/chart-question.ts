/** What is asked of a chart that the notes do not fit. */
import type { Alignment, Warning } from "../take/index.ts";
import type { ChartFit } from "./chart-fit.ts";

/**
 * The question that a doubtful chart raises; none where it fits, nothing can be said, or it has been confirmed.
 *
 * @example "The notes do not fit this chart. The same chart in C fits better. ..."
 */
export function chartQuestion(fit: ChartFit | null, confirmed: boolean): Warning[] {
  if (fit === null || fit.verdict === "fits" || confirmed) return [];
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
 * The alignment with the doubt about its chart in what it says of its bars: a bar of another chart's is no bar. A
 * chart that fits or has been confirmed changes nothing.
 */
export function withChartDoubt<T extends Alignment>(
  alignment: T,
  fit: ChartFit | null,
  confirmed: boolean,
): T {
  if (fit === null || fit.verdict === "fits" || confirmed) return alignment;
  const right = RIGHT_CHART * fit.score;
  const share = right / (right + (1 - RIGHT_CHART) * (1 - fit.score));
  return {
    ...alignment,
    confidence: alignment.confidence * share,
    bars: alignment.bars.map((bar) => ({ ...bar, confidence: bar.confidence * share })),
  };
}

function betterInWords({ better }: ChartFit): string {
  const best = better[0];
  if (best === undefined) return "";
  return `${best.chart === null ? "The same chart" : capital(best.chart)} in ${best.key} fits better.`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
