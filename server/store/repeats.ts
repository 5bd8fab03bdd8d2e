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

/** Items that one statement looks for, or changes. */
const AT_ONCE = 500;

/**
 * Leaves out the items of a new job whose bytes the corpus has already, as a take or on the way to one. One that came
 * with another chart, other options, player, day or tags is failed: what was meant by that, nobody can guess.
 *
 * @returns ids of the items that are not worked on
 */
export async function leaveOutRepeats(
  inside: Queryable,
  job: string,
  corpusId: string,
): Promise<Set<string>> {
  const items = await inside.query<{ id: string; sent: string }>(
    `select id, sent_source as sent from items
     where job_id = $1 and state = 'waiting' and sent_source is not null order by place`,
    [job],
  );
  const first = await alreadyThere(inside, job, corpusId, [...new Set(items.map(({ sent }) => sent))]);
  const repeats: { readonly id: string; readonly other: string }[] = [];
  for (const { id, sent } of items) {
    const other = first.get(sent);
    if (other === undefined) first.set(sent, id);
    else repeats.push({ id, other });
  }
  for (let i = 0; i < repeats.length; i += AT_ONCE) {
    const part = repeats.slice(i, i + AT_ONCE);
    await inside.query(
      `update items i set state = case when ${SAME} then 'repeated' else 'failed' end, same_as = o.id,
         problem = case when ${SAME} then null else $3::jsonb end, finished_at = now()
       from unnest($1::text[], $2::text[]) as pair (id, other) join items o on o.id = pair.other
       where i.id = pair.id`,
      [
        part.map(({ id }) => id),
        part.map(({ other }) => other),
        JSON.stringify(serialiseProblem(otherwiseSent())),
      ],
    );
  }
  return new Set(repeats.map(({ id }) => id));
}

/** Of the files with these hashes that earlier jobs brought to the corpus, the item that counts, by its hash. */
async function alreadyThere(
  inside: Queryable,
  job: string,
  corpusId: string,
  hashes: readonly string[],
): Promise<Map<string, string>> {
  const found = new Map<string, string>();
  // A few at a time, each by the index: of rows that have just come a plan for all of them knows nothing.
  for (let i = 0; i < hashes.length; i += AT_ONCE) {
    const rows = await inside.query<{ id: string; sent: string }>(
      `select distinct on (o.sent_source) o.id, o.sent_source as sent
       from items o left join takes t on t.id = o.id and t.deleted_at is null
       where o.corpus_id = $1 and o.sent_source = any($2::text[]) and o.job_id <> $3
         and (o.state = 'waiting' or (o.state = 'done' and t.id is not null))
       order by o.sent_source, o.place, o.id`,
      [corpusId, hashes.slice(i, i + AT_ONCE), job],
    );
    for (const { id, sent } of rows) found.set(sent, id);
  }
  return found;
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
