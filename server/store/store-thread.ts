/** The embedded store as its thread answers: what is asked here is worked on there. */
import { Worker } from "node:worker_threads";
import { PGlite } from "@electric-sql/pglite";
import { threadFile } from "../analysis/thread-file.ts";
import { freshStore } from "./fresh-store.ts";
import type { StoreFault, StoreQuestion, StoreReply, StoreSetting } from "./store-worker.ts";

/**
 * Pages that the embedded store keeps of its own. By default it would take 128 MB at the first touch; the system keeps
 * the files in its cache anyhow. Pieces of the log are not used again, since they hold what was deleted until they are
 * written over.
 */
const START = [
  ...PGlite.defaultStartParams,
  ...["-c", "shared_buffers=16MB", "-c", "wal_buffers=1MB", "-c", "wal_recycle=off"],
];

/** Room for values that live shortly, in MB. */
const YOUNG_MB = 24;

export interface StoreThread {
  query(text: string, values?: readonly unknown[]): Promise<unknown[]>;
  script(text: string): Promise<unknown[]>;
  /** All or nothing; what `work` throws is thrown on after the roll-back. */
  transaction<T>(
    work: (query: (text: string, values?: readonly unknown[]) => Promise<unknown[]>) => Promise<T>,
  ): Promise<T>;
  close(): Promise<void>;
}

type Question = StoreQuestion extends infer One ? (One extends unknown ? Omit<One, "id"> : never) : never;

interface Waiting {
  readonly done: (rows: unknown[]) => void;
  readonly failed: (error: Error) => void;
}

/** @param folder of a store that has been created; null for one in memory */
export async function openStoreThread(folder: string | null): Promise<StoreThread> {
  const workerData: StoreSetting = {
    folder,
    startParams: START,
    begin: folder === null ? freshStore() : null,
  };
  const thread = new Worker(threadFile("store"), {
    workerData,
    execArgv: [],
    resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MB },
  });
  const waiting = new Map<number, Waiting>();
  let ended: Error | null = null;
  let last = 0;
  thread.on("message", (reply: StoreReply) => {
    const one = waiting.get(reply.id);
    waiting.delete(reply.id);
    if (waiting.size === 0) thread.unref();
    if ("fault" in reply) one?.failed(errorOf(reply.fault));
    else one?.done([...reply.rows]);
  });
  const end = (error: Error) => {
    ended ??= error;
    for (const { failed } of waiting.values()) failed(ended);
    waiting.clear();
  };
  thread.on("error", end);
  thread.on("exit", () => end(new Error("the embedded store has ended")));
  const ask = (question: Question) =>
    new Promise<unknown[]>((done, failed) => {
      if (ended !== null) {
        failed(ended);
        return;
      }
      const id = ++last;
      waiting.set(id, { done, failed });
      // A store that nobody waits for does not keep a process that could end.
      thread.ref();
      const given = question.ask === "query" ? question.values.flatMap(memoryOf) : [];
      thread.postMessage({ ...question, id }, given);
    });
  const query =
    (transaction: number | null) =>
    (text: string, values: readonly unknown[] = []) =>
      ask({ ask: "query", transaction, text, values: values.map(copied) });
  await ask({ ask: "open" });
  let transactions = 0;
  return {
    query: query(null),
    script: (text) => ask({ ask: "script", text }),
    transaction: async (work) => {
      const transaction = ++transactions;
      await ask({ ask: "begin", transaction });
      try {
        const result = await work(query(transaction));
        await ask({ ask: "commit", transaction });
        return result;
      } catch (error) {
        // One that could not be kept has been taken back already.
        await ask({ ask: "rollback", transaction }).catch(() => {});
        throw error;
      }
    },
    close: async () => {
      if (ended === null) await ask({ ask: "close" });
      await thread.terminate();
    },
  };
}

/** Copies of bytes, which are handed over: whoever asks keeps their own, and no second copy is made on the way. */
function copied(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(copied);
  return value instanceof Uint8Array ? new Uint8Array(value) : value;
}

function memoryOf(value: unknown): ArrayBuffer[] {
  if (Array.isArray(value)) return value.flatMap(memoryOf);
  return value instanceof Uint8Array ? [value.buffer as ArrayBuffer] : [];
}

function errorOf({ name, message, stack, code }: StoreFault): Error {
  return Object.assign(new Error(message), { name, ...(stack && { stack }), ...(code && { code }) });
}
