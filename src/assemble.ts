/** Joins what the rooms say of each note into the notes of the account. */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import type { AccountMotif, AccountNote, AccountPhrase, Analysis, SwingSummary } from "./account.ts";
import type { Chart, ChordSpan } from "./chart/index.ts";
import type { HandAccount, HandNote } from "./hands/index.ts";
import { type NoteLabel, sentenceFor } from "./harmony/index.ts";
import type { MotifNote } from "./motif/index.ts";
import type { PartedHands } from "./parting/index.ts";
import { swingOf } from "./rhythm/index.ts";
import { type PlacedNote, type Take, takeSeconds } from "./take/index.ts";

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

/** The notes of the line and the others, each in time order. */
export function soloOf(placed: readonly PlacedNote[]): {
  readonly solo: readonly PlacedNote[];
  readonly other: readonly PlacedNote[];
} {
  return { solo: placed.filter((note) => note.solo), other: placed.filter((note) => !note.solo) };
}

/** Solo notes as the hand sees them. `labels` runs parallel to `placed`. */
export function handNotes(placed: readonly PlacedNote[], labels: readonly NoteLabel[]): HandNote[] {
  return placed.flatMap((note, i) => (note.solo ? [{ ...note, degree: labels[i]!.degree }] : []));
}

/** Solo notes as motifs are sought in them. `hand` runs parallel to the solo notes. */
export function motifNotes(
  placed: readonly PlacedNote[],
  labels: readonly NoteLabel[],
  hand: HandAccount["notes"],
  phrases: readonly AccountPhrase[],
): MotifNote[] {
  const solo = handNotes(placed, labels);
  const phraseOf = idsByNote(solo, phrases);
  return solo.map((note, i) => ({
    ...note,
    finger: hand[i]!.finger,
    phrase: phraseOf.get(note.id)?.[0] ?? null,
  }));
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
  readonly placed: readonly PlacedNote[];
  readonly labels: readonly NoteLabel[];
  readonly hand: HandAccount;
  readonly phrases: readonly AccountPhrase[];
  readonly motifs: readonly AccountMotif[];
  readonly parted: PartedHands;
  readonly chart: Chart;
  readonly spans: readonly ChordSpan[];
  /** False where nobody will read the notes' sentences. */
  readonly told: boolean;
}

export function accountNotes(material: NoteMaterial): AccountNote[] {
  const { placed, labels, hand, phrases, motifs, parted, chart, spans, told } = material;
  const solo = placed.filter((note) => note.solo);
  const phraseOf = idsByNote(solo, phrases);
  const motifsOf = idsByNote(
    solo,
    motifs.flatMap((motif) =>
      motif.occurrences.map(({ firstNote, lastNote }) => ({ id: motif.id, firstNote, lastNote })),
    ),
  );
  const indexOf = new Map(placed.map((note, i) => [note.id, i]));
  const handOf = new Map(solo.map((note, i) => [note.id, hand.notes[i]!]));

  return placed.map((note, i) => {
    const label = labels[i]!;
    const played = handOf.get(note.id);
    const target = label.target === null ? undefined : indexOf.get(label.target);
    const setting = {
      target: target === undefined ? null : placed[target]!,
      targetLabel: target === undefined ? null : labels[target]!,
      span: spans[note.span]!,
      nextSpan: spans[(note.span + 1) % spans.length]!,
      meter: chart.meter,
      finger: played?.finger ?? null,
      slide: played?.slide != null,
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
      placement: played?.placement ?? null,
      finger: played?.finger ?? null,
      fingerSource: played?.fingerSource ?? "inferred",
      ...printedFacts(note),
      ...(label.altered ? { altered: true as const } : {}),
      slide: played?.slide ?? null,
      phrase: phraseOf.get(note.id)?.[0] ?? null,
      motifs: motifsOf.get(note.id) ?? [],
      timing: note.timing,
      account: told ? sentenceFor(note, label, setting) : "",
      position: note.position,
      handMargin: parted.hands[i]!.margin,
      ...heardFacts(note),
    };
  });
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
