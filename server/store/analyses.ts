/** Analyses by their key: rows that can be made again at any time. */
import type { AnalyseOptionsInput } from "../../src/account.ts";
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import { type Analyst, analysisKey } from "../analysis/analyst.ts";
import type { MadeAnalysis } from "../analysis/task.ts";
import type { Database, Queryable } from "./database.ts";

export async function hasAnalysis(database: Queryable, key: string): Promise<boolean> {
  return (await database.query("select 1 from analyses where key = $1", [key])).length > 0;
}

/**
 * Stores the account with all that is kept of it for lists, summaries, searches and tables, under one key and in one
 * statement. A key that is there already is left as it is.
 */
export async function storeAnalysis(inside: Queryable, key: string, made: MadeAnalysis): Promise<void> {
  await inside.query(
    `with made as (
       insert into analyses (key, version, facts, account) values ($1, $2, $3::jsonb, $4)
       on conflict do nothing returning key),
     line as (insert into lines (key, line, packed) select key, $5, $16 from made),
     blocks_made as (
       insert into blocks (key, name, block)
       select made.key, b.* from made, unnest($6::text[], $7::bytea[]) as b),
     ideas as (
       insert into ideas_found (key, viewpoint, pattern, length, occurrences)
       select made.key, i.* from made, unnest($8::text[], $9::text[], $10::int[], $11::int[]) as i)
     insert into tallies (key, chord, role, line_role, notes)
     select made.key, t.* from made, unnest($12::text[], $13::text[], $14::text[], $15::int[]) as t`,
    [
      ...[key, ANALYSIS_VERSION, JSON.stringify(made.facts), made.account, made.line],
      ...[made.blocks.map(({ name }) => name), made.blocks.map(({ block }) => block)],
      ...[made.ideas.map((idea) => idea.viewpoint), made.ideas.map((idea) => idea.pattern)],
      ...[made.ideas.map((idea) => idea.length), made.ideas.map((idea) => idea.occurrences)],
      ...[made.tallies.map((tally) => tally.chord), made.tallies.map((tally) => tally.role)],
      ...[made.tallies.map((tally) => tally.lineRole), made.tallies.map((tally) => tally.notes)],
      made.packed,
    ],
  );
}

/** The key of an analysis, made when it is not there yet; only then is the source opened. */
export async function ensureAnalysis(
  database: Database,
  analyst: Analyst,
  source: string,
  chartText: string | null,
  options: AnalyseOptionsInput,
  open: () => Promise<Uint8Array>,
): Promise<string> {
  const key = analysisKey(source, chartText, options);
  if (await hasAnalysis(database, key)) return key;
  const made = await analyst.analyse({ bytes: await open(), chart: chartText, options });
  await database.transaction((inside) => storeAnalysis(inside, key, made));
  return key;
}
