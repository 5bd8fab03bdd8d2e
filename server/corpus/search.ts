/** Searches corpora in a thread of their own, loading a corpus anew when its takes have changed. */

import type { HitInContext, MotifPattern } from "../../src/motif/index.ts";
import { openThreads } from "../analysis/threads.ts";
import { problemFrom } from "../problem-facts.ts";
import type { Database } from "../store/database.ts";
import { type Filter, MEANT, meantValues } from "./filter.ts";
import type { SearchMessage, SearchReply, StoredLine } from "./search-worker.ts";

export interface SearchQuestion {
  readonly corpus: string;
  readonly pattern: MotifPattern;
  readonly maxEdits: number;
  readonly limit: number;
  readonly filter: Filter;
}

export interface CorpusSearch {
  /** Hits, the closest first, and how many there are in all. Throws the search's `Problem`. */
  ask(question: SearchQuestion): Promise<{ readonly hits: readonly HitInContext[]; readonly found: number }>;
  close(): Promise<void>;
}

/** Lines read from the store at once. */
const PAGE = 500;

const SEARCH_WORKER = new URL("./search-worker.ts", import.meta.url).href;

export function createSearch(database: Database): CorpusSearch {
  // One thread, kept alive: what it has loaded stays in it.
  const thread = openThreads({
    least: 1,
    most: 1,
    idleMs: Number.POSITIVE_INFINITY,
    heapMb: 128,
  });
  const ask = (message: SearchMessage) =>
    thread.run(message, { filename: SEARCH_WORKER }) as Promise<SearchReply>;
  const loaded = new Map<string, string>();
  // One corpus at a time, in parts, so that no more of it than a part is held on this side.
  let loading: Promise<void> = Promise.resolve();
  const load = async (corpus: string) => {
    let first = true;
    for await (const lines of linesOf(database, corpus)) {
      await ask({ load: corpus, lines, first, last: lines.length < PAGE });
      first = false;
    }
  };
  return {
    ask: async ({ corpus, pattern, maxEdits, limit, filter }) => {
      const stamp = await stampOf(database, corpus);
      if (loaded.get(corpus) !== stamp) {
        loading = loading
          .catch(() => {})
          .then(async () => {
            if (loaded.get(corpus) === stamp) return;
            await load(corpus);
            loaded.set(corpus, stamp);
          });
        await loading;
      }
      const takes = await takesMeant(database, corpus, filter);
      const reply = await ask({ corpus, pattern, maxEdits, limit, takes });
      if (reply.ok) return reply;
      if (reply.problem.code === "not-loaded") loaded.delete(corpus);
      throw problemFrom(reply.problem);
    },
    close: () => thread.destroy(),
  };
}

/** Changes whenever a take of the corpus comes, goes or is analysed anew. */
async function stampOf(database: Database, corpus: string): Promise<string> {
  const rows = await database.query<{ stamp: string }>(
    `select count(*)::text || ':' || coalesce(sum(hashtext(t.id || t.analysis)::bigint), 0)::text as stamp
     from takes t where t.corpus_id = $1 and t.deleted_at is null`,
    [corpus],
  );
  return rows[0]!.stamp;
}

/** Parts of `PAGE` takes; the last one is smaller, and may be empty. */
async function* linesOf(database: Database, corpus: string): AsyncGenerator<StoredLine[]> {
  let after = "";
  for (;;) {
    const rows = await database.query<StoredLine>(
      `select t.id as take, l.line from takes t join lines l on l.key = t.analysis
       where t.corpus_id = $1 and t.deleted_at is null and t.id > $2 order by t.id limit ${PAGE}`,
      [corpus, after],
    );
    yield rows;
    if (rows.length < PAGE) return;
    after = rows.at(-1)!.take;
  }
}

async function takesMeant(database: Database, corpus: string, filter: Filter): Promise<string[] | null> {
  if (Object.values(filter).every((value) => value === undefined)) return null;
  const rows = await database.query<{ id: string }>(`select t.id ${MEANT}`, meantValues(corpus, filter));
  return rows.map((row) => row.id);
}
