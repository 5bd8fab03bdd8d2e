/** A named figure of the line. */
import { z } from "zod";
import { DEVICE_NAMES } from "../devices/names.ts";
import { barField, beatField, chorusField, noteId, share } from "./shared.ts";

export const deviceSchema = z
  .object({
    name: z.enum(DEVICE_NAMES).describe("its name in the trade"),
    notes: z.array(noteId).describe("ids of its notes, in order"),
    firstNote: noteId.describe("id of its first note"),
    lastNote: noteId.describe("id of its last note"),
    chorus: chorusField,
    bar: barField,
    beat: beatField,
    certainty: share.describe(
      "how sure the name is, 0 to 1: of devices said so surely, so many are what they are called",
    ),
    account: z.string().describe("the device in one sentence"),
  })
  .meta({ id: "Device", description: "a named figure of the line" });
