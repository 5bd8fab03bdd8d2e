/** Analyses by their key: rows that can be made again at any time. */
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import type { MadeAnalysis } from "../analysis/task.ts";
import type { Queryable } from "./database.ts";

export async function hasAnalysis(database: Queryable, key: string): Promise<boolean> {
  return (await database.query("select 1 from analyses where key = $1", [key])).length > 0;
}

/** Stores the account with its tallies and line, all under one key. A key that is there already is left as it is. */
export async function storeAnalysis(inside: Queryable, key: string, made: MadeAnalysis): Promise<void> {
  const stored = await inside.query(
    `insert into analyses (key, version, facts, account) values ($1, $2, $3::jsonb, $4)
     on conflict do nothing returning key`,
    [key, ANALYSIS_VERSION, JSON.stringify(made.facts), made.account],
  );
  if (stored.length === 0) return;
  await inside.query("insert into lines (key, line) values ($1, $2)", [key, made.line]);
  await inside.query(
    `insert into ideas_found (key, viewpoint, pattern, length, occurrences)
     select $1, * from unnest($2::text[], $3::text[], $4::int[], $5::int[])`,
    [
      key,
      made.ideas.map((idea) => idea.viewpoint),
      made.ideas.map((idea) => idea.pattern),
      made.ideas.map((idea) => idea.length),
      made.ideas.map((idea) => idea.occurrences),
    ],
  );
  await inside.query(
    `insert into tallies (key, chord, role, line_role, notes)
     select $1, * from unnest($2::text[], $3::text[], $4::text[], $5::int[])`,
    [
      key,
      made.tallies.map((tally) => tally.chord),
      made.tallies.map((tally) => tally.role),
      made.tallies.map((tally) => tally.lineRole),
      made.tallies.map((tally) => tally.notes),
    ],
  );
}
