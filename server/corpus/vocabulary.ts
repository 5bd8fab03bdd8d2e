/** Which ideas the takes of a corpus share: patterns by the number of takes in which they are motifs. */
import type { MotifViewpoint } from "../../src/account.ts";
import type { Vocabulary } from "../contract/corpus-results.ts";
import type { Filter } from "../contract/filter.ts";
import type { Database } from "../store/database.ts";
import { MEANT, meantValues } from "./filter.ts";

export async function vocabularyOf(
  database: Database,
  corpus: string,
  filter: Filter,
  viewpoint: MotifViewpoint | null,
  limit: number,
): Promise<Vocabulary> {
  const values = meantValues(corpus, filter);
  const [count, rows] = await Promise.all([
    database.query<{ takes: number }>(`select count(*)::int as takes ${MEANT}`, values),
    database.query<Omit<Vocabulary["ideas"][number], "pattern"> & { pattern: string }>(
      `with meant as (select t.id, t.analysis, t.player_id ${MEANT})
       select i.viewpoint, i.pattern, max(i.length)::int as notes, count(distinct meant.id)::int as takes,
         count(distinct meant.player_id)::int as players, sum(i.occurrences)::int as occurrences
       from meant join ideas_found i on i.key = meant.analysis
       where ($11::text is null or i.viewpoint = $11)
       group by 1, 2 order by takes desc, occurrences desc, notes desc, i.pattern collate "C", i.viewpoint collate "C"
       limit $12`,
      [...values, viewpoint, limit],
    ),
  ]);
  return {
    takes: count[0]!.takes,
    ideas: rows.map((row) => ({ ...row, pattern: JSON.parse(row.pattern) as (number | string)[] })),
  };
}
