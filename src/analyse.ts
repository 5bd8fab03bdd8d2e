/**
 * The whole flow on one page: bytes of a solo and a chart go in, the account of every note comes out.
 *
 *   bytes -> ingest -> take -> corrected -> hands parted -> chart settled -> aligned -> placed notes
 *         -> harmony, hands, rhythm (labels) -> motifs, phrases -> summaries (`account-parts.ts`)
 *         -> findings, weighed against lines drawn by chance (`drawn-lines.ts`), and the lens (`redraw.ts`)
 */
import { type AnalyseOptionsInput, type Analysis, SCHEMA_VERSION } from "./account.ts";
import { accountParts, chanceParts } from "./account-parts.ts";
import { align, keyMargin, placeNotes } from "./align/index.ts";
import { soloOf, sourceOf, withoutSlips } from "./assemble.ts";
import { chordSpans } from "./chart/index.ts";
import { correctTake, keyNames } from "./correct/index.ts";
import { drawnLines } from "./drawn-lines.ts";
import { factsOf, judgeFindings } from "./findings/index.ts";
import { shapesNamed } from "./hands/index.ts";
import { chartQuestion, hearTag, weighChart, withChartDoubt } from "./harmony/index.ts";
import { headApart } from "./head.ts";
import { readTake } from "./ingest/index.ts";
import { type Redraw, throughLens } from "./lens/index.ts";
import { checkOptions } from "./options.ts";
import { partHands } from "./parting/index.ts";
import { drawNotes } from "./redraw.ts";
import { phraseEnds } from "./rhythm/index.ts";
import { chartAccount, settleChart } from "./settle-chart.ts";

/** Changes whenever the same input may give another output. */
export const ANALYSIS_VERSION = "13";

/**
 * The account of a solo against a chart. A pure function: the same bytes, chart and options give the same account,
 * byte for byte.
 *
 * @param bytes a Standard MIDI File, a MusicXML document or compressed MusicXML
 * @param chartText the chart as text; null takes the chord symbols of the source, or else a proposal from its harmony
 * @throws Problem when the file, the chart or the options cannot be worked with
 */
export function analyse(
  bytes: Uint8Array,
  chartText: string | null,
  options: AnalyseOptionsInput = {},
): Analysis {
  const chosen = checkOptions(options);
  const read = readTake(bytes, chosen);
  const corrected = correctTake(read, chosen.corrections);
  const { take } = corrected;
  const parted = partHands(take, chosen);
  const settled = settleChart(chartText, take, parted.hands, chosen);
  const { chart } = settled;
  const spans = chordSpans(chart, { scales: chosen.scales });

  const alignment = align(take, chart, parted.hands, chosen);
  const tagged = hearTag(placeNotes(take, chart, spans, parted.hands, alignment), chart, spans);
  const placed = headApart(withoutSlips(tagged.placed), chosen.headChoruses ?? 0, alignment.choruses);
  const { solo, other } = soloOf(placed);

  const shapes = shapesNamed(chosen.shapes, chosen.ownShapes);
  const margins = new Map(take.notes.map((note, i) => [note.id, parted.hands[i]!.margin]));
  const { sources } = corrected;
  const settings = { chart, spans, alignment, margins, sources, shapes, options: chosen, take };
  const cuts = phraseEnds(solo, alignment);
  const { hand, ...parts } = accountParts(placed, settings, cuts);
  const breaths = new Set(parts.phrases.map((phrase) => phrase.lastNote));
  const about = { margin: () => keyMargin(solo, chart), sure: alignment.confidence };
  const chartFit = weighChart(solo, other, breaths, chart, spans, about);
  const account = {
    schemaVersion: SCHEMA_VERSION,
    analysisVersion: ANALYSIS_VERSION,
    source: sourceOf(bytes, read, chosen.name),
    chart: chartAccount(settled, spans),
    options: chosen,
    alignment: { ...withChartDoubt(alignment, chartFit, chosen.chartConfirmed), chartFit },
    ...parts,
    corrections: corrected.told(keyNames(parts.notes, chart.key)),
    warnings: [
      ...take.warnings,
      ...corrected.warnings,
      ...parted.warnings,
      ...settled.warnings,
      ...alignment.warnings,
      ...tagged.warnings,
      ...chartQuestion(chartFit, chosen.chartConfirmed),
    ],
  } as const;
  const facts = factsOf(account);
  const lines = drawnLines({ solo, chart, spans, alignment, parts, facts, seed: chosen.seed });
  const redraw: Redraw = (kind, draw, withHand) => {
    const drawn = drawNotes({ solo, chart, spans, alignment }, kind, draw, chosen.seed);
    const over = { parts, hand, cuts: kind === "moved in time" ? null : cuts, withHand };
    return { ...account, ...chanceParts(drawn, settings, over) };
  };
  return {
    ...account,
    ...judgeFindings(facts, lines),
    ...(chosen.lens === undefined ? {} : { lens: throughLens(account, chosen.lens, redraw) }),
  };
}
