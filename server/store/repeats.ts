/** Files that come twice: the same bytes in the same corpus are one take, unless more was asked for. */
import { Problem } from "../../src/take/index.ts";
import { serialiseProblem } from "../serialise-problem.ts";
import type { Queryable } from "./database.ts";

/** Of two jobs for one corpus the second sees what the first has sent. Ends with the transaction. */
export async function oneJobAtATime(inside: Queryable, corpusId: string): Promise<void> {
  await inside.query("select id from corpora where id = $1 for update", [corpusId]);
}

/** What was sent with a file; of two that differ in it none can stand for the other. */
const SAME = ["chart_text", "options", "player", "played_on", "tags"]
  .map((column) => `o.${column} is not distinct from i.${column}`)
  .join(" and ");

/**
 * Leaves out the items of a new job whose bytes the corpus has already, as a take or on the way to one. One that came
 * with another chart, other options, player, day or tags is failed: what was meant by that, nobody can guess.
 *
 * @returns ids of the items that are not worked on
 */
export async function leaveOutRepeats(inside: Queryable, job: string): Promise<Set<string>> {
  const rows = await inside.query<{ id: string }>(
    `with sent as (select * from items where job_id = $1 and state = 'waiting' and sent_source is not null),
     first as (
       select distinct on (o.sent_source) o.*
       from items o left join takes t on t.id = o.id and t.deleted_at is null
       where o.corpus_id = (select corpus_id from jobs where id = $1)
         and o.sent_source in (select sent_source from sent)
         and (o.state = 'waiting' or (o.state = 'done' and t.id is not null))
       order by o.sent_source, o.job_id = $1, o.place)
     update items set state = case when ${SAME} then 'repeated' else 'failed' end, same_as = o.id,
       problem = case when ${SAME} then null else $2::jsonb end, finished_at = now()
     from sent i join first o on o.sent_source = i.sent_source and o.id <> i.id
     where items.id = i.id returning items.id`,
    [job, JSON.stringify(serialiseProblem(otherwiseSent()))],
  );
  return new Set(rows.map(({ id }) => id));
}

function otherwiseSent(): Problem {
  return new Problem(
    "file-twice",
    "The corpus has this file already, with another chart, other options, player, day or tags",
    null,
    'Change the take that is there, or delete it and send the file again; with "repeats" set to "keep" both are kept.',
  );
}

export interface RepeatedItem {
  readonly item: string;
  readonly job: string;
  readonly fileName: string;
  readonly take: string;
}

export function listRepeated(database: Queryable, corpusId: string): Promise<RepeatedItem[]> {
  return database.query<RepeatedItem>(
    `select i.id as item, i.job_id as job, i.file_name as "fileName", i.same_as as take
     from items i join jobs j on j.id = i.job_id
     where i.corpus_id = $1 and i.state = 'repeated' order by j.created_at, i.place`,
    [corpusId],
  );
}
