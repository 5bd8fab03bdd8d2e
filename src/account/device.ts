/** A named figure of the line. */
import { z } from "zod";
import { DEVICE_NAMES } from "../devices/names.ts";
import { noteId, share } from "./shared.ts";

export const deviceSchema = z.object({
  name: z.enum(DEVICE_NAMES),
  /** Its notes, in order. */
  notes: z.array(noteId),
  firstNote: noteId,
  lastNote: noteId,
  chorus: z.int(),
  bar: z.int(),
  beat: z.number().nullable(),
  /** 0 to 1: of devices said so surely, so many are what they are called. */
  certainty: share,
  /** One sentence. */
  account: z.string(),
});
