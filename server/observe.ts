/** Counts and logs every answer: method, route, id, status, time and whose token; never a name or a query. */
import type { RequestHandler } from "express";
import type { Logger } from "pino";
import type { Actor } from "./access.ts";
import type { Metrics } from "./metrics.ts";

/** An id as the store makes it, or one of the demo class. What somebody typed in its place is not logged. */
const ID = /^[0-9a-f-]{36}$/;

export function observe(metrics: Metrics, log: Logger): RequestHandler {
  return (request, response, next) => {
    const begun = performance.now();
    response.once("close", () => {
      const seconds = (performance.now() - begun) / 1000;
      const { method } = request;
      // Only answers of a known route have one; all others count together.
      const route = typeof request.route?.path === "string" ? request.route.path : "other";
      metrics.answered(method, route, response.statusCode, seconds);
      const id = request.params?.id;
      const actor = response.locals.actor as Actor | undefined;
      log[route === "other" ? "debug" : "info"](
        {
          method,
          route,
          ...(typeof id === "string" && ID.test(id) ? { id } : {}),
          status: response.statusCode,
          ms: Math.round(seconds * 1000),
          ...(actor === undefined ? {} : { role: actor.role, token: actor.token }),
          ...(response.writableFinished ? {} : { brokeOff: true }),
        },
        "answered",
      );
    });
    next();
  };
}
