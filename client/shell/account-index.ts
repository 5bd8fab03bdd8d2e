/** What the pictures look up in an account again and again. It orders and finds; it computes no music. */
import { greatest, rollup } from "d3";
import type {
  AccountMotif,
  AccountNote,
  AccountPhrase,
  AccountPlacement,
  Analysis,
} from "../../src/account.ts";
import { keyboardName, signatureOf } from "../../src/pitch/index.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { selectableFindings } from "../findings/lens-words.ts";
import type { Selection } from "./selection.ts";

export interface AccountIndex {
  readonly analysis: Analysis;
  /** Solo notes in order of time. */
  readonly solo: readonly AccountNote[];
  readonly other: readonly AccountNote[];
  readonly note: ReadonlyMap<string, AccountNote>;
  /** Place of a solo note among the solo notes. */
  readonly order: ReadonlyMap<string, number>;
  readonly motif: ReadonlyMap<string, AccountMotif>;
  readonly placement: ReadonlyMap<string, AccountPlacement>;
  readonly phrase: ReadonlyMap<string, AccountPhrase>;
  /** Findings, and places of the lens, by what they are selected by. */
  readonly finding: ReturnType<typeof selectableFindings>;
  readonly choruses: readonly number[];
  /** Bars of the chart and whatever the take has before and after them (0, -1, ... and n+1, ...). */
  readonly bars: readonly number[];
  readonly chartBars: number;
  /** Quarter notes of a bar. */
  readonly barQuarters: number;
  /** Solo notes of one bar of one chorus. */
  inBar(chorus: number, bar: number): readonly AccountNote[];
  /** Solo notes from the first to the last named one. */
  between(first: string, last: string): readonly AccountNote[];
  /** Where a note starts in its bar, 0 to 1 from bar line to bar line. */
  within(note: AccountNote): number;
  /** Where a note starts in the take, in bars of the chart from the first bar line (negative in a pickup). */
  barsFromStart(note: AccountNote): number;
  bar(chorus: number, bar: number): Analysis["alignment"]["bars"][number] | null;
  chords(bar: number): Analysis["chart"]["bars"][number]["chords"];
  /**
   * The name of a key of the piano in this take, as the account spells it, most often first.
   * @param among notes to look at first: those of the phrase or placement that is spoken of
   */
  keyName(pitch: number, among?: readonly AccountNote[]): string;
  /** Ids of the notes that a selection means; null when nothing is selected. */
  /** The key that a bar of the chart changes to; null where it stands in the key of the bar before. */
  newKey(bar: number): string | null;
  notesOf(selection: Selection): ReadonlySet<string> | null;
}

export function indexAccount(analysis: Analysis): AccountIndex {
  const solo = analysis.notes
    .filter((note) => note.solo)
    .sort((a, b) => a.onset - b.onset || a.pitch - b.pitch);
  const order = new Map(solo.map((note, i) => [note.id, i]));
  const chartBars = analysis.chart.bars.length;
  const barTimes = new Map(analysis.alignment.bars.map((bar) => [`${bar.chorus}.${bar.bar}`, bar]));
  const byBar = new Map<string, AccountNote[]>();
  for (const note of solo) {
    const key = `${note.chorus}.${note.bar}`;
    const list = byBar.get(key);
    if (list) list.push(note);
    else byBar.set(key, [note]);
  }
  const choruses = [
    ...new Set([...analysis.alignment.bars.map((bar) => bar.chorus), ...solo.map((note) => note.chorus)]),
  ].sort((a, b) => a - b);
  const barNumbers = new Set(analysis.chart.bars.map((bar) => bar.number));
  for (const note of solo) barNumbers.add(note.bar);
  const { beats, unit } = analysis.chart.meter;

  const index: AccountIndex = {
    analysis,
    solo,
    other: analysis.notes.filter((note) => !note.solo),
    note: new Map(analysis.notes.map((note) => [note.id, note])),
    order,
    motif: new Map(analysis.motifs.map((motif) => [motif.id, motif])),
    placement: new Map(analysis.placements.map((placement) => [placement.id, placement])),
    phrase: new Map(analysis.phrases.map((phrase) => [phrase.id, phrase])),
    finding: selectableFindings(analysis),
    choruses,
    bars: [...barNumbers].sort((a, b) => a - b),
    chartBars,
    barQuarters: (beats * 4) / unit,
    inBar: (chorus, bar) => byBar.get(`${chorus}.${bar}`) ?? [],
    between(first, last) {
      const [a, b] = [order.get(first), order.get(last)];
      return a === undefined || b === undefined ? [] : solo.slice(a, b + 1);
    },
    within(note) {
      // Where there is no beat (rubato) the bar's performed time says how far in the note is.
      if (note.beat !== null) return (note.beat - 1 + lateness(note, unit)) / beats;
      const time = barTimes.get(`${note.chorus}.${note.bar}`);
      return time ? Math.min(1, Math.max(0, (note.onset - time.start) / (time.end - time.start))) : 0;
    },
    barsFromStart: (note) => (note.chorus - 1) * chartBars + note.bar - 1 + index.within(note),
    bar: (chorus, bar) => barTimes.get(`${chorus}.${bar}`) ?? null,
    chords: (bar) => analysis.chart.bars[bar - 1]?.chords ?? [],
    newKey(bar) {
      const key = analysis.chart.bars[bar - 1]?.key;
      const before = analysis.chart.bars[bar - 2]?.key ?? analysis.chart.key;
      return key === undefined || key === before ? null : key;
    },
    keyName: (pitch, among = []) => keyNameIn(analysis, solo, pitch, among),
    notesOf: (selection) => notesOf(index, selection),
  };
  return index;
}

