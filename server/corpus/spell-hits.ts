/** The names that accounts give to the notes of hits, from their lines or from the tables that are stored beside them. */
import { gunzipSync } from "node:zlib";
import type { Analysis } from "../../src/account.ts";
import { NOTES } from "../../src/export/index.ts";
import type { HitInContext } from "../../src/motif/index.ts";
import { pitchNameAt } from "../../src/pitch/index.ts";
import type { Database } from "../store/database.ts";
import { blockName, openBlock } from "./block.ts";
import type { LineRow } from "./stored-line.ts";

/** A hit with the name of each of its notes, from the first of `before` to the last of `after`. */
export interface SpelledHit extends HitInContext {
  readonly spellings: readonly string[];
}

/** A hit as its stored line tells it: without names where the line was stored before it had them. */
export interface ToldHit extends HitInContext {
  readonly spellings: readonly string[] | null;
}

/** @param rows the line of the hit's take */
export function told(hit: HitInContext, rows: readonly LineRow[]): ToldHit {
  const from = rows.findIndex((row) => row.id === hit.ids[0]);
  const spellings = rows.slice(from, from + hit.ids.length).flatMap(({ pitch, fifths }) => {
    return fifths === null ? [] : [pitchNameAt(pitch, fifths)];
  });
  return { ...hit, spellings: spellings.length === hit.ids.length ? spellings : null };
}

const ID = NOTES.columns.findIndex(({ name }) => name === "id");
const SPELLING = NOTES.columns.findIndex(({ name }) => name === "spelling");

/** Hits with their notes as the accounts of their takes spell them: from the tables where the lines have no names. */
export async function spellHits(database: Database, hits: readonly ToldHit[]): Promise<SpelledHit[]> {
  const takes = [...new Set(hits.flatMap((hit) => (hit.spellings === null ? [hit.take] : [])))];
  const names = takes.length === 0 ? new Map() : await namesOf(database, takes);
  return hits.map((hit) => ({
    ...hit,
    spellings: hit.spellings ?? hit.ids.map((id) => names.get(hit.take)?.get(id) ?? ""),
  }));
}

/** Spelling by take and note. */
async function namesOf(
  database: Database,
  takes: readonly string[],
): Promise<Map<string, ReadonlyMap<string, string>>> {
  const rows = await database.query<{ take: string; block: Uint8Array | null; account: Uint8Array | null }>(
    `select t.id as take, b.block,
       case when b.key is null then (select account from analyses where key = t.analysis) end as account
     from takes t left join blocks b on b.key = t.analysis and b.name = $2 where t.id = any($1::text[])`,
    [takes, blockName("notes")],
  );
  return new Map(rows.map(({ take, block, account }) => [take, namesIn(block, account)]));
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
