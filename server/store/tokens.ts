/** Tokens: who may ask for what. Only a hash is kept; the token itself is shown once, when it is made. */
import { createHash, randomBytes, randomUUID } from "node:crypto";
import type { Reaches, ROLES } from "../contract/access.ts";
import type { Database, Queryable } from "./database.ts";
import { markErasure } from "./erase.ts";
import { USAGE } from "./quota.ts";

export type Role = (typeof ROLES)[number];

export interface TokenRow {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  /** Ids of players (teacher, student), takes (reader) or corpora (researcher); empty for an owner. */
  readonly scope: readonly string[];
  /** The scope with its names as they are now; null for what is gone. */
  readonly reaches: readonly { readonly id: string; readonly name: string | null }[];
  readonly createdAt: string;
  readonly endedAt: string | null;
  /** When it ends, or has ended, by itself; null for never. */
  readonly expiresAt: string | null;
  /** What it may keep; null for what the settings say. */
  readonly mostTakes: number | null;
  readonly mostMb: number | null;
  /** What it keeps. */
  readonly takes: number;
  readonly megabytes: number;
}

/** A token as a request shows it, without what it keeps and the names of what it reaches. */
type TokenInForce = Omit<TokenRow, "takes" | "megabytes" | "reaches">;

/** What a token is made with. */
export interface NewToken {
  readonly name: string;
  readonly role: Role;
  readonly scope: readonly string[];
  /** Days that it is in force; null, or left out, until it is ended. */
  readonly days?: number | null | undefined;
  readonly mostTakes?: number | null | undefined;
  readonly mostMb?: number | null | undefined;
}

/** 256 random bits: such a token cannot be guessed, so a plain hash of it is enough at rest. */
const TOKEN_BYTES = 32;

/** What a request needs to know of a token. */
const SHORT = `id, name, role, scope, ${timeColumn("created_at", "createdAt")}, ${timeColumn("ended_at", "endedAt")},
  ${timeColumn("expires_at", "expiresAt")}, most_takes as "mostTakes", most_mb as "mostMb"`;
const REACHES = `coalesce(
  (select jsonb_agg(jsonb_build_object('id', s.id, 'name', coalesce(p.name, t.title, c.name)) order by s.place)
   from unnest(k.scope) with ordinality s(id, place)
     left join players p on k.role in ('teacher', 'student') and p.id = s.id and p.deleted_at is null
     left join takes t on k.role = 'reader' and t.id = s.id and t.deleted_at is null
     left join corpora c on k.role = 'researcher' and c.id = s.id and c.deleted_at is null), '[]'::jsonb) as reaches`;
const COLUMNS = `${SHORT}, ${REACHES}, ${USAGE}`;
const IN_FORCE = "ended_at is null and (expires_at is null or expires_at > now())";

export async function createToken(
  database: Queryable,
  { name, role, scope, days = null, mostTakes = null, mostMb = null }: NewToken,
): Promise<{ readonly id: string; readonly token: string }> {
  const token = randomBytes(TOKEN_BYTES).toString("base64url");
  const id = randomUUID();
  await database.query(
    `insert into tokens (id, name, role, scope, hash, expires_at, most_takes, most_mb)
     values ($1, $2, $3, $4::text[], $5, now() + $6::int * interval '1 day', $7, $8)`,
    [id, name, role, [...scope], hashOf(token), days, mostTakes, mostMb],
  );
  return { id, token };
}

export async function findToken(database: Queryable, token: string): Promise<TokenInForce | null> {
  const rows = await database.query<TokenInForce>(
    `select ${SHORT} from tokens where hash = $1 and ${IN_FORCE}`,
    [hashOf(token)],
  );
  return rows[0] ?? null;
}

/** The links to a take that open it now. */
export function sharesOf(database: Queryable, take: string): Promise<TokenInForce[]> {
  return database.query<TokenInForce>(
    `select ${SHORT} from tokens where role = 'reader' and scope = array[$1] and ${IN_FORCE}
     order by created_at desc, id`,
    [take],
  );
}

