/** The labels of all notes of a take: the one place where degree, roles, strength and spelling come together. */
import type { Chart, ChordSpan, Degree } from "../chart/types.ts";
import { fifthsOf, mod12, pitchNameAt, signatureOf } from "../pitch/index.ts";
import { type KeyMark, type PlacedNote, Problem } from "../take/index.ts";
import { toneOf } from "./degree.ts";
import { degreeAsWritten } from "./degree-fifths.ts";
import { isBlueInKey } from "./harmonic-role.ts";
import {
  type Harmony,
  harmonyOf,
  isSameChord,
  type JoinedLine,
  lineNotes,
  soundingOf,
} from "./joined-line.ts";
import { lineRoleOf } from "./line-role.ts";
import type { HarmonicRole, LineRole, Manner } from "./roles.ts";
import { type Ahead, signaturesOf, spellTheRest, spellUnder } from "./spelling.ts";
import { strengthOf } from "./strength.ts";
import { type Voice, voicesOf } from "./voices.ts";

/** What the harmony says of a note. */
export interface NoteLabel {
  /** Scientific pitch name; as printed where the note has been read from notation. */
  readonly spelling: string;
  /** Symbol of the sounding chord, or null for N.C. */
  readonly chord: string | null;
  readonly degree: Degree | null;
  readonly role: HarmonicRole | null;
  readonly guideTone: boolean;
  /** True for a tension that alters a dominant. */
  readonly altered: boolean;
  readonly blueInKey: boolean;
  /** Null for notes outside the solo. */
  readonly lineRole: LineRole | null;
  /** `Note.id` of the note that it leads to. */
  readonly target: string | null;
  /** Metric strength of its place, 0 to 1. */
  readonly strength: number;
  /** True when the note falls on the very start of a chord that differs from the one before it. */
  readonly arrives: boolean;
  /** How the line role is played ("chromatic", "upper", "held"), for the words. */
  readonly manner: Manner | null;
  /** How the line comes to the note, for the words; null for notes outside the solo. */
  readonly reached: Reached | null;
}

/** How a note is come to from the note just before it in its line. */
export interface Reached {
  /** Semitones from that note, rising positive, 0 when it is struck again; null where a breath or nothing lies before. */
  readonly interval: number | null;
  /** Line role of that note, where it leads here. */
  readonly resolves: LineRole | null;
  /** True when both are tones of one and the same chord. */
  readonly withinChord: boolean;
}

/**
 * Labels every note, parallel to `notes`. Notes of the solo get a line role; the others (comping, bass) get all
 * that the chord alone says of them. Spelling, degree, role and strength are never missing. Linear in the number of
 * notes, but for sorting the solo by onset.
 *
 * @param keys the key signatures that the source states: spelling follows them where they change
 * @throws Problem "no-chords" when there are notes and no span, "unknown-span" when a note points past the spans
 */
export function labelNotes(
  notes: readonly PlacedNote[],
  chart: Chart,
  spans: readonly ChordSpan[],
  keys: readonly KeyMark[] = [],
): NoteLabel[] {
  checkSpans(notes, spans);
  const harmony = harmonyOf(chart, spans);
  const voices = voicesOf(harmony, lineNotes(notes, harmony));
  const spellings = spellingsOf(notes, harmony, voices, keys);
  const labels = notes.map((note, i) => labelByChord(note, spellings[i]!, harmony));
  for (const voice of voices) labelVoice(voice, labels);
  return labels;
}

function checkSpans(notes: readonly PlacedNote[], spans: readonly ChordSpan[]): void {
  if (notes.length > 0 && spans.length === 0) {
    throw new Problem("no-chords", "the chart has no chords", null, "Give a chart of at least one bar.");
  }
  const astray = notes.find((note) => spans[note.span] === undefined);
  if (astray !== undefined) {
    throw new Problem(
      "unknown-span",
      `note ${astray.id} points to chord ${astray.span} of ${spans.length}`,
      `note ${astray.id}`,
      "Place the notes on the same chart that they are labelled by.",
    );
  }
}

