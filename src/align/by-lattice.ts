import { mean } from "d3-array";
import { quartersPerBar } from "../chart/index.ts";
import type { Chart } from "../chart/types.ts";
import { mod } from "../pitch/index.ts";
import { logistic } from "../statistics/logistic.ts";
import type { AlignmentAlternative, IrregularBars, Take, TimeMap, Warning } from "../take/index.ts";
import { alternativeOf } from "./alternatives.ts";
import { anchorPosition } from "./anchors.ts";
import { barSureness } from "./bar-sureness.ts";
import { beginning } from "./begins-elsewhere.ts";
import { fileMap } from "./click.ts";
import { clickQuestion } from "./click-question.ts";
import { clickSlips } from "./click-slips.ts";
import { doubtedBeside, irregularWarnings, withoutSqueeze } from "./irregular.ts";
import { CLICK_FROM, clickOdds, held } from "./lattice/click-odds.ts";
import type { Evidence } from "./lattice/evidence.ts";
import { chosenTempo, fileBeats, GATHERED, GATHERED_SURELY, gathering } from "./lattice/file-beats.ts";
import { type LatticeKind, sureBy } from "./lattice/found-shares.ts";
import type { LatticePin } from "./lattice/lattice-types.ts";
import {
  type FileBars,
  layAtAnyPace,
  layAtPace,
  layOnBeats,
  lineEvidence,
  type Reading,
} from "./lattice/lay-line.ts";
import { strokesOf } from "./lattice/line-features.ts";
import type { LineTables } from "./lattice/line-model.ts";
import { type OnBeat, onBeats } from "./on-beats.ts";
import { smoothMap } from "./smooth-map.ts";
import type { AlignmentMethod, AlignOptions, NoteHand } from "./types.ts";

export interface LatticeFound {
  readonly method: AlignmentMethod;
  readonly map: TimeMap;
  readonly bars: null;
  readonly confidence: (bar: number) => number;
  readonly warnings: readonly Warning[];
  readonly alternatives: readonly AlignmentAlternative[];
  /** Bars left out or put in; none where the beat itself is in doubt. */
  readonly irregular: readonly IrregularBars[];
  /** How the other hand keeps to the beat of the map; null where it is not to be asked. */
  readonly onBeat: OnBeat | null;
}

/**
 * Lays a take by one sum over all readings. Null for takes that are followed otherwise: in compound meters without a
 * click.
 */
export function byLattice(
  take: Take,
  chart: Chart,
  hands: readonly NoteHand[],
  options: AlignOptions,
): LatticeFound | null {
  const strokes = strokesOf(take.notes, hands);
  const grid =
    options.method === "tracked" || !take.tempoStated ? null : fileBeats(take, strokes, pulseOf(chart));
  const gathered = grid === null ? 0 : gathering(strokes, grid.times);
  const offered = grid !== null && asTold(take, options);
  const comped = strokes.line.filter((line) => line === 0).length > COMPED * strokes.count;
  const chosen = chosenTempo(take);
  const plain = comped || !chosen ? GATHERED_SURELY : GATHERED;
  const trusted = offered && (options.method === "click" || gathered > plain);
  // The tables of what lines do in a beat were counted in simple meters.
  if (!trusted && pulseOf(chart) !== 1) return null;
  const evidence = lineEvidence(take.notes, strokes, chart, options.lines);
  const pins = options.anchors.map((anchor) => ({
    seconds: anchor.seconds,
    beat: anchorPosition(anchor, chart) / evidence.form.quarters,
  }));
  // Of a told tempo and a hand that plays the chart the hand tells more.
  const sought: LatticeKind = comped ? "with comping" : "sought tempo";
  if (trusted || (offered && (chosen || gathered > GATHERED))) {
    const fileBars = take.meterStated === true ? fileBarsOf(take, chart, grid.first, evidence) : null;
    const onGrid = layOnBeats(evidence, grid.times, fileBars, pins);
    const freely = trusted ? [] : layAtAnyPace(evidence, pins);
    const [free] = freely;
    const odds =
      onGrid === null
        ? Number.NEGATIVE_INFINITY
        : trusted
          ? Number.POSITIVE_INFINITY
          : clickOdds(gathered, onGrid, freely, chosen);
    const share = logistic(odds);
    if (onGrid !== null && (odds > CLICK_FROM || free === undefined)) {
      return onFileGrid(take, evidence, onGrid, chart, {
        kind: kindOf(pins, fileBars === null ? "known beats" : "known bars"),
        trusted,
        share,
        times: grid.times,
        pinned: pins.length > 0,
        fileBars,
      });
    }
    if (free === undefined) return null;
    const read = followed(
      evidence,
      [held(free, 1 - share)],
      chart,
      kindOf(pins, sought),
      pins,
      pins.length > 1,
    );
    return { ...read, warnings: [...read.warnings, ...clickQuestion(take, share)] };
  }
  const pace = toldPace(options, evidence, pins);
  const readings =
    pace === null
      ? layAtAnyPace(evidence, pins)
      : [layAtPace(evidence, pace, pins)].filter((one) => one !== null);
  if (readings.length === 0) return null;
  const kind = pace === null || comped ? sought : "told tempo";
  return followed(evidence, readings, chart, kindOf(pins, kind), pins, pace !== null);
}

