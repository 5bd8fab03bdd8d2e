/** Joins what the rooms say of each note into the notes of the account. */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import type { AccountMotif, AccountNote, AccountPhrase, Analysis, SwingSummary } from "./account.ts";
import type { Chart, ChordSpan } from "./chart/index.ts";
import type { HandAccount, HandNote } from "./hands/index.ts";
import { type NoteLabel, sentenceFor } from "./harmony/index.ts";
import type { MotifNote } from "./motif/index.ts";
import { swingOf } from "./rhythm/index.ts";
import { type PlacedNote, type Take, takeSeconds } from "./take/index.ts";
import { noteInWords } from "./words/index.ts";

export function sourceOf(bytes: Uint8Array, take: Take, name: string): Analysis["source"] {
  return {
    name,
    format: take.format,
    sha256: bytesToHex(sha256(bytes)),
    notes: take.notes.length,
    seconds: takeSeconds(take),
    title: take.title,
    parts: [...take.parts],
  };
}

/** Slips belong to no line: what was not meant says nothing of what the player knows. */
export function withoutSlips(placed: readonly PlacedNote[]): PlacedNote[] {
  return placed.map((note) => (isSlip(note) ? { ...note, solo: false } : note));
}

function isSlip(note: PlacedNote): boolean {
  return note.corrected?.meant === false;
}

/** The notes of the line and the others, each in time order; slips and a head set apart are in neither. */
export function soloOf(placed: readonly PlacedNote[]): {
  readonly solo: readonly PlacedNote[];
  readonly other: readonly PlacedNote[];
} {
  return {
    solo: placed.filter((note) => note.solo),
    other: placed.filter((note) => !note.solo && !isSlip(note) && note.head !== true),
  };
}

/** A note grown by what harmony says of it. */
interface LabelledNote extends PlacedNote {
  readonly label: NoteLabel;
}

/** A labelled note grown by the hand that plays it; null outside the line. */
interface FingeredNote extends LabelledNote {
  readonly fingering: HandAccount["notes"][number] | null;
}

/** A fingered note grown by the phrase that it lies in; null outside the line and between phrases. */
interface PhrasedNote extends FingeredNote {
  readonly phrase: string | null;
}

/** `labels` as `labelNotes` gives them for these notes. */
export function withLabels(placed: readonly PlacedNote[], labels: readonly NoteLabel[]): LabelledNote[] {
  return joined(placed, labels, (note, label) => ({ ...note, label }));
}

/** `hand` as it was explained for the line of these notes. */
export function withFingers(labelled: readonly LabelledNote[], hand: HandAccount["notes"]): FingeredNote[] {
  const line = labelled.filter((note) => note.solo);
  const fingerings = new Map(joined(line, hand, (note, fingering) => [note.id, fingering] as const));
  return labelled.map((note) => ({ ...note, fingering: fingerings.get(note.id) ?? null }));
}

/** Where phrases touch, a note belongs to the first of them. */
export function withPhrases(
  fingered: readonly FingeredNote[],
  phrases: readonly AccountPhrase[],
): PhrasedNote[] {
  const phraseOf = idsByNote(
    fingered.filter((note) => note.solo),
    phrases,
  );
  return fingered.map((note) => ({ ...note, phrase: phraseOf.get(note.id)?.[0] ?? null }));
}

/**
 * Joins two rows that run side by side, once, where they come out of a room; from then on a note carries its own.
 * @throws RangeError when they are not of one length
 */
function joined<A, B, C>(notes: readonly A[], more: readonly B[], join: (note: A, one: B) => C): C[] {
  if (notes.length !== more.length) {
    throw new RangeError(`${more.length} answers for ${notes.length} notes`);
  }
  return notes.map((note, i) => join(note, more[i]!));
}

/** Notes of the line as the hand sees them. */
export function handNotes(labelled: readonly LabelledNote[]): HandNote[] {
  return labelled.flatMap(({ label, ...note }) => (note.solo ? [{ ...note, degree: label.degree }] : []));
}

/** Notes of the line as motifs are sought in them. */
export function motifNotes(phrased: readonly PhrasedNote[]): MotifNote[] {
  return phrased.flatMap(({ label, fingering, ...note }) =>
    note.solo ? [{ ...note, degree: label.degree, finger: fingering?.finger ?? null }] : [],
  );
}

/** The swing of any of the take's notes, measured where they were placed. */
export function swingIn(
  placed: readonly PlacedNote[],
  chart: Chart,
): (notes: readonly AccountNote[]) => SwingSummary | null {
  const byId = new Map(placed.map((note) => [note.id, note]));
  return (notes) =>
    swingOf(
      notes.map((note) => byId.get(note.id)!),
      chart,
    );
}

