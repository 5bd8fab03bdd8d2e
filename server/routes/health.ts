/** `GET /health`: the process lives. `GET /ready`: it can work. */
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import { aliveSchema, readySchema } from "../contract/health.ts";
import { HttpProblem } from "../errors.ts";
import { type Route, route } from "../route.ts";

export const healthRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/health",
    access: "open",
    summary: "The process lives",
    answers: { 200: { description: "alive", schema: aliveSchema } },
    example: {},
    handle: async () => ({ status: 200, json: { status: "ok" as const } }),
  }),
  route({
    method: "get",
    path: "/ready",
    access: "open",
    summary: "The store answers",
    answers: {
      200: {
        description: "ready",
        schema: readySchema,
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
        json: { status: "ready" as const, store: services.database.kind, analysisVersion: ANALYSIS_VERSION },
      };
    },
  }),
];
