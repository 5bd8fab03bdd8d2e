/** Corpora: their takes come by jobs. */
import { randomUUID } from "node:crypto";
import type { Queryable } from "./database.ts";

export interface Corpus {
  readonly id: string;
  readonly name: string;
  readonly note: string;
  readonly takes: number;
  readonly waiting: number;
  readonly failed: number;
}

const CORPUS = `select c.id, c.name, c.note,
    (select count(*)::int from takes t where t.corpus_id = c.id and t.deleted_at is null) as takes,
    (select count(*)::int from items i where i.corpus_id = c.id and i.state = 'waiting') as waiting,
    (select count(*)::int from items i where i.corpus_id = c.id and i.state = 'failed') as failed
  from corpora c where c.deleted_at is null`;

export function listCorpora(database: Queryable): Promise<Corpus[]> {
  return database.query<Corpus>(`${CORPUS} order by lower(c.name), c.id`);
}

export async function findCorpus(database: Queryable, id: string): Promise<Corpus | null> {
  return (await database.query<Corpus>(`${CORPUS} and c.id = $1`, [id]))[0] ?? null;
}

export async function createCorpus(
  database: Queryable,
  values: { readonly name: string; readonly note: string },
): Promise<string> {
  const id = randomUUID();
  await database.query("insert into corpora (id, name, note) values ($1, $2, $3)", [
    id,
    values.name,
    values.note,
  ]);
  return id;
}

/** Hides the corpus and its takes with one time stamp. */
export async function deleteCorpus(database: Queryable, id: string): Promise<boolean> {
  const rows = await database.query(
    `with gone as (update corpora set deleted_at = now() where id = $1 and deleted_at is null returning id, deleted_at),
       takes_gone as (update takes t set deleted_at = gone.deleted_at from gone
         where t.corpus_id = gone.id and t.deleted_at is null),
       jobs_gone as (update jobs j set cancelled = true from gone where j.corpus_id = gone.id)
     select id from gone`,
    [id],
  );
  return rows.length > 0;
}

/** Brings a deleted corpus back with the takes that went with it. What its jobs had not read yet stays unread. */
export async function restoreCorpus(database: Queryable, id: string): Promise<boolean> {
  const rows = await database.query(
    `with gone as (select id, deleted_at from corpora where id = $1 and deleted_at is not null),
       takes_back as (update takes t set deleted_at = null from gone
         where t.corpus_id = gone.id and t.deleted_at = gone.deleted_at)
     update corpora c set deleted_at = null from gone where c.id = gone.id returning c.id`,
    [id],
  );
  return rows.length > 0;
}
