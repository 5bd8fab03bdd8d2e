/** Searches corpora in threads of their own, loading a corpus anew when its takes have changed. */
import type { MotifPattern } from "../../src/motif/index.ts";
import { threadFile } from "../analysis/thread-file.ts";
import { openThreads } from "../analysis/threads.ts";
import type { Filter } from "../contract/filter.ts";
import { problemFrom } from "../serialise-problem.ts";
import type { Database } from "../store/database.ts";
import { MEANT, meantValues } from "./filter.ts";
import type {
  FindMessage,
  SearchMessage,
  SearchReplies,
  SearchReply,
  StoredLine,
  TakeMatch,
} from "./search-worker.ts";
import type { ToldHit } from "./spell-hits.ts";

export interface SearchQuestion {
  readonly corpus: string;
  readonly pattern: MotifPattern;
  readonly maxEdits: number;
  readonly limit: number;
  readonly filter: Filter;
}

export interface CorpusSearch {
  /** Hits, the closest first, and how many there are in all. Throws the search's `Problem`. */
  ask(question: SearchQuestion): Promise<{ readonly hits: readonly ToldHit[]; readonly found: number }>;
  close(): Promise<void>;
}

/** Packed lines read from the store at once. */
const PAGE = 500;
/** Matches whose whole lines are read from the store at once, for each thread. */
const TOLD = 50;
/**
 * Most threads. Each costs some 15 MB of its own, and four search 10^7 notes with two edits in about a tenth of a
 * second.
 */
const MOST_THREADS = 4;

/**
 * A corpus is laid in stripes, one a thread: takes stand in the order of their places, which begin with a hash, so that
 * stripes by its first digits are even and follow one another.
 *
 * @param threads how many the server may start
 */
export function createSearch(database: Database, threads: number): CorpusSearch {
  const stripes = Array.from({ length: Math.min(threads, MOST_THREADS) }, openStripe);
  const loaded = new Map<string, string>();
  // One corpus at a time, in parts, so that no more of it than a part is held on this side.
  let loading: Promise<void> = Promise.resolve();
  const load = async (corpus: string) => {
    let first = true;
    for await (const lines of linesOf(database, corpus)) {
      const last = lines.length < PAGE;
      const of = (i: number) => lines.filter(({ place }) => stripeOf(place, stripes.length) === i);
      await Promise.all(
        stripes.map(({ ask }, i) => ask({ task: "load", corpus, lines: of(i), first, last })),
      );
      first = false;
    }
  };
  const find = async (message: FindMessage) => {
    const found = await Promise.all(stripes.map(({ ask }) => ask(message)));
    const matches = found.flatMap((part) => part.matches);
    // Stripes follow one another in the order of takes, and the sort is stable.
    matches.sort((a, b) => a.edits - b.edits);
    return {
      found: found.reduce((sum, part) => sum + part.found, 0),
      matches: matches.slice(0, message.limit),
    };
  };
  const tell = async (matches: readonly TakeMatch[]) => {
    const hits: ToldHit[] = [];
    const tellPart = async ({ ask }: Stripe, part: readonly TakeMatch[]) => {
      if (part.length === 0) return [];
      const lines = await wholeLines(database, [...new Set(part.map(({ take }) => take))]);
      return ask({ task: "tell", matches: part, lines });
    };
    for (let from = 0; from < matches.length; from += TOLD * stripes.length) {
      const parts = stripes.map((stripe, i) =>
        tellPart(stripe, matches.slice(from + TOLD * i, from + TOLD * (i + 1))),
      );
      hits.push(...(await Promise.all(parts)).flat());
    }
    return hits;
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
      try {
        const { found, matches } = await find({ task: "find", corpus, pattern, maxEdits, limit, takes });
        return { found, hits: await tell(matches) };
      } catch (error) {
        if ((error as { code?: string }).code === "not-loaded") loaded.delete(corpus);
        throw error;
      }
    },
    close: async () => {
      await Promise.all(stripes.map(({ close }) => close()));
    },
  };
}

interface Stripe {
  ask<Message extends SearchMessage>(message: Message): Promise<SearchReplies[Message["task"]]>;
  close(): Promise<void>;
}

function openStripe(): Stripe {
  // One thread, started by the first search and kept alive: what it has loaded stays in it.
  const thread = openThreads({ least: 0, most: 1, idleMs: Number.POSITIVE_INFINITY, heapMb: 128 });
  return {
    ask: async <Message extends SearchMessage>(message: Message) => {
      const reply: SearchReply<Message["task"]> = await thread.run(message, {
        filename: threadFile("search"),
      });
      if (reply.ok) return reply.value;
      throw problemFrom(reply.problem);
    },
    close: () => thread.destroy(),
  };
}

/** Digits of a place that tell its stripe. */
const DIGITS = 4;

/** @param place beginning with a hash in hexadecimal */
function stripeOf(place: string, stripes: number): number {
  return Math.floor((Number.parseInt(place.slice(0, DIGITS), 16) * stripes) / 16 ** DIGITS);
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
      `select t.id as take, t.source || t.analysis as place, l.packed, case when l.packed is null then l.line end as line
       from takes t join lines l on l.key = t.analysis
       where t.corpus_id = $1 and t.deleted_at is null and t.id > $2 order by t.id limit ${PAGE}`,
      [corpus, after],
    );
    yield rows;
    if (rows.length < PAGE) return;
    after = rows.at(-1)!.take;
  }
}

async function wholeLines(
  database: Database,
  takes: readonly string[],
): Promise<{ take: string; line: Uint8Array }[]> {
  return database.query(
    `select t.id as take, l.line from takes t join lines l on l.key = t.analysis
     where t.id = any($1::text[]) and t.deleted_at is null`,
    [takes],
  );
}

async function takesMeant(database: Database, corpus: string, filter: Filter): Promise<string[] | null> {
  if (Object.values(filter).every((value) => value === undefined)) return null;
  const rows = await database.query<{ id: string }>(`select t.id ${MEANT}`, meantValues(corpus, filter));
  return rows.map((row) => row.id);
}
