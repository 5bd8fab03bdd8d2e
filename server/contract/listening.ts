/** What is told while a recording is listened to, a line for each step. */
import { z } from "zod";
import type { Frozen } from "../../src/account.ts";
import { heardSchema } from "../../src/listen/index.ts";
import { refusedSchema } from "./problem.ts";

export const listeningLine = z
  .union([
    z.object({ progress: z.number().describe("share of the listening that is done, 0 to 1") }),
    z.object({
      heard: heardSchema.describe("what was heard, to be analysed or kept in place of the recording"),
    }),
    z.object({ problem: refusedSchema.describe("why nothing was heard") }),
  ])
  .meta({ id: "ListeningLine", description: "a step, or the end" });

export type ListeningLine = Frozen<z.output<typeof listeningLine>>;
