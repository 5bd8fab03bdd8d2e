/** What a teacher puts right of a take, and what became of it. */
import { z } from "zod";
import { type Frozen, finger, hand, LONGEST, noteId } from "./shared.ts";

const addedNoteSchema = z
  .strictObject({
    pitch: z.int().min(0).max(127).describe("MIDI number at sounding pitch, 0 to 127, middle C is 60"),
    onset: z.number().min(0).max(LONGEST).describe("start, in seconds from the start of the file"),
    duration: z.number().positive().max(LONGEST).describe("time that the key was held, in seconds, above 0"),
    velocity: z.int().min(1).max(127).default(64).describe("MIDI velocity, number 1 (softest) to 127"),
  })
  .meta({ id: "AddedNote", description: "a key that was played and is not in the source" });

const correctionSchema = z
  .strictObject({
    note: z
      .string()
      .min(1)
      .max(200)
      .describe(
        "name of the note in its source, as the account's notes tell it; for an added note a name of the caller's choice, unlike all others",
      ),
    hand: hand.optional().describe("the hand that played it; left out where that is not corrected"),
    finger: finger
      .optional()
      .describe("finger number, 1 the thumb, 5 the little finger; left out where that is not corrected"),
    pitch: z
      .int()
      .min(0)
      .max(127)
      .optional()
      .describe("MIDI number of the key that was played, 0 to 127; left out where that is not corrected"),
    onset: z
      .number()
      .min(0)
      .max(LONGEST)
      .optional()
      .describe(
        "when it begins, in seconds from the start of the file, for a note that was heard at a wrong moment; left out where that is not corrected",
      ),
    played: z
      .literal(true)
      .optional()
      .describe(
        "true for a note of a recording that was really played: it is sure from then on; else left out",
      ),
    meant: z
      .literal(false)
      .optional()
      .describe("false for a slip: it was played, and nothing is said of it; else left out"),
    removed: z.literal(true).optional().describe("true for a note that was not played at all; else left out"),
    added: addedNoteSchema
      .optional()
      .describe("the note itself, where it is not in the source; else left out"),
  })
  .meta({ id: "Correction", description: "what somebody put right of one note" });

/** More than a teacher puts right in one take. */
const MOST_CORRECTIONS = 2000;

export const correctionsSchema = z
  .array(correctionSchema)
  .max(MOST_CORRECTIONS)
  .refine((list) => new Set(list.map(({ note }) => note)).size === list.length, {
    message: "a note is corrected twice; put all that is said of a note into one correction",
  })
  .describe(
    "what is put right, one entry a note; sent as a change, a note alone undoes what was said of it before",
  );

export const correctionOutcomeSchema = correctionSchema
  .extend({
    id: noteId
      .nullable()
      .describe("id of the note in this account; null where it was taken away or is not found"),
    became: z.enum(["applied", "not found"]).describe("whether its note is there"),
    text: z.string().describe("what was put right, or why it was not, in one sentence"),
  })
  .meta({ id: "CorrectionOutcome", description: "what became of a correction in this analysis" });

export type Correction = Frozen<z.infer<typeof correctionSchema>>;
export type CorrectionOutcome = Frozen<z.infer<typeof correctionOutcomeSchema>>;
