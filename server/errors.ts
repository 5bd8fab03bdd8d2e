/** Errors in words, as `application/problem+json` (RFC 9457). */
import type { ErrorRequestHandler, Request, RequestHandler } from "express";
import { MulterError } from "multer";
import type { Logger } from "pino";
import type { z } from "zod";
import { Problem } from "../src/take/index.ts";
import { BROKEN_OFF } from "./analysis/task.ts";
import type { ProblemBody } from "./contract/problem.ts";
import { brokenOff, HearerEnded } from "./listen/hearer.ts";
import { isDiskFull } from "./store/room.ts";

/** A `Problem` that carries the HTTP status it answers with. */
export class HttpProblem extends Problem {
  readonly status: number;
  /** What is kept instead of what was sent; undefined where the refusal is about something else. */
  readonly stands: ProblemBody["stands"];
  constructor(
    status: number,
    code: string,
    message: string,
    where: string | null,
    todo: string,
    stands?: ProblemBody["stands"],
  ) {
    super(code, message, where, todo);
    this.status = status;
    this.stands = stands;
  }
}

export function notFound(what: string, id: string): HttpProblem {
  return new HttpProblem(
    404,
    "not-found",
    `There is no ${what} "${id}"`,
    null,
    "It may have been deleted; go back to the list and choose again.",
  );
}

/** One sentence for what a schema refused, with the field it is in. */
export function problemOfZod(error: z.ZodError, part: string): HttpProblem {
  const issue = error.issues[0];
  const where = [part, ...(issue?.path.map(String) ?? [])].join(".");
  return new HttpProblem(
    400,
    "invalid-request",
    `The request is not as expected: ${issue?.message ?? "unknown"}`,
    where,
    "Correct this field and send it again; /api/openapi.json says what is expected.",
  );
}

export const noSuchPath: RequestHandler = (request) => {
  throw new HttpProblem(
    404,
    "no-such-path",
    `There is nothing at ${request.method} ${request.path}`,
    null,
    "See /api/openapi.json for what there is.",
  );
};

export function errorHandler(log: Logger): ErrorRequestHandler {
  return (error: unknown, request, response, _next) => {
    if (response.headersSent) {
      // Ending it would let a cut table pass for a whole one: a broken connection is an error to every client.
      log.warn({ err: error, path: pathToLog(request) }, "an answer broke off");
      response.destroy();
      return;
    }
    // What was announced of another answer does not hold for this one, and one that cannot be sent would be thrown again.
    response.removeHeader("trailer");
    const problem = asProblem(error);
    if (problem.status >= 500) log.error({ err: error, path: pathToLog(request) }, "request failed");
    else if (WATCHED.has(problem.status)) {
      const { method, ip } = request;
      log.warn({ method, path: pathToLog(request), code: problem.code, ip }, "request refused");
    }
    response
      .status(problem.status)
      .type("application/problem+json")
      .send(
        JSON.stringify({
          type: "about:blank",
          title: problem.message,
          status: problem.status,
          code: problem.code,
          detail: problem.message,
          where: problem.where,
          todo: problem.todo,
          stands: problem.stands,
        } satisfies ProblemBody),
      );
  };
}

/** RFC 4918, 11.5: the method could not be performed, since the server cannot store what it needs for it. */
export function diskFull(): HttpProblem {
  return new HttpProblem(
    507,
    "disk-full",
    "The disk of the store has no room left; nothing was changed, and what is there can be read",
    null,
    "Make room on the disk that the store is on, then send it again; nothing has to be restarted.",
  );
}

/** Refusals that tell of someone who tries what is not theirs: no token, out of reach, foreign page, too often. */
const WATCHED = new Set([401, 403, 421, 429]);

/** A link's path is its token, which no log may hold. */
function pathToLog(request: Request): string {
  return request.path.startsWith("/shared/") ? "/shared" : request.path;
}

function asProblem(error: unknown): HttpProblem {
  if (error instanceof HttpProblem) return error;
  if (isDiskFull(error)) return diskFull();
  if (error instanceof HearerEnded) {
    const { code, message, where, todo } = brokenOff();
    return new HttpProblem(500, code, message, where, todo);
  }
  if (error instanceof Problem) {
    const status = error.code === BROKEN_OFF ? 500 : 422;
    return new HttpProblem(status, error.code, error.message, error.where, error.todo);
  }
  if (error instanceof MulterError) {
    const tooLarge = error.code === "LIMIT_FILE_SIZE";
    return new HttpProblem(
      tooLarge ? 413 : 400,
      tooLarge ? "file-too-large" : "invalid-upload",
      tooLarge
        ? "The file is larger than this service takes"
        : `The upload could not be read: ${error.message}`,
      error.field ?? null,
      tooLarge ? "Send one solo, not a whole session; a solo is rarely over 1 MB." : "Send the form again.",
    );
  }
  const status = statusOf(error);
  if (status >= 400 && status < 500) {
    return new HttpProblem(
      status,
      status === 413 ? "body-too-large" : "invalid-request",
      error instanceof Error ? error.message : "The request could not be read",
      null,
      "Correct the request and send it again.",
    );
  }
  return new HttpProblem(
    500,
    "internal",
    "Something went wrong on our side",
    null,
    "Try again; nothing that you sent has been changed.",
  );
}

function statusOf(error: unknown): number {
  const status = (error as { status?: unknown } | null)?.status;
  return typeof status === "number" ? status : 500;
}
