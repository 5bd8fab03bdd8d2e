/** Takes: a source, a chart, options, and the analysis that follows from them. */
import { randomUUID } from "node:crypto";
import type { AnalyseOptionsInput } from "../../src/account.ts";
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import { Problem } from "../../src/take/index.ts";
import { type Analyst, sha256 } from "../analysis/analyst.ts";
import type { AnalysisFacts } from "../analysis/task.ts";
import { ensureAnalysis } from "./analyses.ts";
import type { Database, Queryable } from "./database.ts";
import { playerNamed } from "./library.ts";
import { findSource, insertSource, type KeptSound, keepSound } from "./sources.ts";

export interface StoredTake {
  readonly id: string;
  readonly source: string;
  readonly fileName: string;
  readonly playerId: string | null;
  readonly player: string | null;
  readonly title: string;
  /** ISO date or null. */
  readonly date: string | null;
  /** Chart text as given; null when the take brought its own. */
  readonly chartText: string | null;
  readonly options: AnalyseOptionsInput;
  readonly tags: readonly string[];
  readonly demo: boolean;
  readonly corpusId: string | null;
  readonly facts: AnalysisFacts;
  /** Whether the recording that its notes were heard in was kept. */
  readonly sound: boolean;
  readonly createdAt: string;
}

/** A known player, a name (made when new, once the analysis has succeeded), or nobody. */
export type PlayerOfTake = { readonly id: string } | { readonly name: string } | null;

export interface NewTake {
  /** Chosen by the caller only for the demo corpus, whose links should not change. */
  readonly id?: string;
  readonly bytes: Uint8Array;
  readonly fileName: string;
  readonly player: PlayerOfTake;
  readonly title: string;
  readonly date: string | null;
  readonly chartText: string | null;
  readonly options: AnalyseOptionsInput;
  readonly tags: readonly string[];
  readonly demo: boolean;
  /** The recording that the notes were heard in, where it is to be kept. */
  readonly sound?: KeptSound | null;
  /** Id of the token that keeps it; null, or left out, for the owner at the machine itself. */
  readonly madeBy?: string | null;
  /** The key that it was sent under, if any. */
  readonly sent?: SentUnder | null;
}

/** What tells a request that is sent again from another one. */
export interface SentUnder {
  readonly key: string;
  /** Hash of all that was sent. */
  readonly hash: string;
}

/** What a `StoredTake` is read by, from `TAKES`. */
export const TAKE_COLUMNS = `
  t.id, t.source, t.file_name as "fileName", t.player_id as "playerId", p.name as player, t.title,
  to_char(t.played_on, 'YYYY-MM-DD') as date, t.chart_text as "chartText", t.options, t.tags, t.demo, t.corpus_id as "corpusId", a.facts,
  exists (select 1 from sounds s where s.take_id = t.id) as sound,
  to_char(t.created_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "createdAt"`;

export const TAKES = `from takes t join analyses a on a.key = t.analysis
  left join players p on p.id = t.player_id and p.deleted_at is null`;

export async function findTake(database: Queryable, id: string): Promise<StoredTake | null> {
  const rows = await database.query<StoredTake>(
    `select ${TAKE_COLUMNS} ${TAKES} where t.id = $1 and t.deleted_at is null`,
    [id],
  );
  return rows[0] ?? null;
}

/** The compressed account of a take, or null when there is no such take. */
export async function findAccount(database: Queryable, takeId: string): Promise<Uint8Array | null> {
  const rows = await database.query<{ account: Uint8Array }>(
    `select a.account from takes t join analyses a on a.key = t.analysis where t.id = $1 and t.deleted_at is null`,
    [takeId],
  );
  return rows[0]?.account ?? null;
}

/**
 * The take that was sent under this key and was not deleted since; null when there is none.
 *
 * @throws Problem `key-used` when something else was sent under it
 */
export async function takeSentUnder(database: Queryable, sent: SentUnder): Promise<string | null> {
  const rows = await database.query<{ id: string; hash: string }>(
    "select id, sent_hash as hash from takes where sent_key = $1 and deleted_at is null",
    [sent.key],
  );
  if (rows[0] === undefined) return null;
  if (rows[0].hash === sent.hash) return rows[0].id;
  throw new Problem(
    "key-used",
    "A take that differs from this one was sent under the same Idempotency-Key, and is kept",
    "Idempotency-Key",
    "Look for it among the takes and change it there, or send this one under a new key.",
  );
}

/**
 * Analyses first and stores after, so that a bad file changes nothing. A take that is there already under the key that
 * this one was sent under is given instead. Throws the analysis's `Problem`.
 */
