/** What was heard in a recording, as a document of its own: it is stored, read again and analysed like any other source. */
import { z } from "zod";
import { Problem } from "../take/index.ts";

/** Why a note may not be one: it may be the overtones of another, or the same string's sound taken for a new strike. */
export const DOUBTS = ["octave ghost", "re-strike"] as const;

const heardNoteSchema = z.object({
  /** MIDI number of a piano's key. */
  pitch: z.int().min(21).max(108),
  /** Seconds from the start of the sound. */
  onset: z.number().min(0),
  /** When the key was let go or the note had died away, in seconds. */
  end: z.number().min(0),
  /** Loudness as a MIDI velocity. */
  velocity: z.int().min(1).max(127),
  /** 0 to 1: of notes said .9, nine in ten were played. */
  certainty: z.number().min(0).max(1),
  doubt: z.enum(DOUBTS).nullable(),
});

export const heardSchema = z.object({
  /** Tells the document from other JSON. */
  heard: z.literal("piano"),
  version: z.literal(1),
  /** Length of the sound. */
  seconds: z.number().min(0),
  notes: z.array(heardNoteSchema),
  /** Changes of the sustain pedal; empty where it cannot be heard. */
  pedal: z.array(z.object({ seconds: z.number().min(0), down: z.boolean() })),
});

type Frozen<T> = T extends object ? { readonly [K in keyof T]: Frozen<T[K]> } : T;

export type Doubt = (typeof DOUBTS)[number];
export type HeardNote = Frozen<z.infer<typeof heardNoteSchema>>;
export type Heard = Frozen<z.infer<typeof heardSchema>>;

/** The document's bytes: JSON, a note a line, times to a tenth of a millisecond, so that people can read it too. */
export function writeHeard({ notes, seconds, pedal, ...head }: Heard): Uint8Array {
  const fine = (value: number) => Math.round(value * 10_000) / 10_000;
  const lines = notes.map((note) =>
    JSON.stringify({
      ...note,
      onset: fine(note.onset),
      end: fine(note.end),
      certainty: Math.round(note.certainty * 1000) / 1000,
    }),
  );
  const start = JSON.stringify({
    ...head,
    seconds: fine(seconds),
    pedal: pedal.map((mark) => ({ ...mark, seconds: fine(mark.seconds) })),
  }).slice(0, -1);
  return new TextEncoder().encode(`${start},"notes":[\n${lines.join(",\n")}\n]}\n`);
}

const OPENING = '{"heard":"piano"';

/** Whether a file is such a document, told by its first bytes. */
export function isHeard(bytes: Uint8Array): boolean {
  return String.fromCharCode(...bytes.subarray(0, OPENING.length)) === OPENING;
}

/** @throws Problem when it is no such document */
export function readHeard(bytes: Uint8Array): Heard {
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    throw unreadable("it is cut off or was changed", null);
  }
  const result = heardSchema.safeParse(value);
  if (result.success) return result.data;
  const issue = result.error.issues[0]!;
  throw unreadable(issue.message, issue.path.map(String).join("."));
}

function unreadable(what: string, where: string | null): Problem {
  return new Problem(
    "unreadable-heard-notes",
    `The document of heard notes cannot be read: ${what}`,
    where,
    "Send the recording itself again.",
  );
}
