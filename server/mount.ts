/** Puts a route on Express: checks what comes in, calls the handler, sends what it answers. */
import express, { type Express, type Request, type RequestHandler, type Response } from "express";
import type { z } from "zod";
import { type Actor, actorOf, authorise, OWNER } from "./access.ts";
import { sentKey } from "./contract/fields.ts";
import { diskFull, HttpProblem, problemOfZod } from "./errors.ts";
import type { Answer, Route } from "./route.ts";
import { sendAccount, sendWritten } from "./send-account.ts";
import type { Services } from "./services.ts";
import { LEAST_ROOM, TIMES_WRITTEN } from "./store/room.ts";
import { readForm, readForms, uploadsOf, whileUploadsLast } from "./uploads.ts";

const BODY_PARSERS: Record<Route["accepts"], readonly RequestHandler[]> = {
  none: [],
  json: [express.json({ limit: "2mb" })],
  form: readForm,
  forms: readForms,
};

/** Asks who calls before anything of the body is read. */
export function mount(app: Express, routes: readonly Route[], services: Services): void {
  for (const route of routes) {
    app[route.method](
      `/api${route.path}`,
      requireAccess(route, services),
      requireRoom(route, services),
      ...BODY_PARSERS[route.accepts],
      handler(route, services),
    );
  }
}

function requireAccess(route: Route, services: Services): RequestHandler {
  return async (request, response, next) => {
    const { database } = services;
    const actor = await actorOf(request, services);
    const id = request.params.id;
    if (actor !== null) response.once("close", () => services.audit.note(route, actor, request, response));
    await authorise(
      route.access,
      actor,
      { method: route.method, id: typeof id === "string" ? id : undefined },
      database,
    );
    response.locals.actor = actor ?? OWNER;
    next();
  };
}

/** Refuses what there would be no room for before any of it is read. */
function requireRoom(route: Route, { database }: Services): RequestHandler {
  return (request, _response, next) => {
    const room = route.method === "get" || route.keeps === false ? null : database.room();
    // Deleting takes little, and is how room is made.
    const needed =
      route.method === "delete" ? 0 : TIMES_WRITTEN * Number(request.headers["content-length"] ?? 0);
    if (room !== null && room < LEAST_ROOM + needed) throw diskFull();
    next();
  };
}

function handler(route: Route, services: Services): RequestHandler {
  return async (request, response) => {
    const { files, sent } = uploadsOf(request, response);
    const answer = await whileUploadsLast(response, () =>
      route.handle({
        params: check(route.params, request.params, "path"),
        query: check(route.query, request.query, "query"),
        body: route.accepts === "none" ? {} : check(route.body, bodyOf(route, request), "body"),
        key: route.repeatable ? keyOf(request) : null,
        files,
        sent,
        services,
        actor: response.locals.actor as Actor,
      }),
    );
    await send(answer, request, response);
  };
}

function check(schema: z.ZodType, value: unknown, part: string): unknown {
  const place = unkeepable(value, DEEPEST);
  if (place !== null) {
    throw new HttpProblem(
      400,
      "invalid-text",
      "A text holds the character zero, or values stand too deep inside others",
      [part, ...place.slice(0, 8)].join("."),
      "Leave it out and send the request again.",
    );
  }
  const result = schema.safeParse(value ?? {});
  if (!result.success) throw problemOfZod(result.error, part);
  return result.data;
}

/** Values inside values; no request that is meant goes deeper. */
const DEEPEST = 40;

/** Where a value holds the character U+0000, which PostgreSQL keeps in no text, or goes too deep; null when nowhere. */
function unkeepable(value: unknown, deeper: number): string[] | null {
  if (typeof value === "string") return value.includes("\0") ? [] : null;
  if (typeof value !== "object" || value === null) return null;
  if (deeper === 0) return [];
  for (const [name, inner] of Object.entries(value)) {
    const place = name.includes("\0") ? [] : unkeepable(inner, deeper - 1);
    if (place !== null) return [name.replaceAll("\0", ""), ...place];
  }
  return null;
}

function bodyOf(route: Route, request: Request): unknown {
  if (route.accepts === "json" && request.body === undefined) {
    throw new HttpProblem(
      415,
      "json-expected",
      "The request has no JSON body",
      "content-type",
      "Send the body with content-type application/json.",
    );
  }
  return request.body;
}

function keyOf(request: Request): string | null {
  const text = request.headers["idempotency-key"];
  return text === undefined ? null : (check(sentKey, text, "Idempotency-Key") as string);
}

async function send(answer: Answer, request: Request, response: Response): Promise<void> {
  if ("stream" in answer) {
    await answer.stream(request, response);
    return;
  }
  if ("json" in answer) {
    if (answer.location !== undefined) response.location(answer.location);
    response.status(answer.status).json(answer.json);
    return;
  }
  if ("kept" in answer) {
    await sendAccount(answer.kept, request, response.status(answer.status));
    return;
  }
  if ("written" in answer) {
    if (answer.location !== undefined) response.location(answer.location);
    await sendWritten(answer.written, response.status(answer.status));
    return;
  }
  if (!("body" in answer)) {
    response.status(answer.status).end();
    return;
  }
  response.status(answer.status);
  // The name would decide the type, and with it what a browser makes of a file that somebody sent: ours comes last.
  if (answer.fileName !== null) response.attachment(answer.fileName);
  response.type(answer.type);
  response.send(typeof answer.body === "string" ? answer.body : Buffer.from(answer.body));
}
