/** What a paper needs so that others can repeat it: versions, options and hashes. */
import { createHash } from "node:crypto";
import { SCHEMA_VERSION } from "../../src/account.ts";
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import type { Citation } from "../contract/corpus-results.ts";
import type { Filter } from "../contract/filter.ts";
import type { Database } from "../store/database.ts";
import { MEANT, meantValues } from "./filter.ts";

export async function citationOf(
  database: Database,
  corpus: string,
  name: string,
  filter: Filter,
): Promise<Citation> {
  const values = meantValues(corpus, filter);
  const [rows, options] = await Promise.all([
    database.query<{ source: string; key: string; version: string; notes: number }>(
      `select t.source, a.key, a.version, (a.facts->>'soloNotes')::int as notes ${MEANT}`,
      values,
    ),
    database.query<{ options: Record<string, unknown>; takes: number }>(
      `select t.options - 'name' as options, count(*)::int as takes ${MEANT} group by 1 order by 2 desc, 1`,
      values,
    ),
  ]);
  const versions = [...new Set(rows.map((row) => row.version))].sort();
  const sourcesHash = hashOf(rows.map((row) => row.source));
  const analysesHash = hashOf(rows.map((row) => row.key));
  const notes = rows.reduce((sum, row) => sum + row.notes, 0);
  const analysisVersion = versions.join(", ") || ANALYSIS_VERSION;
  return {
    text: `"${name}", ${rows.length} takes with ${notes} solo notes, analysed with Ledgerline, analysis version ${analysisVersion}, schema version ${SCHEMA_VERSION}; sources SHA-256 ${sourcesHash}, analyses SHA-256 ${analysesHash}.`,
    analysisVersion,
    schemaVersion: SCHEMA_VERSION,
    takes: rows.length,
    notes,
    sourcesHash,
    analysesHash,
    filter: Object.fromEntries(Object.entries(filter).filter(([, value]) => value !== undefined)),
    options,
  };
}

function hashOf(lines: readonly string[]): string {
  return createHash("sha256")
    .update([...lines].sort().join("\n"))
    .digest("hex");
}
