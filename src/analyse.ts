/**
 * The whole flow on one page: bytes of a solo and a chart go in, the account of every note comes out.
 *
 *   bytes -> ingest -> take -> hands parted -> chart settled -> aligned -> placed notes
 *         -> harmony, hands, rhythm (labels) -> motifs, phrases -> summaries -> findings
 */
import { type AnalyseOptionsInput, type Analysis, SCHEMA_VERSION } from "./account.ts";
import { align, placeNotes } from "./align/index.ts";
import { accountNotes, handNotes, motifNotes, soloOf, sourceOf, swingIn } from "./assemble.ts";
import { chordSpans } from "./chart/index.ts";
import { registerOf, summariseChoruses } from "./compare/index.ts";
import { findFindings } from "./findings/index.ts";
import { explainHands, shapesNamed } from "./hands/index.ts";
import { chartQuestion, labelNotes, weighChart } from "./harmony/index.ts";
import { readTake } from "./ingest/index.ts";
import { findMotifs } from "./motif/index.ts";
import { checkOptions } from "./options.ts";
import { partHands } from "./parting/index.ts";
import { describeTime, findPhrases, findRuns } from "./rhythm/index.ts";
import { chartAccount, settleChart } from "./settle-chart.ts";

/** Changes whenever the same input may give another output. */
export const ANALYSIS_VERSION = "3";

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
  const take = readTake(bytes, chosen);
  const parted = partHands(take, chosen);
  const settled = settleChart(chartText, take, parted.hands, chosen);
  const { chart } = settled;
  const spans = chordSpans(chart, { scales: chosen.scales });

  const alignment = align(take, chart, parted.hands, chosen);
  const placed = placeNotes(take, chart, spans, parted.hands, alignment);
  const { solo, other } = soloOf(placed);

  const labels = labelNotes(placed, chart, spans, take.keys);
  const shapes = shapesNamed(chosen.shapes, chosen.ownShapes);
  const evidence = chosen.shapes === null;
  const hand = explainHands(handNotes(placed, labels), spans, chart, { shapes, evidence });

  const phrases = findPhrases(solo, chart, alignment);
  const breaths = new Set(phrases.map((phrase) => phrase.lastNote));
  const chartFit = weighChart(solo, other, breaths, chart, spans);
  const runs = findRuns(solo);
  const rhythm = describeTime(solo, other, chart, alignment, take.format);
  const motifs = findMotifs(motifNotes(placed, labels, hand.notes, phrases), chosen);

  const notes = accountNotes({ placed, labels, hand, phrases, motifs, parted, chart, spans });
  const account = {
    schemaVersion: SCHEMA_VERSION,
    analysisVersion: ANALYSIS_VERSION,
    source: sourceOf(bytes, take, chosen.name),
    chart: chartAccount(settled, spans),
    options: chosen,
    alignment: { ...alignment, chartFit },
    notes,
    placements: hand.placements,
    handFit: hand.handFit,
    phrases,
    runs,
    motifs,
    choruses: summariseChoruses({
      ...hand,
      notes,
      phrases,
      runs,
      motifs,
      alignment,
      chart,
      swingOf: swingIn(placed, chart),
    }),
    register: registerOf(solo.map((note) => note.pitch)),
    rhythm,
    warnings: [
      ...take.warnings,
      ...parted.warnings,
      ...settled.warnings,
      ...alignment.warnings,
      ...chartQuestion(chartFit, chosen.chartConfirmed),
    ],
  } as const;
  return { ...account, findings: findFindings(account) };
}
