/**
 * Who may ask for what. On the loopback address everyone on this machine is the owner, but no foreign web page on
 * their behalf. On any other address every request needs a token, and a token opens what its role and scope say.
 */
import { createHash, timingSafeEqual } from "node:crypto";
import type { Request, Response } from "express";
import { HttpProblem, notFound } from "./errors.ts";
import type { Services } from "./services.ts";
import type { Database } from "./store/database.ts";
import { findToken } from "./store/tokens.ts";

/** Who asks. `token` is the id of the token that was shown; null for the owner at the machine itself. */
export type Actor = { readonly token: string | null } & (
  | { readonly role: "owner" }
  | { readonly role: "teacher"; readonly players: readonly string[] }
  | { readonly role: "reader"; readonly takes: readonly string[] }
  | { readonly role: "researcher"; readonly corpora: readonly string[] }
  | { readonly role: "monitor" }
  | { readonly role: "student"; readonly player: string }
);

/**
 * What a route asks of the one who calls it.
 * - `open`: nothing
 * - `member`: any token but that of a monitor, which sees figures of the service alone
 * - `shared`: the same, but not the link of a student: what is common property may name others
 * - `working`: any token but that of a link, which must not spend the processor
 * - `teaching`: an owner or a teacher
 * - `owner`: an owner
 * - `operating`: an owner or a monitor
 * - `take`, `player`, `corpus`, `job`: the one named by `:id` must be within reach; changing it needs an owner, or
 *   the teacher of its player
 * - `own`, `own-take`: the player, or the take, that is named by `:id` must be within reach, also for the link of that
 *   player: to read what was handed out, and to write the player's own view
 */
export type Access =
  | "open"
  | "member"
  | "shared"
  | "working"
  | "teaching"
  | "owner"
  | "operating"
  | "take"
  | "player"
  | "own"
  | "own-take"
  | "corpus"
  | "job";

export const OWNER: Actor = { role: "owner", token: null };

export const SESSION_COOKIE = "ledgerline_session";

/** A page asks for the token again after twelve hours. */
const SESSION_MS = 12 * 60 * 60 * 1000;

/** The actor of a request; null when it carries no token that is in force. */
export async function actorOf(
  request: Request,
  { database, needsToken, folderKey }: Pick<Services, "database" | "needsToken" | "folderKey">,
): Promise<Actor | null> {
  if (!needsToken) return OWNER;
  const token = shownToken(request);
  if (token === null) return null;
  if (sameText(token, folderKey)) return OWNER;
  const row = await findToken(database, token);
  if (row === null) return null;
  switch (row.role) {
    case "owner":
      return { role: "owner", token: row.id };
    case "teacher":
      return { role: "teacher", token: row.id, players: row.scope };
    case "reader":
      return { role: "reader", token: row.id, takes: row.scope };
    case "researcher":
      return { role: "researcher", token: row.id, corpora: row.scope };
    case "monitor":
      return { role: "monitor", token: row.id };
    case "student":
      return { role: "student", token: row.id, player: row.scope[0] ?? "" };
  }
}

/**
 * Throws 401 without a token that is in force, 403 when the role does not reach, and 404 for what is out of scope, so
 * that nobody learns what exists.
 */
export async function authorise(
  access: Access,
  actor: Actor | null,
  request: { readonly method: string; readonly id: string | undefined },
  database: Database,
): Promise<void> {
  if (access === "open") return;
  if (actor === null) {
    throw new HttpProblem(
      401,
      "token-needed",
      "This needs a token that is in force",
      "authorization",
      "Sign in with your token, or send it as: Authorization: Bearer TOKEN.",
    );
  }
  if (actor.role === "owner") return;
  if (actor.role === "monitor") {
    if (access === "operating") return;
    throw forbidden();
  }
  if (access === "member") return;
  const writes = request.method !== "get";
  const id = request.id ?? "";
  switch (access) {
    case "shared":
      if (actor.role === "student") throw forbidden();
      return;
    case "working":
      if (actor.role === "reader" || actor.role === "student") throw forbidden();
      return;
    case "teaching":
      if (actor.role !== "teacher") throw forbidden();
      return;
    case "owner":
    case "operating":
      throw forbidden();
    case "player":
      if (actor.role !== "teacher") throw forbidden();
      if (!actor.players.includes(id)) throw notFound("player", id);
      return;
    case "own":
      if (actor.role !== "teacher" && actor.role !== "student") throw forbidden();
      if (!maySeePlayer(actor, id)) throw notFound("player", id);
      return;
    case "own-take":
      if (actor.role !== "teacher" && actor.role !== "student") throw forbidden();
      if (!(await reachesTake(actor, id, database))) throw notFound("take", id);
      return;
    case "take": {
      if (writes && actor.role !== "teacher") throw forbidden();
      if (!(await reachesTake(actor, id, database))) throw notFound("take", id);
      return;
    }
    case "corpus":
      if (actor.role !== "researcher") throw forbidden();
      if (!actor.corpora.includes(id)) throw notFound("corpus", id);
      return;
    case "job": {
      if (actor.role !== "researcher") throw forbidden();
      const rows = await database.query<{ corpus: string }>(
        "select corpus_id as corpus from jobs where id = $1",
        [id],
      );
      if (rows[0] === undefined || !actor.corpora.includes(rows[0].corpus)) throw notFound("job", id);
      return;
    }
  }
}

