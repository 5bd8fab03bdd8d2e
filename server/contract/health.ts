/** Whether the process lives, and whether it can work. */
import { z } from "zod";

export const aliveSchema = z
  .object({ status: z.literal("ok").describe("the process lives") })
  .meta({ id: "Alive", description: "the process lives" });

export const readySchema = z
  .object({
    status: z.literal("ready").describe("the store answers and a worker is alive"),
    store: z.string().describe("kind of store"),
    worker: z.literal("alive").describe("a worker is alive, in this process or another"),
    analysisVersion: z.string().describe("version of the analysis that new accounts are made with"),
  })
  .meta({ id: "Ready", description: "the service can work" });