/** The links by which a player opens their own page now. */
export function linksOfStudent(database: Queryable, player: string): Promise<TokenInForce[]> {
  return database.query<TokenInForce>(
    `select ${SHORT} from tokens where role = 'student' and scope = array[$1] and ${IN_FORCE}
     order by created_at desc, id`,
    [player],
  );
}

export function listTokens(database: Queryable): Promise<TokenRow[]> {
  return database.query<TokenRow>(`select ${COLUMNS} from tokens k order by created_at desc, id`);
}

export interface TokenChange {
  readonly scope?: readonly string[] | undefined;
  readonly mostTakes?: number | null | undefined;
  readonly mostMb?: number | null | undefined;
}

/** The token with what was changed of it; null when none of that id is in force. */
export async function changeToken(
  database: Queryable,
  id: string,
  { scope, mostTakes, mostMb }: TokenChange,
): Promise<TokenRow | null> {
  const rows = await database.query<TokenRow>(
    `update tokens k set scope = coalesce($2::text[], scope),
       most_takes = case when $3 then $4::int else most_takes end,
       most_mb = case when $5 then $6::float8 else most_mb end
     where id = $1 and ${IN_FORCE} returning ${COLUMNS}`,
    [
      ...[id, scope === undefined ? null : [...scope]],
      ...[mostTakes !== undefined, mostTakes ?? null, mostMb !== undefined, mostMb ?? null],
    ],
  );
  return rows[0] ?? null;
}

/** From the next request on the token opens nothing. False when it is unknown or has ended already. */
export async function endToken(database: Queryable, id: string): Promise<boolean> {
  const rows = await database.query(
    "update tokens set ended_at = now() where id = $1 and ended_at is null returning id",
    [id],
  );
  return rows.length > 0;
}

/** The token opens nothing any more, and its name is kept nowhere. False when it is unknown. */
export async function forgetToken(database: Queryable, id: string): Promise<boolean> {
  const rows = await database.query("delete from tokens where id = $1 returning id", [id]);
  if (rows.length > 0) await markErasure(database);
  return rows.length > 0;
}

/** What ended longer ago than so many days goes: a token may be called like a person. */
export async function forgetEndedTokens(database: Database, days: number): Promise<void> {
  await database.transaction(async (inside) => {
    const rows = await inside.query(
      "delete from tokens where least(ended_at, expires_at) < now() - make_interval(days => $1) returning id",
      [days],
    );
    if (rows.length > 0) await markErasure(inside);
  });
}

/** Tokens in force that open something of a player, and how many takes of the player each opens. */
export function reachOfPlayer(database: Queryable, player: string): Promise<Reaches["tokens"]> {
  return database.query(
    `select k.id, k.name, k.role, ${timeColumn("k.created_at", "createdAt")},
       ${timeColumn("k.expires_at", "expiresAt")}, count(t.id)::int as takes
     from tokens k left join takes t on t.player_id = $1 and t.deleted_at is null and (
       k.role in ('owner', 'teacher') or (k.role = 'student' and t.corpus_id is null)
         or (k.role = 'reader' and t.id = any(k.scope)) or (k.role = 'researcher' and t.corpus_id = any(k.scope)))
     where ${IN_FORCE} and (k.role = 'owner' or (k.role in ('teacher', 'student') and $1 = any(k.scope))
       or (k.role in ('reader', 'researcher') and t.id is not null))
     group by k.id
     order by array_position(array['owner', 'teacher', 'student', 'reader', 'researcher'], k.role), lower(k.name), k.id`,
    [player],
  );
}

export async function hasOwnerToken(database: Queryable): Promise<boolean> {
  const rows = await database.query(`select 1 from tokens where role = 'owner' and ${IN_FORCE} limit 1`);
  return rows.length > 0;
}

function timeColumn(column: string, name: string): string {
  return `to_char(${column} at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "${name}"`;
}

function hashOf(token: string): string {
  return createHash("sha256").update(token).digest("hex");
}
