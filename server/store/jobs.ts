/** The jobs that fill a corpus, and the items of a job. */
import { randomUUID } from "node:crypto";
import type { AnalyseOptionsInput } from "../../src/account.ts";
import type { SerialisedProblem } from "../serialise-problem.ts";
import type { Database, Queryable } from "./database.ts";
import { leaveOutRepeats, oneJobAtATime } from "./repeats.ts";
import { type Content, insertSource, PIECE, SOURCE_COLUMNS, type StoredSource } from "./sources.ts";

export interface Job {
  readonly id: string;
  readonly corpusId: string;
  readonly state: "waiting" | "running" | "done" | "cancelled";
  readonly total: number;
  readonly done: number;
  readonly failed: number;
  readonly cancelled: number;
  /** Files that the corpus had already. */
  readonly repeated: number;
  /** Seconds since the job was made, or that it took. */
  readonly seconds: number;
}

/** What the sender says of a file. */
interface ItemFacts {
  readonly fileName: string;
  readonly title: string;
  readonly player: string | null;
  readonly date: string | null;
  readonly chartText: string | null;
  readonly options: AnalyseOptionsInput;
  readonly tags: readonly string[];
}

/** A file to be analysed, or the reason why it cannot be. */
export interface NewItem extends ItemFacts {
  readonly source: { readonly sha256: string; readonly content: Content } | null;
  readonly problem: SerialisedProblem | null;
}

export interface Item extends ItemFacts {
  readonly id: string;
  /** Id of the token that its job was sent with; null for the owner at the machine itself. */
  readonly madeBy: string | null;
  readonly corpusId: string;
  readonly source: string | null;
  /** Its source as it is kept; `wholeSource` makes the bytes of it. */
  readonly kept: StoredSource | null;
  readonly attempts: number;
  /** True when the item is to be worked on: still waiting, and its job not cancelled. */
  readonly open: boolean;
}

export interface NewJob {
  /** Number of its items. */
  readonly total: number;
  readonly items: AsyncIterable<readonly NewItem[]>;
  /** Whether files that the corpus has already become takes of their own; not by default. */
  readonly repeats?: boolean;
  /** Id of the token that it is sent with; null, or left out, for the owner at the machine itself. */
  readonly madeBy?: string | null;
}

/**
 * Writes a job with all its items, part by part, in one transaction; `enqueue` is called inside the same transaction, so that an item is
 * never without its message. Items that are known to be bad are failed at once.
 */
export async function createJob(
  database: Database,
  corpusId: string,
  { total, items, repeats = false, madeBy = null }: NewJob,
  enqueue: (inside: Queryable, ids: readonly string[]) => Promise<void>,
): Promise<string> {
  const job = randomUUID();
  await database.transaction(async (inside) => {
    await oneJobAtATime(inside, corpusId);
    await inside.query("insert into jobs (id, corpus_id, total, made_by) values ($1, $2, $3, $4)", [
      job,
      corpusId,
      total,
      madeBy,
    ]);
    const good: string[] = [];
    let place = 0;
    for await (const part of items) {
      const rows = part.map((item) => ({ ...item, id: randomUUID(), place: place++ }));
      await insertSources(inside, rows);
      await insertItems(inside, job, corpusId, rows);
      for (const { id, problem } of rows) if (problem === null) good.push(id);
    }
    const left = repeats ? new Set() : await leaveOutRepeats(inside, job, corpusId);
    await enqueue(
      inside,
      good.filter((id) => !left.has(id)),
    );
    await finishJob(inside, job);
  });
  return job;
}

async function insertSources(inside: Queryable, rows: readonly NewItem[]): Promise<void> {
  let held: { sha256: string; bytes: Uint8Array }[] = [];
  let size = 0;
  const write = async () => {
    await inside.query(
      `insert into sources (sha256, bytes) select * from unnest($1::text[], $2::bytea[]) on conflict do nothing`,
      [held.map(({ sha256 }) => sha256), held.map(({ bytes }) => bytes)],
    );
    held = [];
    size = 0;
  };
  for (const { source } of rows) {
    if (source === null) continue;
    const { sha256, content } = source;
    if (!(content instanceof Uint8Array) || content.length > PIECE) {
      await insertSource(inside, sha256, content);
      continue;
    }
    held.push({ sha256, bytes: content });
    size += content.length;
    if (size >= PIECE) await write();
  }
  if (held.length > 0) await write();
}

async function insertItems(
  inside: Queryable,
  job: string,
  corpusId: string,
  rows: readonly (NewItem & { readonly id: string; readonly place: number })[],
): Promise<void> {
  await inside.query(
    `insert into items (id, job_id, corpus_id, place, file_name, source, sent_source, title, player, played_on, chart_text, options,
       tags, state, problem, finished_at)
     select x.id, $1, $2, x.place, x."fileName", x.source, x.source, x.title, x.player, x.date, x."chartText", x.options,
       array(select jsonb_array_elements_text(x.tags)), case when x.problem is null then 'waiting' else 'failed' end,
       x.problem, case when x.problem is not null then now() end
     from jsonb_to_recordset($3::jsonb) as x (id text, place int, "fileName" text, source text, title text,
       player text, date date, "chartText" text, options jsonb, tags jsonb, problem jsonb)`,
    [
      job,
      corpusId,
      JSON.stringify(rows.map(({ source, ...row }) => ({ ...row, source: source?.sha256 ?? null }))),
    ],
  );
}

