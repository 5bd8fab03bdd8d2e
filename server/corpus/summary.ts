/** What a corpus, or a part of it, holds: counts, distributions and breakdowns, from the tallies of its analyses. */
import { type CorpusSummary, type Grouping, MEASURES } from "../contract/corpus-results.ts";
import type { Filter } from "../contract/filter.ts";
import type { Database } from "../store/database.ts";
import { MEANT, meantValues } from "./filter.ts";

/** Width of a tempo band in quarter notes a minute. */
const TEMPO_BAND = 40;

/** What the takes are grouped by, as SQL over takes t, analyses a, players p; chords are told apart in the tallies. */
const GROUP_VALUE: Record<Exclude<Grouping, "chord">, string> = {
  player: "coalesce(p.name, '')",
  tag: "unnest(t.tags)",
  tempo: `coalesce((floor((a.facts->>'tempo')::float8 / ${TEMPO_BAND}) * ${TEMPO_BAND})::int || '-'
    || ((floor((a.facts->>'tempo')::float8 / ${TEMPO_BAND}) + 1) * ${TEMPO_BAND})::int, 'no beat')`,
  decade: "coalesce((floor(extract(year from t.played_on) / 10) * 10)::int || 's', '')",
  key: "a.facts->>'key'",
  chart: "coalesce(a.facts->>'chartName', '')",
  method: "a.facts->>'method'",
};

export async function summarise(
  database: Database,
  corpus: string,
  filter: Filter,
  by: Grouping | null,
): Promise<CorpusSummary> {
  const values = meantValues(corpus, filter);
  const [totals, tallies, groups] = await Promise.all([
    database.query<Record<string, number | number[] | null>>(
      `select count(*)::int as takes, count(distinct t.player_id)::int as players,
         coalesce(sum((a.facts->>'soloNotes')::int), 0)::int as notes,
         coalesce(sum((a.facts->>'seconds')::numeric), 0)::float8 as seconds,
         ${MEASURES.map(
           (
             name,
           ) => `percentile_cont(array[0.25, 0.5, 0.75]) within group (order by (a.facts->>'${name}')::float8)
             as "${name}", count((a.facts->>'${name}'))::int as "${name}Takes"`,
         ).join(", ")}
       ${MEANT}`,
      values,
    ),
    database.query<{ chord: string; role: string; lineRole: string; notes: number }>(
      `with meant as (select t.analysis as key ${MEANT})
       select y.chord, y.role, y.line_role as "lineRole", sum(y.notes)::int as notes
       from meant join tallies y on y.key = meant.key group by 1, 2, 3`,
      values,
    ),
    by === null ? [] : groupsOf(database, values, by),
  ]);
  const total = totals[0]!;
  return {
    takes: total.takes as number,
    players: total.players as number,
    notes: total.notes as number,
    seconds: total.seconds as number,
    roles: sharesBy(tallies, (row) => row.role),
    lineRoles: sharesBy(tallies, (row) => row.lineRole),
    chords: sharesBy(tallies, (row) => row.chord),
    measures: Object.fromEntries(
      MEASURES.map((name) => {
        const quartiles = total[name] as number[] | null;
        const takes = total[`${name}Takes`] as number;
        return [
          name,
          quartiles === null || takes === 0
            ? null
            : { q1: quartiles[0]!, median: quartiles[1]!, q3: quartiles[2]!, takes },
        ];
      }),
    ) as CorpusSummary["measures"],
    by,
    groups,
  };
}

async function groupsOf(
  database: Database,
  values: unknown[],
  by: Grouping,
): Promise<CorpusSummary["groups"]> {
  const value = by === "chord" ? "y.chord" : "meant.value";
  // Once for each take, and not for each of its tallies, which are many more.
  const meant = `with meant as materialized
    (select t.id, t.analysis, ${by === "chord" ? "null" : GROUP_VALUE[by]} as value ${MEANT})`;
  const [roles, counts] = await Promise.all([
    database.query<{ value: string; role: string; notes: number }>(
      `${meant} select ${value} as value, y.role, sum(y.notes)::int as notes
       from meant join tallies y on y.key = meant.analysis group by 1, 2
       order by ${value} collate "C", y.role collate "C"`,
      values,
    ),
    database.query<{ value: string; takes: number }>(
      by === "chord"
        ? `${meant} select value, count(*)::int as takes from
             (select distinct meant.id, y.chord as value from meant join tallies y on y.key = meant.analysis) as one
           group by 1 order by value collate "C"`
        : `${meant} select value, count(*)::int as takes from meant group by value order by value collate "C"`,
      values,
    ),
  ]);
  const byValue = new Map<string, (typeof roles)[number][]>(counts.map((group) => [group.value, []]));
  for (const row of roles) byValue.get(row.value)?.push(row);
  return counts.map(({ value, takes }) => {
    const rows = byValue.get(value)!;
    return {
      value,
      takes,
      notes: rows.reduce((sum, row) => sum + row.notes, 0),
      roles: sharesBy(rows, (row) => row.role),
    };
  });
}

function sharesBy<Row extends { readonly notes: number }>(
  rows: readonly Row[],
  label: (row: Row) => string,
): Record<string, number> {
  const counts = new Map<string, number>();
  let all = 0;
  for (const row of rows) {
    counts.set(label(row), (counts.get(label(row)) ?? 0) + row.notes);
    all += row.notes;
  }
  return Object.fromEntries(
    [...counts].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1)).map(([key, n]) => [key, n / all]),
  );
}
