/** What the account of a note rests on, where that is in doubt: that this is the chart, and that the bar lies there. */
import type { Analysis } from "../account.ts";
import { percent } from "../words/index.ts";
import { SURE_PLACE, sureOfBar } from "./asked-place.ts";

/** True while the notes do not clearly fit the chart and nobody has said that it is the right one. */
export function chartIsAsked({ alignment, options }: Pick<Analysis, "alignment" | "options">): boolean {
  const { chartFit } = alignment;
  return chartFit !== null && chartFit.verdict !== "fits" && !options.chartConfirmed;
}

/**
 * "If this is the chart and the bar lies here (35 % sure)", to be set before what is said of the notes of a bar, or of
 * all notes where no bar is given; null where nothing of it is in doubt.
 */
export function restsOn(
  analysis: Analysis,
  place: { readonly chorus: number; readonly bar: number } | null = null,
): string | null {
  const { confidence } = analysis.alignment;
  const sure = place === null ? confidence : (sureOfBar(analysis, place.chorus, place.bar) ?? confidence);
  const lies = place === null ? "the bar lines lie so" : "the bar lies here";
  const doubted = [
    ...(chartIsAsked(analysis) ? ["this is the chart"] : []),
    ...(sure < SURE_PLACE ? [`${lies} (${percent(sure)} sure)`] : []),
  ];
  return doubted.length === 0 ? null : `If ${doubted.join(" and ")}`;
}
