/** What a paper needs so that others can repeat it: versions, options and hashes. */
import { createHash } from "node:crypto";
import { z } from "zod";
import { SCHEMA_VERSION } from "../../src/account.ts";
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import type { Database } from "../store/database.ts";
import { type Filter, MEANT, meantValues } from "./filter.ts";

export const citationSchema = z.object({
  text: z.string(),
  analysisVersion: z.string(),
  schemaVersion: z.int(),
  takes: z.int(),
  notes: z.int(),
  /** SHA-256 over the sorted hashes of the sources, one a line. */
  sourcesHash: z.string(),
  /** SHA-256 over the sorted keys of the analyses: sources, charts, options and version together. */
  analysesHash: z.string(),
  filter: z.record(z.string(), z.unknown()),
  /** The different sets of options, with the number of takes analysed under each; names of files are left out. */
  options: z.array(z.object({ options: z.record(z.string(), z.unknown()), takes: z.int() })),
});

export type Citation = z.infer<typeof citationSchema>;

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