/** Share of strokes that the other hand has where it plays along. */
const COMPED = 0.05;

/** Whose curve tells how sure a bar is: pins tell more than what they are added to. */
function kindOf(pins: readonly LatticePin[], kind: LatticeKind): LatticeKind {
  return pins.length > 1 ? "pinned" : kind;
}

/** Strokes below which nothing is said of a count-in. */
const COUNTED_FROM = 8;

/**
 * Quarter notes of count-in before the form in a file whose own bars are the form's: whole bars, 0 where the form
 * begins with the file; and how sure that is, 0 to 1.
 *
 * @param lines tables of lines; those in use where none are given
 */
export function countInOf(
  take: Take,
  chart: Chart,
  hands: readonly NoteHand[],
  lines?: LineTables,
): { readonly quarters: number; readonly sure: number } {
  const strokes = strokesOf(take.notes, hands);
  const none = { quarters: 0, sure: 1 };
  if (strokes.count < COUNTED_FROM) return none;
  const evidence = lineEvidence(take.notes, strokes, chart, lines);
  const { form } = evidence;
  const grid = fileBeats(take, strokes, form.quarters);
  const bars = fileBarsOf(take, chart, grid.first, evidence);
  if (bars === null) return none;
  const reading = layOnBeats(evidence, grid.times, { ...bars, share: 1 - 1e-6 });
  if (reading === null) return none;
  const before = Math.round((reading.beats[0]! - grid.times[0]!) / (grid.times[1]! - grid.times[0]!));
  const beats = grid.first + before - reading.firstBeat;
  if (beats < 0 || beats % form.bar !== 0) return none;
  return {
    quarters: beats * form.quarters,
    sure: sureOf(evidence, "known bars")(mean(reading.sure)!),
  };
}

function sureOf({ form }: Evidence, kind: LatticeKind) {
  return sureBy(kind, form.count / form.bar);
}

/** Share by which the file's tempo may differ from a told one. */
const TOLD_WITHIN = 0.08;

/** True unless a tempo was told that is not the file's. */
function asTold({ tempos }: Take, { tempo }: AlignOptions): boolean {
  if (tempo === null) return true;
  return tempos.some(({ quartersPerMinute }) => Math.abs(quartersPerMinute / tempo - 1) <= TOLD_WITHIN);
}

function pulseOf(chart: Chart): number {
  return chart.meter.unit < 8 ? 1 : chart.meter.beats % 3 === 0 ? 1.5 : 0.5;
}

/** Share of takes whose bars are those that the file states. */
const STATED_BARS = 0.9999;

/** Where the file begins its bars; null where its meter is not the chart's. */
function fileBarsOf(take: Take, chart: Chart, first: number, { form }: Evidence): FileBars | null {
  const [meter, second] = take.meters;
  if (meter === undefined || second !== undefined) return null;
  if (meter.beats !== chart.meter.beats || meter.unit !== chart.meter.unit) return null;
  return { at: mod(-first, form.bar), share: STATED_BARS };
}

