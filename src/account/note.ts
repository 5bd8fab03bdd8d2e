/** One note of the account. */
import { z } from "zod";
import { DEGREES } from "../chart/types.ts";
import { HARMONIC_ROLES, LINE_ROLES } from "../harmony/roles.ts";
import { type Frozen, finger, hand, noteId, share } from "./shared.ts";

export const noteSchema = z.object({
  id: noteId,
  pitch: z.int().min(0).max(127),
  spelling: z.string(),
  onset: z.number(),
  duration: z.number(),
  beats: z.number().nullable(),
  velocity: z.int(),
  hand,
  solo: z.boolean(),
  chorus: z.int(),
  bar: z.int(),
  beat: z.number().nullable(),
  chord: z.string().nullable(),
  degree: z.enum(DEGREES).nullable(),
  role: z.enum(HARMONIC_ROLES).nullable(),
  guideTone: z.boolean(),
  blueInKey: z.boolean(),
  lineRole: z.enum(LINE_ROLES).nullable(),
  target: noteId.nullable(),
  strength: share,
  placement: z.string().nullable(),
  finger: finger.nullable(),
  fingerSource: z.enum(["printed", "inferred"]),
  /** Added: all that is printed as fingering, in order; left out where nothing is. */
  printedFingers: z.array(z.object({ finger, substitution: z.boolean(), alternate: z.boolean() })).optional(),
  /** Added: how a grace note is notated; left out for all other notes. */
  grace: z.enum(["acciaccatura", "appoggiatura"]).optional(),
  /** Added: true for a tension that alters a dominant (b9 #9 #11 b13); left out of all other notes. */
  altered: z.literal(true).optional(),
  slide: noteId.nullable(),
  phrase: z.string().nullable(),
  motifs: z.array(z.string()),
  timing: z.number().nullable(),
  account: z.string(),
  /** Added: chart position in quarter-note beats from the first bar line; null in rubato. */
  position: z.number().nullable(),
  /** Added: 0 to 1, how clearly the note belongs to its hand. */
  handMargin: share,
  /** Added: how surely the note was heard in a recording (of notes said .9, nine in ten were played); left out of all others. */
  certainty: share.optional(),
  /** Added: what a note that was heard may be instead; left out where nothing is doubted. */
  doubt: z.enum(["octave ghost", "re-strike"]).optional(),
});

export type AccountNote = Frozen<z.infer<typeof noteSchema>>;