interface NoteMaterial {
  readonly phrased: readonly PhrasedNote[];
  readonly motifs: readonly AccountMotif[];
  /** How clear each note's hand is, by the note's id. */
  readonly margins: ReadonlyMap<string, number>;
  /** Each note's name in its source, by the note's id. */
  readonly sources: ReadonlyMap<string, string>;
  readonly chart: Chart;
  readonly spans: readonly ChordSpan[];
  /** False where nobody will read the notes' sentences. */
  readonly told: boolean;
}

export function accountNotes(material: NoteMaterial): AccountNote[] {
  const { phrased, motifs, margins, sources, chart, spans, told } = material;
  const motifsOf = idsByNote(
    phrased.filter((note) => note.solo),
    motifs.flatMap((motif) =>
      motif.occurrences.map(({ firstNote, lastNote }) => ({ id: motif.id, firstNote, lastNote })),
    ),
  );
  const byId = new Map(phrased.map((note) => [note.id, note]));

  return phrased.map((note) => {
    const { label, fingering } = note;
    const target = label.target === null ? undefined : byId.get(label.target);
    const setting = {
      target: target ?? null,
      targetLabel: target?.label ?? null,
      span: spans[note.span]!,
      nextSpan: spans[(note.span + 1) % spans.length]!,
      meter: chart.meter,
      finger: fingering?.finger ?? null,
      slide: fingering?.slide != null,
    };
    return {
      id: note.id,
      pitch: note.pitch,
      spelling: label.spelling,
      onset: note.onset,
      duration: note.duration,
      beats: note.beats,
      velocity: note.velocity,
      hand: note.hand,
      solo: note.solo,
      chorus: note.chorus,
      bar: note.bar,
      beat: note.beat,
      chord: label.chord,
      degree: label.degree,
      role: label.role,
      guideTone: label.guideTone,
      blueInKey: label.blueInKey,
      lineRole: label.lineRole,
      target: label.target,
      strength: label.strength,
      placement: fingering?.placement ?? null,
      finger: fingering?.finger ?? null,
      fingerSource: fingering?.fingerSource ?? "inferred",
      ...printedFacts(note),
      ...(label.altered ? { altered: true as const } : {}),
      slide: fingering?.slide ?? null,
      phrase: note.phrase,
      motifs: motifsOf.get(note.id) ?? [],
      timing: note.timing,
      account: told ? (isSlip(note) ? slipSentence(label) : sentenceFor(note, label, setting)) : "",
      position: note.position,
      source: sources.get(note.id)!,
      ...(isSlip(note) ? { meant: false as const } : {}),
      ...(note.head === true ? { head: true as const } : {}),
      handMargin: margins.get(note.id)!,
      ...heardFacts(note),
    };
  });
}

function slipSentence({ spelling }: NoteLabel): string {
  return `${noteInWords(spelling)}: marked as not meant, so nothing is said of it.`;
}

/** What notation says of a note that must not be lost on the way to the next page: all its fingers, and grace. */
function printedFacts({ printed }: PlacedNote): Pick<AccountNote, "printedFingers" | "grace"> {
  return {
    ...(printed === null || printed.fingering.length === 0
      ? {}
      : { printedFingers: printed.fingering.map((mark) => ({ ...mark })) }),
    ...(printed?.grace == null ? {} : { grace: printed.grace }),
  };
}

/** How surely a note was heard, of those that were. */
function heardFacts({ heard }: PlacedNote): Pick<AccountNote, "certainty" | "doubt"> {
  if (heard === undefined) return {};
  return { certainty: heard.certainty, ...(heard.doubt === null ? {} : { doubt: heard.doubt }) };
}

/** For each note, the ids of the stretches (first to last note) that it lies in, without doublings. */
function idsByNote(
  notes: readonly PlacedNote[],
  stretches: readonly { readonly id: string; readonly firstNote: string; readonly lastNote: string }[],
): Map<string, string[]> {
  const indexOf = new Map(notes.map((note, i) => [note.id, i]));
  const ids = new Map<string, string[]>();
  for (const { id, firstNote, lastNote } of stretches) {
    const last = indexOf.get(lastNote) ?? -1;
    for (let i = indexOf.get(firstNote) ?? notes.length; i <= last; i++) {
      const list = ids.get(notes[i]!.id);
      if (list === undefined) ids.set(notes[i]!.id, [id]);
      else if (!list.includes(id)) list.push(id);
    }
  }
  return ids;
}