function labelByChord(note: PlacedNote, spelling: string, harmony: Harmony): NoteLabel {
  const span = harmony.spans[note.span]!;
  const { degree, role, guideTone, altered } = soundingOf(harmony, note.span, note.pitch);
  const isNamedByLetter = role === "outside" || (role === "tension" && !isNamed(note, harmony));
  return {
    spelling,
    chord: span.chord === null ? null : span.symbol,
    degree:
      span.chord === null || !isNamedByLetter ? degree : degreeAsWritten(degree, spelling, span.chord.root),
    role,
    guideTone,
    altered,
    blueInKey: isBlueInKey(note.pitch, span, harmony.chart.idiom),
    lineRole: null,
    target: null,
    strength: strengthOf(note.beat, harmony.chart.meter),
    arrives: arrivesWith(note, harmony),
    manner: null,
    reached: null,
  };
}

/** True when the symbol of the chord names the note. */
function isNamed({ pitch, span }: PlacedNote, harmony: Harmony): boolean {
  const { chord } = harmony.spans[span]!;
  return chord !== null && toneOf(chord, mod12(pitch - chord.rootClass)) !== null;
}

function arrivesWith(note: PlacedNote, harmony: Harmony): boolean {
  const span = harmony.spans[note.span]!;
  const before = (note.span + harmony.spans.length - 1) % harmony.spans.length;
  return note.bar === span.bar && note.beat === span.beat && !isSameChord(harmony, before, note.span);
}

function labelVoice({ line, own }: Voice, labels: NoteLabel[]): void {
  line.notes.forEach(({ index }, i) => {
    if (!own[i]) return;
    const { role, target, manner } = lineRoleOf(line, i);
    labels[index] = {
      ...labels[index]!,
      lineRole: role,
      target: target === null ? null : line.notes[target]!.note.id,
      manner,
      reached: reachedBy(line, i, labels),
    };
  });
}

/** How the `i`-th note of a line is reached; the note before it has its label by now. */
function reachedBy(line: JoinedLine, i: number, labels: readonly NoteLabel[]): Reached {
  const previous = line.previous[i] ?? null;
  if (previous === null) return { interval: null, resolves: null, withinChord: false };
  const [from, to] = [line.notes[previous]!, line.notes[i]!];
  const { target, lineRole } = labels[from.index]!;
  return {
    interval: to.note.pitch - from.note.pitch,
    resolves: target === to.note.id ? lineRole : null,
    withinChord:
      line.harmony.spans[to.note.span]!.chord !== null &&
      from.sounding.chordTone &&
      to.sounding.chordTone &&
      isSameChord(line.harmony, from.note.span, to.note.span),
  };
}

/** The printed name where there is one; else by chord and direction, then by the key. Parallel to `notes`. */
function spellingsOf(
  notes: readonly PlacedNote[],
  harmony: Harmony,
  voices: readonly Voice[],
  keys: readonly KeyMark[],
): string[] {
  const signatureAt = signaturesOf(harmony.spans, keys);
  const spell = (note: PlacedNote, ahead: Ahead | null) => {
    const span = harmony.spans[note.span]!;
    const { role, chordTone } = soundingOf(harmony, note.span, note.pitch);
    // Where the source has gone to another key, what is no tone of the chord is named by that key.
    if (note.printed === null && !chordTone && signatureAt(note) !== signatureOf(span.key)) return null;
    return note.printed === null
      ? spellUnder(note.pitch, role, span, ahead)
      : fifthsOf(note.printed.spelling);
  };
  const places = notes.map((note) => (note.solo ? null : spell(note, null)));
  for (const { line, own } of voices) {
    // Backwards, since a note may lean on the one after it.
    let ahead: Ahead | null = null;
    for (let i = line.notes.length - 1; i >= 0; i--) {
      const { note, index } = line.notes[i]!;
      const place = spell(note, line.next[i] === null ? null : ahead);
      if (own[i]) places[index] = place;
      ahead = { pitch: note.pitch, place };
    }
  }
  const all = places.includes(null) ? spellTheRest(notes, places, signatureAt) : (places as number[]);
  return notes.map((note, i) => note.printed?.spelling ?? pitchNameAt(note.pitch, all[i]!));
}
