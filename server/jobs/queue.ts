/** The queue: pg-boss on whichever database is open. One message for each item of a job. */
import PgBoss from "pg-boss";
import { expireSecondsOf } from "../settings.ts";
import type { Database, Queryable } from "../store/database.ts";
import { oneAtATime } from "../store/one-at-a-time.ts";

export const QUEUE = "analyse-item";
const RETRIES = 5;
/** Messages written by one statement. */
const CHUNK = 500;

export interface QueuedItem {
  readonly message: string;
  readonly item: string;
}

export interface Queue {
  /** Writes messages inside the caller's transaction. */
  add(inside: Queryable, items: readonly string[]): Promise<void>;
  take(most: number): Promise<QueuedItem[]>;
  done(messages: readonly string[]): Promise<void>;
  /** Hands messages out again later, with growing pauses, until their retries are used up. */
  again(messages: readonly string[]): Promise<void>;
  close(): Promise<void>;
}

/** @throws Problem `bad-setting` where QUEUE_EXPIRE_SECONDS is no number of seconds */
export async function openQueue(database: Database, warn: (error: unknown) => void): Promise<Queue> {
  // Messages of a worker that died are handed out again after this time.
  const expireInSeconds = expireSecondsOf(process.env.QUEUE_EXPIRE_SECONDS);
  const boss = new PgBoss({
    db: { executeSql: (text: string, values?: unknown[]) => execute(database, text, values) },
    schedule: false,
    maintenanceIntervalSeconds: Math.max(1, Math.min(30, expireInSeconds / 3)),
    deleteAfterHours: 1,
    archiveCompletedAfterSeconds: 60,
  });
  boss.on("error", warn);
  await oneAtATime(database, async () => {
    await boss.start();
    await boss.createQueue(QUEUE, {
      name: QUEUE,
      policy: "standard",
      retryLimit: RETRIES,
      retryDelay: 1,
      retryBackoff: true,
      expireInSeconds,
    });
  });
  if (database.kind === "embedded") await releaseOrphans(database);
  return {
    add: async (inside, items) => {
      const db = { executeSql: (text: string, values?: unknown[]) => execute(inside, text, values) };
      for (let i = 0; i < items.length; i += CHUNK) {
        const messages = items.slice(i, i + CHUNK).map((item) => ({ name: QUEUE, data: { item } }));
        await boss.insert(messages, { db });
      }
    },
    take: async (most) =>
      (await boss.fetch<{ item: string }>(QUEUE, { batchSize: most })).map(({ id, data }) => ({
        message: id,
        item: data.item,
      })),
    done: async (messages) => {
      if (messages.length > 0) await boss.complete(QUEUE, [...messages]);
    },
    again: async (messages) => {
      if (messages.length > 0) await boss.fail(QUEUE, [...messages]);
    },
    close: () => boss.stop({ graceful: false, close: false }),
  };
}

/** One process at a time opens the embedded store: whatever was being worked on when it opens has no worker left. */
async function releaseOrphans(database: Database): Promise<void> {
  await database.query(
    `update pgboss.job set state = 'retry', start_after = now() where name = $1 and state = 'active'`,
    [QUEUE],
  );
}

async function execute(
  database: Queryable & { script?: Database["script"] },
  text: string,
  values?: unknown[],
): Promise<{ rows: Record<string, unknown>[] }> {
  const plain = values === undefined || values.length === 0;
  const rows =
    plain && database.script ? await database.script(text) : await database.query(text, values ?? []);
  return { rows };
}
