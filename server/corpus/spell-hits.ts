/** The names that accounts give to the notes of hits, from the tables that are stored beside them. */
import { gunzipSync } from "node:zlib";
import type { Analysis } from "../../src/account.ts";
import { NOTES } from "../../src/export/index.ts";
import type { HitInContext } from "../../src/motif/index.ts";
import type { Database } from "../store/database.ts";
import { blockName, openBlock } from "./block.ts";

/** A hit with the name of each of its notes, from the first of `before` to the last of `after`. */
export interface SpelledHit extends HitInContext {
  readonly spellings: readonly string[];
}

const ID = NOTES.columns.findIndex(({ name }) => name === "id");
const SPELLING = NOTES.columns.findIndex(({ name }) => name === "spelling");

/** Hits with their notes as the accounts of their takes spell them. */
export async function spellHits(database: Database, hits: readonly HitInContext[]): Promise<SpelledHit[]> {
  const takes = [...new Set(hits.map((hit) => hit.take))];
  const rows = await database.query<{ take: string; block: Uint8Array | null; account: Uint8Array | null }>(
    `select t.id as take, b.block,
       case when b.key is null then (select account from analyses where key = t.analysis) end as account
     from takes t left join blocks b on b.key = t.analysis and b.name = $2 where t.id = any($1::text[])`,
    [takes, blockName("notes")],
  );
  const names = new Map(rows.map(({ take, block, account }) => [take, namesIn(block, account)]));
  return hits.map((hit) => ({
    ...hit,
    spellings: hit.ids.map((id) => names.get(hit.take)?.get(id) ?? ""),
  }));
}

/** Spelling by the note's id; takes that were analysed before tables were stored are read from their account. */
function namesIn(block: Uint8Array | null, account: Uint8Array | null): ReadonlyMap<string, string> {
  if (block === null) {
    if (account === null) return new Map();
    const analysis = JSON.parse(gunzipSync(account).toString("utf8")) as Analysis;
    return new Map(analysis.notes.map((note) => [note.id, note.spelling]));
  }
  const { rows, columns } = openBlock(block);
  const [ids, spellings] = [columns[ID]!, columns[SPELLING]!];
  return new Map(
    Array.from({ length: rows }, (_, i) => [
      String(ids.values[ids.codes[i]!]),
      String(spellings.values[spellings.codes[i]!]),
    ]),
  );
}
