/** Who read and wrote what of persons: by ids of tokens, players and takes, never by names. */
import { randomUUID } from "node:crypto";
import type { AuditEntry } from "../contract/audit.ts";
import type { Queryable } from "./database.ts";

/** What is noted of a request. */
export interface Noted {
  /** Id of the token that was shown; null for the owner at the machine itself. */
  readonly token: string | null;
  readonly role: string;
  readonly action: "read" | "write";
  /** HTTP method, in small letters. */
  readonly method: string;
  /** The route, with its parameters by name. */
  readonly route: string;
  /** Id of the player, take, corpus, job or token that it was about; null for a list. */
  readonly about: string | null;
  readonly status: number;
}

export interface NotedTimes extends Noted {
  readonly times: number;
}

export async function writeAudit(database: Queryable, entries: readonly NotedTimes[]): Promise<void> {
  await database.query(
    `insert into audit (id, token, role, action, method, route, about, status, times)
     select * from unnest($1::text[], $2::text[], $3::text[], $4::text[], $5::text[], $6::text[], $7::text[],
       $8::int[], $9::int[])`,
    [
      entries.map(() => randomUUID()),
      ...(["token", "role", "action", "method", "route", "about", "status", "times"] as const).map((field) =>
        entries.map((entry) => entry[field]),
      ),
    ],
  );
}

export interface AuditFilter {
  readonly about?: string | undefined;
  readonly token?: string | undefined;
  readonly action?: "read" | "write" | undefined;
  /** Id of the entry that the page goes on after. */
  readonly after?: string | undefined;
  readonly limit: number;
}

/** An entry without the words of its route, which the routes have. */
type StoredEntry = Omit<AuditEntry, "what"> & Pick<Noted, "method">;

/** Entries, the newest first, each with the names of its token and of what it was about as they are now. */
export function readAudit(database: Queryable, filter: AuditFilter): Promise<StoredEntry[]> {
  const { about = null, token = null, action = null, after = null, limit } = filter;
  return database.query<StoredEntry>(
    `select a.id, to_char(a.at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as at, a.token, k.name as "tokenName",
       a.role, a.action, a.method, a.route, a.about, a.status, a.times,
       coalesce(p.name, t.title, c.name, o.name) as "aboutName"
     from audit a left join tokens k on k.id = a.token
       left join players p on a.route like '/players/%' and p.id = a.about and p.deleted_at is null
       left join takes t on a.route like '/takes/%' and t.id = a.about and t.deleted_at is null
       left join jobs j on a.route like '/jobs/%' and j.id = a.about
       left join corpora c on (a.route like '/corpora/%' and c.id = a.about or c.id = j.corpus_id)
         and c.deleted_at is null
       left join tokens o on a.route like '/tokens/%' and o.id = a.about
     where ($1::text is null or a.about = $1) and ($2::text is null or a.token = $2)
       and ($3::text is null or a.action = $3)
       and ($4::text is null or (a.at, a.id) < (select b.at, b.id from audit b where b.id = $4))
     order by a.at desc, a.id desc limit $5`,
    [about, token, action, after, limit],
  );
}

/** Entries older than so many days go. */
export async function forgetAudit(database: Queryable, days: number): Promise<void> {
  await database.query("delete from audit where at < now() - make_interval(days => $1)", [days]);
}
