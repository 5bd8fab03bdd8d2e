import type { AccountMotif, AccountNote, AccountPhrase, AccountRun, Analysis } from "../account.ts";
import { isSure } from "../take/index.ts";
import type { ChordEntry, MeasuredLine, MeasuredPhrase } from "./measured-line.ts";

/** The account as it stands before the findings. */
export type Account = Omit<Analysis, "findings" | "withheld">;

export interface PhraseFacts extends MeasuredPhrase {
  readonly phrase: AccountPhrase;
}

/** The account made ready for the rules: what more than one rule asks for, worked out once. */
export interface Facts extends MeasuredLine {
  readonly account: Account;
  readonly byId: ReadonlyMap<string, AccountNote>;
  /** Place of a note in `solo`. */
  readonly place: ReadonlyMap<string, number>;
  readonly phrases: readonly PhraseFacts[];
  readonly runs: readonly { readonly run: AccountRun; readonly notes: readonly AccountNote[] }[];
  /** True when beats mean something (any method but rubato). */
  readonly metric: boolean;
  /** Quarter-note beats in a bar. */
  readonly barBeats: number;
}

export function factsOf(account: Account): Facts {
  const line = account.notes.filter((note) => note.solo);
  const solo = line.filter(isSure);
  const inLine = placesOf(line);
  const notesIn = (stretch: Stretch) => between(line, inLine, stretch).filter(isSure);
  const { meter } = account.chart;
  const byId = new Map(account.notes.map((note) => [note.id, note]));
  const sure = (id: string) => isSure(byId.get(id) ?? {});
  return {
    account,
    solo,
    inLine: (some) => some,
    countOf: (lineRole) => solo.filter((note) => note.lineRole === lineRole).length,
    outlines: account.phrases.map(({ shape }) => shape),
    answers: account.phrases.filter(({ answers }) => answers !== null).length,
    slides: account.handFit.slides.taken.length,
    rhythm: account.rhythm,
    chartBars: account.chart.bars.length,
    barsPlayed: account.choruses.map(
      ({ chorus }) => account.alignment.bars.filter((bar) => bar.chorus === chorus).length,
    ),
    byId,
    place: placesOf(solo),
    phrases: account.phrases.map((phrase) => ({
      phrase,
      notes: notesIn(phrase),
      unsureStart: !sure(phrase.firstNote),
      unsureEnd: !sure(phrase.lastNote),
    })),
    runs: account.runs.map((run) => ({ run, notes: notesIn(run) })),
    entries: chordEntries(account, solo),
    metric: account.alignment.method !== "rubato",
    barBeats: (meter.beats * 4) / meter.unit,
  };
}

interface Stretch {
  readonly firstNote: string;
  readonly lastNote: string;
}

function placesOf(notes: readonly AccountNote[]): Map<string, number> {
  return new Map(notes.map((note, index) => [note.id, index]));
}

/** Notes of the solo from `firstNote` to `lastNote`, both included. */
export function between(
  solo: readonly AccountNote[],
  place: ReadonlyMap<string, number>,
  stretch: Stretch,
): readonly AccountNote[] {
  const first = place.get(stretch.firstNote);
  const last = place.get(stretch.lastNote);
  return first === undefined || last === undefined ? [] : solo.slice(first, last + 1);
}

export function ids(notes: readonly AccountNote[]): string[] {
  return notes.map((note) => note.id);
}

/** First notes of a motif's occurrences, in time order. */
export function motifStarts(facts: Facts, motif: AccountMotif): AccountNote[] {
  return motif.occurrences
    .map((occurrence) => facts.byId.get(occurrence.firstNote))
    .filter((note) => note !== undefined)
    .sort((a, b) => a.onset - b.onset);
}

function chordEntries(account: Account, solo: readonly AccountNote[]): ChordEntry[] {
  const perQuarter = account.chart.meter.unit / 4;
  const barBeats = account.chart.meter.beats / perQuarter;
  const starts: { at: number; symbol: string }[] = [];
  for (const bar of account.chart.bars) {
    for (const chord of bar.chords) {
      const at = (bar.number - 1) * barBeats + (chord.beat - 1) / perQuarter;
      if (starts[starts.length - 1]?.symbol !== chord.symbol) starts.push({ at, symbol: chord.symbol });
    }
  }
  const length = account.chart.bars.length * barBeats;
  const entries: ChordEntry[] = [];
  let before = -1;
  for (const note of solo) {
    if (note.position === null || note.position < 0 || note.chord === null) continue;
    const round = Math.floor(note.position / length);
    const local = note.position - round * length;
    let k = -1;
    while (k + 1 < starts.length && starts[k + 1]!.at <= local + 1e-6) k++;
    if (k < 0) continue;
    const seam = k === 0 && starts.length > 1 && starts[starts.length - 1]!.symbol === starts[0]!.symbol;
    const id = round * starts.length + k;
    if (id !== before && starts.length > 1 && !seam) {
      entries.push({ note, chord: note.chord, after: local - starts[k]!.at });
    }
    before = id;
  }
  return entries;
}
