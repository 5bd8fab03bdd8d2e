/** What was heard in a recording, as a document of its own: it is stored, read again and analysed like any other source. */
import { z } from "zod";
import { Problem } from "../take/index.ts";

/** Why a note may not be one: it may be the overtones of another, or the same string's sound taken for a new strike. */
export const DOUBTS = ["octave ghost", "re-strike"] as const;

const heardNoteSchema = z
  .object({
    pitch: z.int().min(21).max(108).describe("MIDI number of a piano's key, 21 to 108"),
    onset: z.number().min(0).describe("when it begins, in seconds from the start of the sound"),
    end: z.number().min(0).describe("when the key was let go or the note had died away, in seconds"),
    velocity: z.int().min(1).max(127).describe("loudness as a MIDI velocity, number 1 to 127"),
    certainty: z.number().min(0).max(1).describe("0 to 1: of notes said .9, nine in ten were played"),
    doubt: z
      .enum(DOUBTS)
      .nullable()
      .describe("what it may be instead of a note; null where nothing is doubted"),
  })
  .meta({ id: "HeardNote", description: "a note that was heard" });

const share = (whose: string) => z.number().min(0).max(1).describe(`${whose}, 0 to 1`);

const companySchema = z
  .object({
    piano: share("share of the piano"),
    instruments: share("share of other instruments"),
    voice: share("share of voices"),
    drums: share("share of drums"),
  })
  .meta({ id: "Company", description: "of what sounds in a recording, how much is whose; 1 together" });

export const heardSchema = z
  .object({
    heard: z.literal("piano").describe("tells the document from other JSON"),
    version: z.literal(1).describe("version number of the document"),
    seconds: z.number().min(0).describe("length of the sound, in seconds"),
    notes: z.array(heardNoteSchema).describe("what was heard, in order"),
    pedal: z
      .array(
        z.object({
          seconds: z.number().min(0).describe("when, in seconds from the start of the sound"),
          down: z.boolean().describe("true where it goes down"),
        }),
      )
      .describe("changes of the sustain pedal; empty where it cannot be heard"),
    company: companySchema
      .nullish()
      .describe("whose sound it is, as far as that was heard; null where nothing sounds"),
  })
  .meta({
    id: "Heard",
    description: "what was heard in a recording, to be read again like any other source",
  });

type Frozen<T> = T extends object ? { readonly [K in keyof T]: Frozen<T[K]> } : T;

export type Doubt = (typeof DOUBTS)[number];
export type Company = Frozen<z.infer<typeof companySchema>>;
export type HeardNote = Frozen<z.infer<typeof heardNoteSchema>>;
export type Heard = Frozen<z.infer<typeof heardSchema>>;

/** The document's bytes: JSON, a note a line, times to a tenth of a millisecond, so that people can read it too. */
export function writeHeard({ notes, seconds, pedal, company, ...head }: Heard): Uint8Array {
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
    ...(company ? { company: rounded(company) } : {}),
  }).slice(0, -1);
  return new TextEncoder().encode(`${start},"notes":[\n${lines.join(",\n")}\n]}\n`);
}

/** To a thousandth. */
function rounded({ piano, instruments, voice, drums }: Company): Company {
  const fine = (share: number) => Math.round(share * 1000) / 1000;
  return { piano: fine(piano), instruments: fine(instruments), voice: fine(voice), drums: fine(drums) };
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
