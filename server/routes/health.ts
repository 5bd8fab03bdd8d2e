/** `GET /health`: the process lives. `GET /ready`: it can work. */
import { z } from "zod";
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import { HttpProblem } from "../errors.ts";
import { type Route, route } from "../route.ts";

export const healthRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/health",
    access: "open",
    summary: "The process lives",
    answers: { 200: { description: "alive", schema: z.object({ status: z.literal("ok") }) } },
    example: {},
    handle: async () => ({ status: 200, json: { status: "ok" } }),
  }),
  route({
    method: "get",
    path: "/ready",
    access: "open",
    summary: "The store answers",
    answers: {
      200: {
        description: "ready",
        schema: z.object({ status: z.literal("ready"), store: z.string(), analysisVersion: z.string() }),
      },
    },
    example: {},
    handle: async ({ services }) => {
      try {
        await services.database.query("select 1");
      } catch {
        throw new HttpProblem(503, "not-ready", "The store does not answer", null, "Try again in a moment.");
      }
      return {
        status: 200,
        json: { status: "ready", store: services.database.kind, analysisVersion: ANALYSIS_VERSION },
      };
    },
  }),
];
