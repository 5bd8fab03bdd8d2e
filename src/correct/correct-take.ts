/** A take as somebody who knows it put it right: what was corrected is truth for everything that follows. */
import type { Correction, CorrectionOutcome } from "../account.ts";
import { keyboardName } from "../pitch/index.ts";
import { type Note, Problem, type Take, tickAt, type Warning } from "../take/index.ts";
import { listInWords, noteInWords } from "../words/index.ts";
import { sourceNames } from "./source-names.ts";

/** The name of a key by its MIDI number, e.g. "Eb4". */
type NameOfKey = (pitch: number) => string;

export interface CorrectedTake {
  readonly take: Take;
  /** Each note's name in its source, by its id. */
  readonly sources: ReadonlyMap<string, string>;
  /** What became of each correction, parallel to them, its keys in words by the names that they have in the account. */
  readonly told: (name: NameOfKey) => readonly CorrectionOutcome[];
  /** Corrections whose note is not there any more. */
  readonly warnings: readonly Warning[];
}

/**
 * The take with its corrections. Notes keep their ids; added ones get ids of their own.
 *
 * @throws Problem `added-name-taken` when an added note is called like one of the source, `no-notes-left` when every
 *   note was taken away
 */
export function correctTake(take: Take, corrections: readonly Correction[]): CorrectedTake {
  const names = sourceNames(take.notes);
  const sources = new Map(take.notes.map((note, i) => [note.id, names[i]!]));
  if (corrections.length === 0) return { take, sources, told: () => [], warnings: [] };

  const byName = new Map(take.notes.map((note, i) => [names[i]!, note]));
  const notes = new Map(take.notes.map((note) => [note.id, note]));
  const sharps = (take.keys[0]?.fifths ?? 0) >= 0;
  let ids = take.notes.length;
  const rows = corrections.map((correction) => {
    const found = byName.get(correction.note);
    if (correction.added !== undefined && found !== undefined) {
      throw new Problem(
        "added-name-taken",
        `A note that is added is called "${correction.note}", like a note of the source`,
        "options.corrections",
        "Give it another name.",
      );
    }
    const note =
      correction.added === undefined ? found : addedNote(correction.added, `n${++ids}`, take, sharps);
    if (note === undefined) return { correction, note: null };
    sources.set(note.id, correction.note);
    if (correction.removed) notes.delete(note.id);
    else notes.set(note.id, putRight(take, note, correction, sharps));
    return { correction, note };
  });
  if (notes.size === 0) {
    throw new Problem(
      "no-notes-left",
      "Every note of the take was taken away",
      "options.corrections",
      "Undo at least one of the corrections.",
    );
  }
  return {
    take: { ...take, notes: [...notes.values()].sort((a, b) => a.onset - b.onset || a.pitch - b.pitch) },
    sources,
    told: (name) =>
      rows.map(({ correction, note }) =>
        note === null ? lost(correction) : applied(correction, note, name),
      ),
    warnings: rows.flatMap(({ correction, note }) =>
      note === null
        ? [{ code: "correction-not-found", message: lost(correction).text, where: correction.note }]
        : [],
    ),
  };
}

function applied(correction: Correction, note: Note, name: NameOfKey): CorrectionOutcome {
  return {
    ...correction,
    id: correction.removed ? null : note.id,
    became: "applied",
    text: inWords(note, correction, name),
  };
}

/** What was put right of a note that was heard is known: such a note is as sure as one that a keyboard sent. */
function putRight(take: Take, note: Note, correction: Correction, sharps: boolean): Note {
  const { hand, finger, meant, played, onset, pitch = note.pitch } = correction;
  const { printed, heard } = note;
  const known = played === true || onset !== undefined || pitch !== note.pitch;
  return {
    ...note,
    corrected: { hand, finger, meant },
    ...(onset === undefined ? {} : { onset, tick: tickAt(take, onset) }),
    ...(pitch === note.pitch
      ? {}
      : { pitch, printed: printed === null ? null : { ...printed, spelling: nameOf(pitch, sharps) } }),
    ...(heard !== undefined && known ? { heard: { certainty: 1, doubt: null } } : {}),
  };
}

/** What a semitone's distance is worth in seconds, where the part of an added note is sought. [practice] */
const SECONDS_A_SEMITONE = 0.05;

/** A note of the part, staff and voice that lie nearest in time and pitch. */
function addedNote(added: NonNullable<Correction["added"]>, id: string, take: Take, sharps: boolean): Note {
  const apart = ({ onset, pitch }: Note) =>
    Math.abs(onset - added.onset) + SECONDS_A_SEMITONE * Math.abs(pitch - added.pitch);
  const near = take.notes.reduce((best, note) => (apart(note) < apart(best) ? note : best));
  const tick = tickAt(take, added.onset);
  const bar = Math.max(
    0,
    take.bars.findLastIndex((one) => one.tick <= tick),
  );
  return {
    id,
    pitch: added.pitch,
    onset: added.onset,
    duration: added.duration,
    sounding: added.duration,
    velocity: added.velocity,
    tick,
    ticks: Math.max(1, tickAt(take, added.onset + added.duration) - tick),
    part: near.part,
    printed:
      near.printed === null
        ? null
        : {
            spelling: nameOf(added.pitch, sharps),
            fingering: [],
            grace: null,
            staff: near.printed.staff,
            voice: near.printed.voice,
            bar,
            documentId: null,
            lyric: null,
          },
  };
}

function nameOf(pitch: number, sharps: boolean): string {
  return keyboardName(pitch, sharps ? "sharps" : "flats");
}

function lost(correction: Correction): CorrectionOutcome {
  return {
    ...correction,
    id: null,
    became: "not found",
    text: `No note of the source is called "${correction.note}" any more, so this correction changes nothing; undo it or give it again.`,
  };
}

/** "The E flat at 3.25 seconds: given to the left hand, with finger 3." */
function inWords(note: Note, correction: Correction, name: NameOfKey): string {
  const { hand, finger, pitch, meant, removed, added, played, onset } = correction;
  const said = removed
    ? ["taken away, since it was not played"]
    : [
        ...(added === undefined ? [] : ["added"]),
        ...(pitch === undefined ? [] : [`put right to ${noteInWords(name(pitch))}`]),
        ...(onset === undefined ? [] : [`moved to ${onset.toFixed(2)} seconds`]),
        ...(played === undefined ? [] : ["confirmed as played"]),
        ...(hand === undefined ? [] : [`given to the ${hand} hand`]),
        ...(finger === undefined ? [] : [`played with finger ${finger}`]),
        ...(meant === undefined ? [] : ["marked as not meant"]),
      ];
  const known = correction.added === undefined ? note.printed?.spelling : undefined;
  const called = noteInWords(known ?? name(note.pitch));
  const what = said.length === 0 ? "nothing is said of it" : listInWords(said);
  return `The ${called} at ${note.onset.toFixed(2)} seconds: ${what}.`;
}
