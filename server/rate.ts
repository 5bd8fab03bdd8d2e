/**
 * How often somebody may ask, where the service needs tokens. Whoever shows a token in force is counted by it, so that a
 * class behind one router is not one; everybody else by the address. What is guessed is counted by the address alone.
 */
import { createHash } from "node:crypto";
import type { Request, RequestHandler } from "express";
import { ipKeyGenerator, MemoryStore, rateLimit } from "express-rate-limit";
import { shownToken } from "./access.ts";
import { HttpProblem } from "./errors.ts";
import type { Database } from "./store/database.ts";
import { findToken } from "./store/tokens.ts";

/** The page of a take asks for a handful of things; a researcher's script streams whole tables. */
const REQUESTS_A_MINUTE = 600;
const MINUTE_MS = 60_000;

/** A token that was in force is looked up again after this time, in milliseconds. */
const KNOWN_MS = 30_000;
const MOST_KNOWN = 10_000;

/** Limits requests of each token in force, and of each address without one. */
export function limitRequests(database: Database): RequestHandler {
  const keyOf = counter(database);
  return rateLimit({
    windowMs: MINUTE_MS,
    limit: REQUESTS_A_MINUTE,
    standardHeaders: "draft-8",
    legacyHeaders: false,
    keyGenerator: async (request) => (await keyOf(request)) ?? addressOf(request),
    handler: (_request, _response, next) => next(tooMany(REQUESTS_A_MINUTE)),
  });
}

export interface Guesses {
  readonly isTry: (request: Request) => boolean;
  /** Whether an answer of this status refuses a try. */
  readonly isRefused: (status: number) => boolean;
}

/**
 * Limits tries of each address that were refused; whoever shows a token in force is not held up by others' tries.
 *
 * @param most in a minute
 */
export function limitGuesses(
  database: Database,
  most: number,
  { isTry, isRefused }: Guesses,
): RequestHandler {
  const keyOf = counter(database);
  const refused = new MemoryStore();
  refused.init({ windowMs: MINUTE_MS } as Parameters<MemoryStore["init"]>[0]);
  return async (request, response, next) => {
    if (!isTry(request)) {
      next();
      return;
    }
    const address = addressOf(request);
    const known = await refused.get(address);
    if (known !== undefined && known.totalHits >= most && (await keyOf(request)) === null) {
      const left = (known.resetTime?.getTime() ?? Date.now()) - Date.now();
      response.setHeader("Retry-After", Math.max(1, Math.ceil(left / 1000)));
      throw tooMany(most);
    }
    // Counted when it is answered: a class that signs in at the same moment refuses nobody.
    response.once("finish", () => {
      if (isRefused(response.statusCode)) void refused.increment(address);
    });
    next();
  };
}

/** What a request is counted by when it shows a token in force; null otherwise. */
function counter(database: Database): (request: Request) => Promise<string | null> {
  const known = new Map<string, number>();
  return async (request) => {
    const token = shownToken(request);
    if (token === null) return null;
    const key = `token:${createHash("sha256").update(token).digest("hex")}`;
    const until = known.get(key);
    if (until !== undefined && until > Date.now()) return key;
    known.delete(key);
    if ((await findToken(database, token)) === null) return null;
    known.set(key, Date.now() + KNOWN_MS);
    for (const oldest of known.keys()) {
      if (known.size <= MOST_KNOWN) break;
      known.delete(oldest);
    }
    return key;
  };
}

function addressOf(request: Request): string {
  return ipKeyGenerator(request.ip ?? "");
}

function tooMany(most: number): HttpProblem {
  return new HttpProblem(
    429,
    "too-many-requests",
    `More than ${most} requests in a minute`,
    null,
    "Wait a minute and go on more slowly.",
  );
}
