/** The files of a corpus that could not be analysed. */
import type { SerialisedProblem } from "../serialise-problem.ts";
import type { Database, Queryable } from "./database.ts";
import { SOURCE_COLUMNS, type StoredSource, wholeSource } from "./sources.ts";

export interface Failure extends SerialisedProblem {
  readonly item: string;
  readonly job: string;
  readonly fileName: string;
}

export function listFailures(database: Queryable, corpusId: string): Promise<Failure[]> {
  return database.query<Failure>(
    `select i.id as item, i.job_id as job, i.file_name as "fileName", i.problem->>'code' as code,
       i.problem->>'message' as message, i.problem->>'where' as where, i.problem->>'todo' as todo
     from items i where i.corpus_id = $1 and i.state = 'failed' order by i.finished_at, i.place`,
    [corpusId],
  );
}

/**
 * Lets the failed files of a corpus that came with their bytes wait again, as if they had just come; `enqueue` is called
 * inside the same transaction.
 *
 * @returns how many
 */
export async function retryFailed(
  database: Database,
  corpusId: string,
  enqueue: (inside: Queryable, ids: readonly string[]) => Promise<void>,
): Promise<number> {
  return database.transaction(async (inside) => {
    const rows = await inside.query<{ id: string; job: string }>(
      `update items i set state = 'waiting', problem = null, finished_at = null, attempts = 0, faults = 0
       from jobs j where j.id = i.job_id and not j.cancelled
         and i.corpus_id = $1 and i.state = 'failed' and i.source is not null and i.attempts > 0
       returning i.id, i.job_id as job`,
      [corpusId],
    );
    await inside.query("update jobs set finished_at = null where id = any($1::text[])", [
      rows.map(({ job }) => job),
    ]);
    await enqueue(
      inside,
      rows.map(({ id }) => id),
    );
    return rows.length;
  });
}

/** The file of an item of a corpus as it came, or null. */
export async function itemSource(
  database: Queryable,
  corpusId: string,
  id: string,
): Promise<{ readonly fileName: string; readonly bytes: Uint8Array } | null> {
  const rows = await database.query<StoredSource & { fileName: string }>(
    `select i.file_name as "fileName", ${SOURCE_COLUMNS} from items i join sources s on s.sha256 = i.source
     where i.id = $2 and i.corpus_id = $1`,
    [corpusId, id],
  );
  const [row] = rows;
  return row === undefined ? null : { fileName: row.fileName, bytes: await wholeSource(database, row) };
}
