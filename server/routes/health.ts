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
    summary: "The store answers and a worker is alive; 503 otherwise",
    answers: {
      200: {
        description: "ready",
        schema: readySchema,
      },
    },
    example: {},
    handle: async ({ services }) => {
      const readiness = await services.readiness();
      if (readiness !== "ready") throw notReady(readiness);
      return {
        status: 200,
        json: {
          status: "ready" as const,
          store: services.database.kind,
          worker: "alive" as const,
          analysisVersion: ANALYSIS_VERSION,
        },
      };
    },
  }),
];

function notReady(why: "no-store" | "no-worker"): HttpProblem {
  return new HttpProblem(
    503,
    why === "no-store" ? "not-ready" : "no-worker",
    why === "no-store" ? "The store does not answer" : "No worker is alive, so jobs wait",
    null,
    why === "no-store"
      ? "Try again in a moment."
      : "Start one: npm run worker, or the service without WORKER=off.",
  );
}
