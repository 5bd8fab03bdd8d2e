/**
 * The line of a take and of its draws of chance, as the measures of the findings read it. A draw gives only what is
 * asked for, from tables that are made once a take: two hundred draws must cost less than the account itself.
 */
import type { AccountNote } from "./account.ts";
import type { AccountParts } from "./account-parts.ts";
import type { ChordEntry, DrawLine, Facts, MeasuredLine } from "./findings/index.ts";
import { countSlides } from "./hands/index.ts";
import { type Relabelled, relabeller } from "./harmony/index.ts";
import { type DrawnFrom, drawGaps, drawPitches, mover } from "./redraw.ts";
import {
  answeredPhrases,
  findRuns,
  phraseShape,
  type SwingSpread,
  swingSpreadOf,
  syncopationShare,
} from "./rhythm/index.ts";
import { isSure, type LineNote, melodicLine, type PlacedNote } from "./take/index.ts";

/** What the draws of a take are made of. */
export interface DrawnLinesOf extends DrawnFrom {
  readonly parts: Pick<AccountParts, "notes" | "phrases">;
  readonly facts: Facts;
  readonly seed: number;
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/** Lines are good until the next one of the same kind is drawn: their notes are the same objects. */
export function drawnLines(of: DrawnLinesOf): DrawLine {
  const columns = once(() => new PitchColumns(of));
  const places = once(() => new TimeColumns(of));
  return (kind, draw) => {
    if (kind === "moved in time") return new MovedLine(of, places(), drawGaps(of, draw, of.seed));
    return new RepitchedLine(of, columns(), drawPitches(of, kind, draw, of.seed));
  };
}

function once<T>(make: () => T): () => T {
  let made: T | null = null;
  return () => (made ??= make());
}

/** Notes that keep their places while their pitches change, and what hangs on their places alone. */
class PitchColumns {
  readonly notes: readonly Mutable<AccountNote>[];
  readonly sure: readonly AccountNote[];
  readonly phrases: MeasuredLine["phrases"];
  readonly entries: readonly ChordEntry[];
  readonly place: ReadonlyMap<string, number>;
  readonly relabel: (pitches: readonly number[]) => Relabelled;

  constructor({ parts, facts, solo, chart, spans }: DrawnLinesOf) {
    this.notes = parts.notes.filter((note) => note.solo).map((note) => ({ ...note }));
    this.sure = this.notes.filter(isSure);
    const byId = new Map(this.notes.map((note) => [note.id, note]));
    this.phrases = facts.phrases.map(({ notes }) => ({ notes: notes.map(({ id }) => byId.get(id)!) }));
    this.place = new Map(this.notes.map((note, i) => [note.id, i]));
    this.entries = facts.entries.map((entry) => ({ ...entry, note: byId.get(entry.note.id)! }));
    this.relabel = relabeller(solo, chart, spans);
  }
}

/** What all draws take over from the take. */
abstract class LineOfDraw {
  readonly chartBars: number;
  readonly barsPlayed: readonly number[];
  protected readonly of: DrawnLinesOf;
  protected readonly placed: readonly PlacedNote[];

  constructor(of: DrawnLinesOf, placed: readonly PlacedNote[]) {
    this.of = of;
    this.placed = placed;
    this.chartBars = of.facts.chartBars;
    this.barsPlayed = of.facts.barsPlayed;
  }
}

/** Other pitches in the same rhythm. */
class RepitchedLine extends LineOfDraw implements MeasuredLine {
  readonly solo: readonly AccountNote[];
  readonly phrases: MeasuredLine["phrases"];
  readonly entries: readonly ChordEntry[];
  readonly rhythm: MeasuredLine["rhythm"];
  readonly #columns: PitchColumns;
  readonly #labels: Relabelled;

  constructor(of: DrawnLinesOf, columns: PitchColumns, pitches: readonly number[]) {
    const labels = columns.relabel(pitches);
    super(of, labels.notes);
    this.#columns = columns;
    this.#labels = labels;
    for (let i = 0; i < columns.notes.length; i++) {
      const note = columns.notes[i]!;
      const { role, guideTone, degree } = labels.soundings[i]!;
      note.pitch = pitches[i]!;
      note.role = role;
      note.guideTone = guideTone;
      note.degree = degree;
    }
    this.solo = columns.sure;
    this.phrases = columns.phrases;
    this.entries = columns.entries;
    this.rhythm = of.facts.rhythm;
  }

