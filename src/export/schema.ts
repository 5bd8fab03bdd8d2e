import { z } from "zod";
import { analysisSchema } from "../account.ts";

/** The account as JSON Schema (draft 2020-12), made from the schema that checks it. */
export function accountJsonSchema(): Record<string, unknown> {
  return {
    ...z.toJSONSchema(analysisSchema, { io: "output" }),
    title: "Ledgerline account",
    description:
      "What was played, note by note, against its chart. Seconds, quarter-note beats, semitones, MIDI numbers.",
  };
}
