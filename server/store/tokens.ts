/** Tokens: who may ask for what. Only a hash is kept; the token itself is shown once, when it is made. */
import { createHash, randomBytes, randomUUID } from "node:crypto";
import type { Queryable } from "./database.ts";

export const ROLES = ["owner", "teacher", "reader", "researcher"] as const;

export type Role = (typeof ROLES)[number];

export interface TokenRow {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  /** Ids of players (teacher), takes (reader) or corpora (researcher); empty for an owner. */
  readonly scope: readonly string[];
  readonly createdAt: string;
  readonly endedAt: string | null;
}

/** 256 random bits: such a token cannot be guessed, so a plain hash of it is enough at rest. */
const TOKEN_BYTES = 32;

const COLUMNS = `id, name, role, scope, to_char(created_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "createdAt",
  to_char(ended_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "endedAt"`;

export async function createToken(
  database: Queryable,
  values: { readonly name: string; readonly role: Role; readonly scope: readonly string[] },
): Promise<{ readonly id: string; readonly token: string }> {
  const token = randomBytes(TOKEN_BYTES).toString("base64url");
  const id = randomUUID();
  await database.query(
    "insert into tokens (id, name, role, scope, hash) values ($1, $2, $3, $4::text[], $5)",
    [id, values.name, values.role, [...values.scope], hashOf(token)],
  );
  return { id, token };
}

export async function findToken(database: Queryable, token: string): Promise<TokenRow | null> {
  const rows = await database.query<TokenRow>(
    `select ${COLUMNS} from tokens where hash = $1 and ended_at is null`,
    [hashOf(token)],
  );
  return rows[0] ?? null;
}

export function listTokens(database: Queryable): Promise<TokenRow[]> {
  return database.query<TokenRow>(`select ${COLUMNS} from tokens order by created_at desc, id`);
}

/** From the next request on the token opens nothing. False when it is unknown or has ended already. */
export async function endToken(database: Queryable, id: string): Promise<boolean> {
  const rows = await database.query(
    "update tokens set ended_at = now() where id = $1 and ended_at is null returning id",
    [id],
  );
  return rows.length > 0;
}

export async function hasOwnerToken(database: Queryable): Promise<boolean> {
  const rows = await database.query("select 1 from tokens where role = 'owner' and ended_at is null limit 1");
  return rows.length > 0;
}

function hashOf(token: string): string {
  return createHash("sha256").update(token).digest("hex");
}