  readonly inLine: MeasuredLine["inLine"] = (some) => {
    const { notes, place } = this.#columns;
    const wanted = new Uint8Array(notes.length);
    for (const { id } of some) wanted[place.get(id)!] = 1;
    this.#labels.lineLabels(wanted).forEach((label, i) => {
      if (label === undefined) return;
      notes[i]!.lineRole = label.role;
      notes[i]!.target = label.target === null ? null : notes[label.target]!.id;
    });
    return some;
  };

  readonly countOf: MeasuredLine["countOf"] = (lineRole) =>
    this.#labels.inRole(lineRole).filter((i) => isSure(this.#columns.notes[i]!)).length;

  get outlines(): MeasuredLine["outlines"] {
    return this.phrases.map(({ notes }) => phraseShape(melodicLine(notes).map(({ note }) => note.pitch)));
  }

  get answers(): number {
    return answeredPhrases(this.of.parts.phrases, this.placed).size;
  }

  get runs(): MeasuredLine["runs"] {
    const { notes, place } = this.#columns;
    return findRuns(this.placed).map((run) => ({
      notes: notes.slice(place.get(run.firstNote)!, place.get(run.lastNote)! + 1).filter(isSure),
    }));
  }

  get slides(): number {
    return countSlides(this.placed, this.of.spans);
  }
}

/** Notes that keep their pitches while their places change. */
class TimeColumns {
  readonly notes: readonly Mutable<AccountNote>[];
  readonly sure: readonly AccountNote[];
  readonly move: (gaps: readonly number[]) => readonly PlacedNote[];
  /** Parallel to the notes: true where a phrase ends. */
  readonly ends: readonly boolean[];

  constructor(of: DrawnLinesOf) {
    this.notes = of.parts.notes.filter((note) => note.solo).map((note) => ({ ...note }));
    this.sure = this.notes.filter(isSure);
    this.move = mover(of);
    const ends = new Set(of.parts.phrases.map(({ lastNote }) => lastNote));
    this.ends = this.notes.map(({ id }) => ends.has(id));
  }
}

/**
 * The same notes at other moments. Of the harmony nothing is asked here; phrases end with the gaps that ended them,
 * wherever the gaps have moved to.
 */
class MovedLine extends LineOfDraw implements MeasuredLine {
  readonly entries = [];
  readonly outlines = [];
  readonly answers = 0;
  readonly runs = [];
  readonly slides = 0;
  readonly #columns: TimeColumns;
  readonly #gaps: readonly number[];
  #copied = false;
  #phrases: MeasuredLine["phrases"] | null = null;
  #rhythm: DrawnRhythm | null = null;

  /** @param gaps for each note but the last, the note whose gap follows it now */
  constructor(of: DrawnLinesOf, columns: TimeColumns, gaps: readonly number[]) {
    super(of, columns.move(gaps));
    this.#columns = columns;
    this.#gaps = gaps;
  }

  /** The notes where they are now: most measures of time ask for the rhythm alone. */
  #notes(): readonly AccountNote[] {
    const { notes } = this.#columns;
    if (this.#copied) return notes;
    this.#copied = true;
    for (let i = 0; i < notes.length; i++) {
      const note = notes[i]!;
      const { onset, duration, beats, chorus, bar, beat, position } = this.placed[i]!;
      note.onset = onset;
      note.duration = duration;
      note.beats = beats;
      note.chorus = chorus;
      note.bar = bar;
      note.beat = beat;
      note.position = position;
    }
    return notes;
  }

  get solo(): readonly AccountNote[] {
    this.#notes();
    return this.#columns.sure;
  }

  get rhythm(): MeasuredLine["rhythm"] {
    this.#rhythm ??= new DrawnRhythm(this.of, this.placed);
    return this.#rhythm;
  }

  get phrases(): MeasuredLine["phrases"] {
    this.#phrases ??= this.#endedAnew();
    return this.#phrases;
  }

  #endedAnew(): MeasuredLine["phrases"] {
    const notes = this.#notes();
    const { ends, sure } = this.#columns;
    const allSure = sure.length === notes.length;
    const phrases: { notes: readonly AccountNote[] }[] = [];
    let start = 0;
    for (let i = 0; i <= this.#gaps.length; i++) {
      if (i < this.#gaps.length && !ends[this.#gaps[i]!]!) continue;
      const phrase = notes.slice(start, i + 1);
      phrases.push({ notes: allSure ? phrase : phrase.filter(isSure) });
      start = i + 1;
    }
    return phrases;
  }

  readonly inLine: MeasuredLine["inLine"] = (some) => some;
  readonly countOf = () => 0;
}

/** The rhythm of a draw: its swing and its syncopation are each worked out when they are asked for. */
class DrawnRhythm {
  readonly #of: DrawnLinesOf;
  readonly #line: readonly LineNote<PlacedNote>[];

  constructor(of: DrawnLinesOf, placed: readonly PlacedNote[]) {
    this.#of = of;
    this.#line = melodicLine(placed);
  }

  get swing(): SwingSpread | null {
    return swingSpreadOf(this.#line, this.#of.chart);
  }

  get syncopation(): number | null {
    const { metric, barBeats } = this.#of.facts;
    const steps = this.#line.map(({ note }) => note);
    return metric ? syncopationShare(steps, barBeats) : null;
  }
}
