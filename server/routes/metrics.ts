/** `GET /metrics`: figures of the running service, also under `/metrics` itself, where monitors look by custom. */
import { type Route, route } from "../route.ts";

/** Version 0.0.4 of the text format. */
const TYPE = "text/plain; version=0.0.4; charset=utf-8";

export const metricsRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/metrics",
    access: "operating",
    summary: "Figures of the running service in the text format of Prometheus, without names or ids",
    answers: { 200: { description: "figures", type: "text/plain" } },
    example: {},
    handle: async ({ services }) => ({
      status: 200,
      type: TYPE,
      fileName: null,
      body: await services.metrics.text(),
    }),
  }),
];