export async function findJob(database: Queryable, id: string): Promise<Job | null> {
  const rows = await database.query<Job>(
    `select j.id, j.corpus_id as "corpusId", j.total, n.done, n.failed, n.cancelled, n.repeated,
       case when j.cancelled then 'cancelled' when n.waiting = 0 then 'done'
         when n.waiting = j.total then 'waiting' else 'running' end as state,
       extract(epoch from coalesce(j.finished_at, now()) - j.created_at)::float8 as seconds
     from jobs j cross join lateral (
       select count(*) filter (where state = 'done')::int as done, count(*) filter (where state = 'failed')::int as failed,
         count(*) filter (where state = 'cancelled')::int as cancelled,
         count(*) filter (where state = 'repeated')::int as repeated,
         count(*) filter (where state = 'waiting')::int as waiting
       from items i where i.job_id = j.id) n
     where j.id = $1`,
    [id],
  );
  return rows[0] ?? null;
}

/** Stops what is still waiting; what is done stays. False when there is no such job. */
export async function cancelJob(database: Database, id: string): Promise<boolean> {
  return database.transaction(async (inside) => {
    const rows = await inside.query("update jobs set cancelled = true where id = $1 returning id", [id]);
    await inside.query(
      "update items set state = 'cancelled', finished_at = now() where job_id = $1 and state = 'waiting'",
      [id],
    );
    await finishJob(inside, id);
    return rows.length > 0;
  });
}

/** The items of these ids with their sources, counting one more attempt for each that is still open. */
export async function takeItems(database: Queryable, ids: readonly string[]): Promise<Item[]> {
  await database.query(
    "update items set attempts = attempts + 1 where id = any($1::text[]) and state = 'waiting'",
    [[...ids]],
  );
  const rows = await database.query<Omit<Item, "kept"> & (StoredSource | Record<keyof StoredSource, null>)>(
    `select i.id, i.corpus_id as "corpusId", i.file_name as "fileName", i.title, i.player,
       to_char(i.played_on, 'YYYY-MM-DD') as date, i.chart_text as "chartText", i.options, i.tags, i.source, ${SOURCE_COLUMNS},
       i.attempts, j.made_by as "madeBy", (i.state = 'waiting' and not j.cancelled and c.deleted_at is null) as open
     from items i join jobs j on j.id = i.job_id join corpora c on c.id = i.corpus_id
       left join sources s on s.sha256 = i.source
     where i.id = any($1::text[])`,
    [[...ids]],
  );
  return rows.map(({ sha256, bytes, size, ...item }) => ({
    ...item,
    kept: sha256 === null ? null : { sha256, bytes, size },
  }));
}

/** Counts one more fault of an item's analysis, and says how many there are. */
export async function countFault(database: Queryable, id: string): Promise<number> {
  const rows = await database.query<{ faults: number }>(
    "update items set faults = faults + 1 where id = $1 returning faults",
    [id],
  );
  return rows[0]?.faults ?? 0;
}

export async function failItem(database: Database, id: string, problem: SerialisedProblem): Promise<void> {
  await database.transaction(async (inside) => {
    const rows = await inside.query<{ job: string }>(
      `update items set state = 'failed', problem = $2::jsonb, finished_at = now()
       where id = $1 and state = 'waiting' returning job_id as job`,
      [id, JSON.stringify(problem)],
    );
    if (rows[0] !== undefined) await finishJob(inside, rows[0].job);
  });
}

/** Marks an item done; false when another worker was first. Called in the transaction that stores its take. */
export async function finishItem(inside: Queryable, id: string): Promise<boolean> {
  const rows = await inside.query<{ job: string }>(
    `update items set state = 'done', problem = null, finished_at = now()
     where id = $1 and state = 'waiting' returning job_id as job`,
    [id],
  );
  if (rows[0] === undefined) return false;
  await finishJob(inside, rows[0].job);
  return true;
}

/** Items that wait although no message is left for them: their retries ran out while no worker lived. */
export async function strandedItems(database: Queryable, queue: string): Promise<string[]> {
  const rows = await database.query<{ id: string }>(
    `select i.id from items i join jobs j on j.id = i.job_id
     where i.state = 'waiting' and not j.cancelled
       and i.id not in (select q.data->>'item' from pgboss.job q where q.name = $1 and q.state < 'completed')`,
    [queue],
  );
  return rows.map((row) => row.id);
}

async function finishJob(inside: Queryable, job: string): Promise<void> {
  await inside.query(
    `update jobs set finished_at = now() where id = $1 and finished_at is null
       and not exists (select 1 from items where job_id = $1 and state = 'waiting')`,
    [job],
  );
}
