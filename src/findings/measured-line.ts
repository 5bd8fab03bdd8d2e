import type { AccountNote, AccountPhrase, RhythmSummary, SwingSummary } from "../account.ts";

/** First solo note on a chord that has just changed, and the moment of the change. */
export interface ChordEntry {
  readonly note: AccountNote;
  readonly chord: string;
  /** Quarter-note beats between the change and the note. */
  readonly after: number;
}

/** Notes of a phrase; of notes heard in a recording those heard surely. */
export interface MeasuredPhrase {
  readonly notes: readonly AccountNote[];
  /** True where the phrase's own first note was not heard surely: the first of `notes` is not where it begins. */
  readonly unsureStart?: boolean;
  /** The same of its last note. */
  readonly unsureEnd?: boolean;
}

/**
 * What a measure reads, of the take or of a draw of chance: so little that a draw can give it without an account.
 * A draw works out each part when it is first asked for.
 */
export interface MeasuredLine {
  /** The line with what the chord says of each note; of notes heard in a recording only those heard surely. */
  readonly solo: readonly AccountNote[];
  /** Some of them with what each does in the line, which a draw works out for those alone. */
  readonly inLine: (some: readonly AccountNote[]) => readonly AccountNote[];
  /** How many of all do one thing: for a draw less work still. */
  readonly countOf: (lineRole: NonNullable<AccountNote["lineRole"]>) => number;
  readonly phrases: readonly MeasuredPhrase[];
  /** Outlines of the phrases, parallel to them. */
  readonly outlines: readonly AccountPhrase["shape"][];
  /** How many phrases answer the one before. */
  readonly answers: number;
  /** Stepwise runs. */
  readonly runs: readonly { readonly notes: readonly AccountNote[] }[];
  readonly entries: readonly ChordEntry[];
  /** Slides off a black key, as the keys and the time tell them. */
  readonly slides: number;
  readonly rhythm: {
    readonly swing: Pick<SwingSummary, "q1" | "median" | "q3"> | null;
    readonly syncopation: RhythmSummary["syncopation"];
  };
  /** Bars of the chart, and how many of each chorus were played. */
  readonly chartBars: number;
  readonly barsPlayed: readonly number[];
}