/** Beats a minute as told, or as two pins tell them; null when nothing does. */
function toldPace(options: AlignOptions, { form }: Evidence, pins: readonly LatticePin[]): number | null {
  if (options.tempo !== null) return options.tempo / form.quarters;
  const [first, last] = [pins[0], pins.at(-1)];
  if (first === undefined || last === undefined || last.beat <= first.beat) return null;
  const pace = (60 * (last.beat - first.beat)) / (last.seconds - first.seconds);
  return pace > 30 && pace < 400 ? pace : null;
}

interface OnGrid {
  readonly kind: LatticeKind;
  readonly trusted: boolean;
  /** How surely the take was played to these beats. */
  readonly share: number;
  readonly pinned: boolean;
  /** Seconds of the file's beats. */
  readonly times: Float64Array;
  readonly fileBars: FileBars | null;
}

function onFileGrid(
  take: Take,
  evidence: Evidence,
  laid: Reading,
  chart: Chart,
  { kind, trusted, share, pinned, times, fileBars }: OnGrid,
): LatticeFound {
  const { quarters } = evidence.form;
  const { reading, irregular } = pinned
    ? { reading: laid, irregular: [] }
    : clickSlips(evidence, laid, times, fileBars, chart);
  // The file's clock and the form's differ by whole beats.
  const [seconds] = reading.beats;
  const mark = take.tempos.findLast((tempo) => tempo.seconds <= seconds! + 1e-6) ?? take.tempos[0]!;
  const onFile = mark.tick / take.ticksPerQuarter + ((seconds! - mark.seconds) * mark.quartersPerMinute) / 60;
  const shift = Math.round((reading.firstBeat * quarters - onFile) / quarters) * quarters;
  const map = fileMap(take, shift);
  const found = sureOf(evidence, kind);
  return {
    method: "click",
    map,
    bars: null,
    confidence: doubtedBeside(
      barSureness(evidence, reading, chart, (agreed) => share * found(agreed)),
      irregular,
      chart,
    ),
    warnings: [
      ...beginning(reading, evidence, chart),
      ...irregularWarnings(irregular, quartersPerBar(chart.meter)),
    ],
    alternatives: [],
    irregular,
    onBeat: trusted ? null : onBeats(evidence, map),
  };
}

/**
 * Mean sureness of a take below which its beat is not said: only where its chords are. Of 59 such open solos, each laid by
 * tables of other players, a fifth of the bars are on their beats.
 */
const REFUSED_BELOW = 0.3;

/**
 * @param pins where some are set, no bar is sought that was left out or put in
 * @param told whether the tempo, or two places, were told: such a take is laid whatever it fits
 */
function followed(
  evidence: Evidence,
  readings: readonly Reading[],
  chart: Chart,
  kind: LatticeKind,
  pins: readonly LatticePin[],
  told: boolean,
): LatticeFound {
  const [laid] = readings;
  const found = sureOf(evidence, kind);
  const sure = laid!.sure.reduce((sum, share) => sum + found(share), 0) / evidence.strokes.count;
  const refused = !told && sure < REFUSED_BELOW;
  const { reading, irregular } =
    refused || pins.length > 0 ? { reading: laid!, irregular: [] } : withoutSqueeze(evidence, laid!, chart);
  const confidence = doubtedBeside(barSureness(evidence, reading, chart, found), irregular, chart);
  const message =
    "No steady beat was found that fits the chart well enough; the chart was followed by what fits best, and beats, timing and swing are not given. Tell the tempo, tap the beat or pin a bar line";
  const map = smoothMap(evidence, reading);
  return {
    method: refused ? "rubato" : "tracked",
    map,
    bars: null,
    confidence,
    warnings: refused
      ? [{ code: "no-beat", message, where: null }]
      : [
          ...beginning(reading, evidence, chart),
          ...irregularWarnings(irregular, quartersPerBar(chart.meter)),
        ],
    alternatives: told
      ? []
      : readings.slice(1).map((other) => alternativeOf(other, reading, evidence, chart)),
    irregular,
    onBeat: onBeats(evidence, map),
  };
}
