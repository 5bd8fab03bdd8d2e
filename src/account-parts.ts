/** From placed notes to the parts of the account that they decide: for the take, and for each draw of chance. */
import type { AnalyseOptions, Analysis } from "./account.ts";
import {
  accountNotes,
  handNotes,
  motifNotes,
  soloOf,
  swingIn,
  withFingers,
  withLabels,
  withPhrases,
} from "./assemble.ts";
import type { Chart, ChordSpan } from "./chart/index.ts";
import { registerOf, summariseChoruses } from "./compare/index.ts";
import { findDevices } from "./devices/index.ts";
import { explainHands, type HandAccount, type shapesNamed } from "./hands/index.ts";
import { labelNotes } from "./harmony/index.ts";
import { findMotifs } from "./motif/index.ts";
import { type Cut, describeTime, findPhrases, findRuns } from "./rhythm/index.ts";
import type { Alignment, PlacedNote, Take } from "./take/index.ts";

/** All that stays the same when a take's notes are drawn anew. */
export interface Setting {
  readonly chart: Chart;
  readonly spans: readonly ChordSpan[];
  readonly alignment: Alignment;
  /** How clear each note's hand is, by the note's id. */
  readonly margins: ReadonlyMap<string, number>;
  /** Each note's name in its source, by the note's id. */
  readonly sources: ReadonlyMap<string, string>;
  readonly shapes: ReturnType<typeof shapesNamed>;
  readonly options: AnalyseOptions;
  readonly take: Pick<Take, "format" | "keys">;
}

export type AccountParts = Pick<
  Analysis,
  | "notes"
  | "placements"
  | "handFit"
  | "phrases"
  | "runs"
  | "motifs"
  | "devices"
  | "choruses"
  | "register"
  | "rhythm"
>;

/**
 * The parts of the account that placed notes decide, and the hand that they come from.
 *
 * @param cuts where the phrases of the line end
 */
export function accountParts(
  placed: readonly PlacedNote[],
  setting: Setting,
  cuts: readonly Cut[],
): AccountParts & { readonly hand: HandAccount } {
  const { chart, spans, alignment, margins, sources, shapes, options, take } = setting;
  const { solo, other } = soloOf(placed);
  const labelled = withLabels(placed, labelNotes(placed, chart, spans, take.keys));
  const hand = explainHands(handNotes(labelled), spans, chart, {
    shapes,
    evidence: options.shapes === null,
    ...sizeOf(options),
  });
  const phrases = findPhrases(solo, chart, alignment, cuts);
  const runs = findRuns(solo);
  const phrased = withPhrases(withFingers(labelled, hand.notes), phrases);
  const motifs = findMotifs(motifNotes(phrased), options);
  const labels = labelled.map((note) => note.label);
  const devices = findDevices(placed, labels, spans, phrases);
  const notes = accountNotes({ phrased, motifs, margins, sources, chart, spans, told: true });
  const swing = swingIn(placed, chart);
  return {
    notes,
    placements: hand.placements,
    handFit: hand.handFit,
    phrases,
    runs,
    motifs,
    devices,
    choruses: summariseChoruses({
      ...hand,
      notes,
      phrases,
      runs,
      motifs,
      alignment,
      chart,
      swingOf: swing,
    }),
    register: registerOf(solo.map((note) => note.pitch)),
    rhythm: describeTime(solo, other, chart, alignment, take.format),
    hand,
  };
}

/** What a draw of chance takes over from the take itself. */
export interface DrawnOver {
  readonly parts: AccountParts;
  readonly hand: HandAccount;
  /** Where the phrases end, where the draw leaves the rhythm as it is; null where it moves notes in time. */
  readonly cuts: readonly Cut[] | null;
  /** True where the draw's own placements and fingers are asked for. */
  readonly withHand: boolean;
}

/**
 * The same for the line of a draw of chance: without comping, sentences and ideas, which no draw is asked for, and
 * with the take's own rhythm or hand where the draw does not touch them.
 */
export function chanceParts(solo: readonly PlacedNote[], setting: Setting, over: DrawnOver): AccountParts {
  const { chart, spans, alignment, margins, sources, shapes, options, take } = setting;
  const labelled = withLabels(solo, labelNotes(solo, chart, spans, take.keys));
  const hand = over.withHand
    ? explainHands(handNotes(labelled), spans, chart, {
        alternatives: false,
        shapes,
        evidence: options.shapes === null,
        ...sizeOf(options),
      })
    : over.hand;
  const phrases = findPhrases(solo, chart, alignment, over.cuts ?? undefined);
  const runs = findRuns(solo);
  const phrased = withPhrases(withFingers(labelled, hand.notes), phrases);
  const notes = accountNotes({ phrased, motifs: [], margins, sources, chart, spans, told: false });
  const swingOf = over.cuts === null ? swingIn(solo, chart) : () => null;
  return {
    notes,
    placements: hand.placements,
    handFit: hand.handFit,
    phrases,
    runs,
    motifs: [],
    devices: [],
    choruses: summariseChoruses({ ...hand, notes, phrases, runs, motifs: [], alignment, chart, swingOf }),
    register: over.parts.register,
    rhythm: over.cuts === null ? describeTime(solo, [], chart, alignment, take.format) : over.parts.rhythm,
  };
}

/** The size of the player's hand, where it was set. */
function sizeOf({ handSize }: AnalyseOptions): { size?: NonNullable<AnalyseOptions["handSize"]> } {
  return handSize === undefined ? {} : { size: handSize };
}