export async function createTake(database: Database, analyst: Analyst, take: NewTake): Promise<string> {
  const source = sha256(take.bytes);
  const options = { ...take.options, name: take.fileName };
  const analysis = await ensureAnalysis(
    database,
    analyst,
    source,
    take.chartText,
    options,
    async () => take.bytes,
  );
  const id = take.id ?? randomUUID();
  return database.transaction(async (inside) => {
    const known = take.sent ? await claimKey(inside, take.sent) : null;
    if (known !== null) return known;
    await insertSource(inside, source, take.bytes);
    // After the source, as workers do it: whoever waits for a name holds what nobody with that name waits for.
    const playerId = await playerIdOf(inside, take.player);
    await insertTake(inside, { ...take, id, source, playerId, options, corpusId: null, analysis });
    if (take.sound) await keepSound(inside, id, take.sound);
    return id;
  });
}

/** Waits for whoever stores under the same key; the take that is there then, or null with the key free. */
async function claimKey(inside: Queryable, sent: SentUnder): Promise<string | null> {
  await inside.query("select pg_advisory_xact_lock(hashtextextended($1, 0))", [sent.key]);
  const known = await takeSentUnder(inside, sent);
  // Whoever sends again what was deleted means it to be there.
  if (known === null) await inside.query("update takes set sent_key = null where sent_key = $1", [sent.key]);
  return known;
}

/** A take as it is written, with everything that it refers to in the store already. */
export interface TakeToInsert extends Omit<NewTake, "id" | "bytes" | "player" | "sound"> {
  readonly id: string;
  readonly source: string;
  readonly playerId: string | null;
  readonly corpusId: string | null;
  /** Key of its analysis. */
  readonly analysis: string;
}

export async function insertTake(inside: Queryable, take: TakeToInsert): Promise<void> {
  await inside.query(
    `insert into takes (id, source, file_name, player_id, title, played_on, chart_text, options, tags, demo, corpus_id,
       analysis, sent_key, sent_hash, made_by)
     values ($1, $2, $3, $4, $5, $6::date, $7, $8::jsonb, $9::text[], $10, $11, $12, $13, $14, $15)`,
    [
      ...[take.id, take.source, take.fileName, take.playerId, take.title, take.date, take.chartText],
      ...[JSON.stringify(take.options), [...take.tags], take.demo, take.corpusId, take.analysis],
      ...[take.sent?.key ?? null, take.sent?.hash ?? null, take.madeBy ?? null],
    ],
  );
}

/** Hides a take; `restoreTake` brings it back until `purgeDeleted` has been. False when there is no such take. */
export async function deleteTake(database: Queryable, id: string): Promise<boolean> {
  const rows = await database.query(
    "update takes set deleted_at = now() where id = $1 and deleted_at is null returning id",
    [id],
  );
  return rows.length > 0;
}

export async function restoreTake(database: Queryable, id: string): Promise<boolean> {
  const rows = await database.query(
    "update takes set deleted_at = null where id = $1 and deleted_at is not null returning id",
    [id],
  );
  return rows.length > 0;
}

/** Takes that are analysed anew at the same time. */
const AT_ONCE = 2;

/** Makes again every analysis that an older version made; the old account stays readable until its successor stands. */
export async function refreshAnalyses(
  database: Database,
  analyst: Analyst,
  report: (id: string, error: unknown) => void,
): Promise<number> {
  const stale = await database.query<{ id: string; old: string }>(
    `select t.id, t.analysis as old from takes t join analyses a on a.key = t.analysis where a.version <> $1 and t.deleted_at is null`,
    [ANALYSIS_VERSION],
  );
  let made = 0;
  const renew = async ({ id, old }: (typeof stale)[number]) => {
    try {
      const take = await findTake(database, id);
      if (take === null) return;
      const analysis = await analysisOf(database, analyst, take, take.chartText, take.options);
      // Who changed the take meanwhile has had it analysed by this version.
      const renewed = await database.query(
        "update takes set analysis = $2 where id = $1 and analysis = $3 returning id",
        [id, analysis, old],
      );
      made += renewed.length;
    } catch (error) {
      report(id, error);
    }
  };
  // Few at a time: whoever works with the service now comes first.
  const waiting = stale.values();
  await Promise.all(
    Array.from({ length: AT_ONCE }, async () => {
      for (const one of waiting) await renew(one);
    }),
  );
  return made;
}

/** The key of a take's analysis by this chart and these options, made when it is not there yet. */
export function analysisOf(
  database: Database,
  analyst: Analyst,
  take: StoredTake,
  chartText: string | null,
  options: AnalyseOptionsInput,
): Promise<string> {
  return ensureAnalysis(database, analyst, take.source, chartText, options, async () => {
    const bytes = await findSource(database, take.id);
    if (bytes === null) throw new Error(`take ${take.id} has lost its source`);
    return bytes;
  });
}

async function playerIdOf(inside: Queryable, player: PlayerOfTake): Promise<string | null> {
  if (player === null) return null;
  return "id" in player ? player.id : playerNamed(inside, player.name);
}
