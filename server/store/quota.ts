/** How much a token may keep: takes, and bytes of their files and recordings. */
import { HttpProblem } from "../errors.ts";
import type { Queryable } from "./database.ts";
import { SOURCE_SIZE } from "./sources.ts";

export interface Quota {
  /** Most takes; null for no bound. */
  readonly takes: number | null;
  /** Most megabytes, of a million bytes each; null for no bound. */
  readonly megabytes: number | null;
}

/** What a token's takes are now, and what waits in jobs to become one. Of deleted takes nothing counts. */
export const USAGE = `
  (select count(*)::int from takes t where t.made_by = k.id and t.deleted_at is null) +
    (select count(*)::int from items i join jobs j on j.id = i.job_id where j.made_by = k.id and i.state = 'waiting')
    as takes,
  ((select coalesce(sum(${SOURCE_SIZE}), 0) from takes t join sources s on s.sha256 = t.source
     where t.made_by = k.id and t.deleted_at is null) +
   (select coalesce(sum(octet_length(s.bytes)), 0) from takes t join sounds s on s.take_id = t.id
     where t.made_by = k.id and t.deleted_at is null) +
   (select coalesce(sum(${SOURCE_SIZE}), 0) from items i join jobs j on j.id = i.job_id
     join sources s on s.sha256 = i.source where j.made_by = k.id and i.state = 'waiting'))::float8 / 1e6 as megabytes`;

const MB = 1e6;

/**
 * Refuses what would go beyond what the caller's token may keep. Whoever works at the machine itself has no token, and
 * no bound but the disk.
 *
 * @param token id of the caller's token
 * @param usual what a token may keep that has no bound of its own
 * @throws HttpProblem 403 `quota-reached`
 */
export async function checkQuota(
  database: Queryable,
  token: string | null,
  usual: Quota,
  more: { readonly takes: number; readonly bytes: number },
): Promise<void> {
  if (token === null) return;
  const [row] = await database.query<{
    mostTakes: number | null;
    mostMb: number | null;
    takes: number;
    megabytes: number;
  }>(`select k.most_takes as "mostTakes", k.most_mb as "mostMb", ${USAGE} from tokens k where k.id = $1`, [
    token,
  ]);
  if (row === undefined) return;
  const takes = row.mostTakes ?? usual.takes;
  const megabytes = row.mostMb ?? usual.megabytes;
  if (takes !== null && row.takes + more.takes > takes) throw reached(`${row.takes} of ${takes} takes`);
  if (megabytes !== null && row.megabytes + more.bytes / MB > megabytes)
    throw reached(`${row.megabytes.toFixed(1)} of ${megabytes} MB`);
}

function reached(kept: string): HttpProblem {
  return new HttpProblem(
    403,
    "quota-reached",
    `This would be more than your token may keep; it keeps ${kept}`,
    null,
    "Delete takes that are not needed any more, or ask the owner of this service for more.",
  );
}
