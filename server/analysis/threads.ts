/** Threads. They are started without the flags of the process, which reads TypeScript. */
import { availableParallelism } from "node:os";
import { Piscina } from "piscina";
import { Problem } from "../../src/take/index.ts";

/** Room for values that live shortly; V8 would take several times as much, and keep it. */
const YOUNG_MB = 24;

export interface ThreadOptions {
  readonly least: number;
  readonly most: number;
  readonly idleMs: number;
  /** Most memory for values of a thread, in MB; 1024 by default. Bytes are not counted. */
  readonly heapMb?: number;
}

export function openThreads({ least, most, idleMs, heapMb = 1024 }: ThreadOptions): Piscina {
  return outlive(
    new Piscina({
      execArgv: [],
      minThreads: least,
      maxThreads: most,
      idleTimeout: idleMs,
      resourceLimits: { maxOldGenerationSizeMb: heapMb, maxYoungGenerationSizeMb: YOUNG_MB },
    }),
  );
}

/**
 * The pool replaces a thread that ends by a fault and tells whoever waits for its task. When nobody waits any more,
 * as after a time limit, it emits the fault as an event, and an event "error" without a listener ends the process.
 */
function outlive(pool: Piscina): Piscina {
  return pool.on("error", () => {});
}

/** Whether a task ended because its thread had no memory left; the thread has been replaced. */
export function outOfMemory(error: unknown): boolean {
  return (error as { code?: unknown } | null)?.code === "ERR_WORKER_OUT_OF_MEMORY";
}

/** A thread for a file of plain JavaScript; it is started when it is needed and ends after a minute at rest. */
export function openPlainThread(file: URL): Piscina {
  return outlive(
    new Piscina({
      filename: file.href,
      execArgv: [],
      minThreads: 0,
      maxThreads: 1,
      idleTimeout: 60_000,
    }),
  );
}

/** How many threads analyse: as many as the machine has processors, unless told otherwise. */
export function threadsOf(text: string | undefined): number {
  if (text === undefined || text === "") return Math.max(1, availableParallelism());
  const threads = Number(text);
  if (Number.isInteger(threads) && threads >= 1 && threads <= 256) return threads;
  throw new Problem("bad-setting", `THREADS is "${text}"`, "THREADS", "Give a whole number from 1 to 256.");
}