/** True when a take with this player and corpus may be seen. */
export function maySee(
  actor: Actor,
  take: { readonly id: string; readonly playerId: string | null; readonly corpusId: string | null },
): boolean {
  switch (actor.role) {
    case "owner":
      return true;
    case "teacher":
      return take.playerId !== null && actor.players.includes(take.playerId);
    case "reader":
      return actor.takes.includes(take.id);
    case "researcher":
      return take.corpusId !== null && actor.corpora.includes(take.corpusId);
    case "student":
      return take.playerId === actor.player && take.corpusId === null;
    case "monitor":
      return false;
  }
}

/** The takes that stand alone which `maySee` would let through, as a list is asked for them; null for no bound. */
export function reachOf(actor: Actor): {
  readonly players: readonly string[] | null;
  readonly takes: readonly string[] | null;
} {
  switch (actor.role) {
    case "owner":
      return { players: null, takes: null };
    case "teacher":
      return { players: actor.players, takes: null };
    case "reader":
      return { players: null, takes: actor.takes };
    case "student":
      return { players: [actor.player], takes: null };
    case "researcher":
    case "monitor":
      return { players: null, takes: [] };
  }
}

export function maySeePlayer(actor: Actor, id: string): boolean {
  switch (actor.role) {
    case "owner":
      return true;
    case "teacher":
      return actor.players.includes(id);
    case "student":
      return actor.player === id;
    default:
      return false;
  }
}

export function maySeeCorpus(actor: Actor, id: string): boolean {
  return actor.role === "owner" || (actor.role === "researcher" && actor.corpora.includes(id));
}

async function reachesTake(actor: Actor, id: string, database: Database): Promise<boolean> {
  const rows = await database.query<{ id: string; playerId: string | null; corpusId: string | null }>(
    `select id, player_id as "playerId", corpus_id as "corpusId" from takes where id = $1`,
    [id],
  );
  return rows[0] !== undefined && maySee(actor, rows[0]);
}

/** Keeps a token in a cookie that scripts cannot read and other sites cannot send. */
export function setSession(request: Request, response: Response, token: string): void {
  response.cookie(SESSION_COOKIE, token, {
    httpOnly: true,
    sameSite: "strict",
    secure: request.secure,
    maxAge: SESSION_MS,
    path: "/",
  });
}

/** Takes as long for a guess that is nearly right as for any other. */
function sameText(a: string, b: string): boolean {
  const digest = (text: string) => createHash("sha256").update(text).digest();
  return timingSafeEqual(digest(a), digest(b));
}

function forbidden(): HttpProblem {
  return new HttpProblem(
    403,
    "not-allowed",
    "Your token does not reach this",
    "authorization",
    "Ask the owner of this service for a token that does.",
  );
}

/** The token that a request shows, in force or not. */
export function shownToken(request: Request): string | null {
  return bearer(request) ?? cookie(request);
}

function bearer(request: Request): string | null {
  return /^Bearer ([\w-]{20,100})$/.exec(request.headers.authorization ?? "")?.[1] ?? null;
}

function cookie(request: Request): string | null {
  const match = new RegExp(`(?:^|; )${SESSION_COOKIE}=([\\w-]{20,100})(?:;|$)`).exec(
    request.headers.cookie ?? "",
  );
  return match?.[1] ?? null;
}