/**
 * The spelling that most of the notes on a key have, those `among` first; of equally many the earliest. A key that no
 * note has (the middle between two, a finger's key that was not struck) is named by the key signature.
 */
function keyNameIn(
  { chart }: Analysis,
  solo: readonly AccountNote[],
  pitch: number,
  among: readonly AccountNote[],
): string {
  for (const notes of [among, solo]) {
    const own = notes.filter((note) => note.pitch === pitch);
    const most = greatest(
      [
        ...rollup(
          own,
          (same) => same.length,
          (note) => note.spelling,
        ),
      ],
      ([, times]) => times,
    );
    if (most !== undefined) return withAccidentals(most[0]);
  }
  const mode = chart.key.endsWith("m") ? "minor" : "major";
  const fifths = signatureOf({ tonic: chart.key.replace(/m$/, ""), mode });
  return withAccidentals(keyboardName(pitch, fifths > 0 ? "sharps" : "flats"));
}

/** Performed lateness in the meter's beats, so that a picture shows what was played, not the grid. */
function lateness(note: AccountNote, unit: number): number {
  return note.timing === null ? 0 : (note.timing * unit) / 4;
}

function notesOf(index: AccountIndex, selection: Selection): ReadonlySet<string> | null {
  const ids = (notes: readonly AccountNote[]) => new Set(notes.map((note) => note.id));
  switch (selection.kind) {
    case "none":
      return null;
    case "note":
      return index.note.has(selection.note) ? new Set([selection.note]) : null;
    case "bar":
      return ids(
        selection.chorus === null
          ? index.choruses.flatMap((chorus) => index.inBar(chorus, selection.bar))
          : index.inBar(selection.chorus, selection.bar),
      );
    case "chorus":
      return ids(index.solo.filter((note) => note.chorus === selection.chorus));
    case "motif": {
      const motif = index.motif.get(selection.motif);
      return motif
        ? ids(motif.occurrences.flatMap((place) => index.between(place.firstNote, place.lastNote)))
        : null;
    }
    case "placement": {
      const placement = index.placement.get(selection.placement);
      return placement ? ids(index.solo.filter((note) => note.placement === placement.id)) : null;
    }
    case "phrase": {
      const phrase = index.phrase.get(selection.phrase);
      return phrase ? ids(index.between(phrase.firstNote, phrase.lastNote)) : null;
    }
    case "stretch": {
      const notes = index.between(selection.first, selection.last);
      return notes.length > 0 ? ids(notes) : null;
    }
    case "finding": {
      const finding = index.finding.get(selection.finding);
      return finding ? new Set(finding.evidence) : null;
    }
  }
}
