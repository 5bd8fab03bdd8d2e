/** One note of the account. */
import { z } from "zod";
import { DEGREES } from "../chart/types.ts";
import { HARMONIC_ROLES, LINE_ROLES } from "../harmony/roles.ts";
import { barField, beatField, chorusField, type Frozen, finger, hand, noteId, share } from "./shared.ts";

const printedFingerSchema = z
  .object({
    finger: finger.describe("finger number, 1 the thumb, 5 the little finger"),
    substitution: z.boolean().describe("true where the finger changes to this one on the held key"),
    alternate: z.boolean().describe("true for a second choice, printed in brackets"),
  })
  .meta({ id: "PrintedFinger", description: "one fingering mark as printed" });

export const noteSchema = z
  .object({
    id: noteId.describe('"n1", "n2", ... in order of onset, then pitch; unique in the take'),
    pitch: z.int().min(0).max(127).describe("MIDI number at sounding pitch, 0 to 127, middle C is 60"),
    spelling: z.string().describe('name as the harmony spells it, with its octave, middle C is "C4": "Eb4"'),
    onset: z.number().describe("performed start, in seconds from the start of the file"),
    duration: z.number().describe("time that the key was held, in seconds, above 0"),
    beats: z.number().nullable().describe("length as performed, in quarter-note beats; null in rubato"),
    velocity: z.int().describe("MIDI velocity, number 1 (softest) to 127"),
    hand: hand.describe("the hand that plays it"),
    solo: z.boolean().describe("true when it belongs to the improvised line, false for comping and bass"),
    chorus: chorusField,
    bar: barField,
    beat: beatField.describe(
      "beat of the bar in the meter's own unit, 1 the first, as heard: moved to the grid that it was played on, so that a swung off-beat is .5; null in rubato",
    ),
    chord: z.string().nullable().describe('symbol of the chord that sounds at the onset; null for "N.C."'),
    degree: z
      .enum(DEGREES)
      .nullable()
      .describe("degree against the root of the chord; null where there is no chord, and of comping"),
    role: z
      .enum(HARMONIC_ROLES)
      .nullable()
      .describe("what the note is against its chord; null where there is no chord, and of comping"),
    guideTone: z.boolean().describe("true for the third and the seventh of the chord"),
    blueInKey: z.boolean().describe("true for a blue note (b3, b5, b7) of the key of the chart"),
    lineRole: z
      .enum(LINE_ROLES)
      .nullable()
      .describe("what the note does between its neighbours; null of comping"),
    target: noteId
      .nullable()
      .describe("id of the note that it leads to, where its line role has one; else null"),
    strength: share.describe(
      "metrical weight of its place in the bar, 0 to 1, 1 on the first beat; .5 in rubato",
    ),
    placement: z.string().nullable().describe("id of the placement that it is played in; null outside all"),
    finger: finger
      .nullable()
      .describe("finger number, 1 the thumb, 5 the little finger; inferred unless printed; null for none"),
    fingerSource: z
      .enum(["printed", "inferred", "corrected"])
      .describe("whether the finger was printed, worked out, or put right by somebody"),
    printedFingers: z
      .array(printedFingerSchema)
      .optional()
      .describe("all that is printed as fingering, in order; left out where nothing is"),
    grace: z
      .enum(["acciaccatura", "appoggiatura"])
      .optional()
      .describe("how a grace note is notated; left out of all other notes"),
    altered: z
      .literal(true)
      .optional()
      .describe("true for a tension that alters a dominant (b9 #9 #11 b13); left out of all other notes"),
    slide: noteId
      .nullable()
      .describe("id of the note that the same finger slides to, from a black key; else null"),
    phrase: z.string().nullable().describe("id of its phrase; null of comping"),
    motifs: z.array(z.string()).describe("ids of the ideas that it belongs to"),
    timing: z
      .number()
      .nullable()
      .describe(
        "performed less grid onset, in quarter-note beats: early below 0, late above; null in rubato and notation",
      ),
    account: z.string().describe("the note in one sentence"),
    position: z
      .number()
      .nullable()
      .describe(
        "place on the chart, in quarter-note beats from the first bar line of the first chorus, negative in a pickup; null in rubato",
      ),
    source: z
      .string()
      .describe(
        'its name in the source, by which it is corrected, the same in every analysis: part, tick and key, "t1/960/64"',
      ),
    meant: z
      .literal(false)
      .optional()
      .describe(
        "false for a slip that was marked as not meant, which belongs to no line; left out of all others",
      ),
    head: z
      .literal(true)
      .optional()
      .describe(
        "true for the tune of a head that was set apart, which is no part of the solo; left out of all others",
      ),
    handMargin: share.describe("how clearly it belongs to its hand, 0 to 1; 0 where either could"),
    certainty: share
      .optional()
      .describe(
        "how surely it was heard in a recording, 0 to 1: of notes said .9, nine in ten were played; left out of all other sources",
      ),
    doubt: z
      .enum(["octave ghost", "re-strike"])
      .optional()
      .describe(
        "what a heard note may be instead: overtones of another, or a key that still rings; left out where nothing is doubted",
      ),
  })
  .meta({ id: "Note", description: "one note that was played, with everything that is said of it" });

export type AccountNote = Frozen<z.infer<typeof noteSchema>>;
