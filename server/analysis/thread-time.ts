/**
 * Limits a task in a thread by the time that its thread has worked on it. Waiting for a thread does not count, nor
 * does a processor that others keep busy, so what ends by the limit does not depend on the load.
 */
import { readFileSync, readlinkSync } from "node:fs";
import { MessageChannel, type MessagePort } from "node:worker_threads";

/** What a thread says when it begins: the system's number for it, or null where the system does not tell. */
export type Begun = string | null;

/** Linux counts the time of threads in hundredths of a second (USER_HZ, see proc(5)). */
const TICK_MS = 10;
/** A thread that does not work at all is given up after this many times the limit. */
const MOST_WAIT = 10;
/** The shortest time until the clock is read again, in milliseconds. */
const LEAST_PAUSE_MS = 20;

export interface TimeLimit {
  /** Travels with the task; the thread hands it to `tellBegun`. */
  readonly port: MessagePort;
  /** Aborted when the limit is reached. */
  readonly signal: AbortSignal;
  /** To be called when the task has ended. */
  release(): void;
}

/** @param limit milliseconds of work, counted from the thread's word that it has begun */
export function limitWork(limit: number): TimeLimit {
  const { port1, port2 } = new MessageChannel();
  const abort = new AbortController();
  let timer: NodeJS.Timeout | undefined;
  port1.once("message", (thread: Begun) => {
    const begun = Date.now();
    const before = workedMs(thread);
    const look = () => {
      const passed = Date.now() - begun;
      const now = workedMs(thread);
      const worked = before === null || now === null ? passed : now - before;
      if (worked >= limit || passed >= limit * MOST_WAIT) abort.abort();
      else timer = setTimeout(look, Math.max(LEAST_PAUSE_MS, limit - worked));
    };
    timer = setTimeout(look, limit);
  });
  port1.unref();
  return {
    port: port2,
    signal: abort.signal,
    release: () => {
      clearTimeout(timer);
      port1.close();
    },
  };
}

/** Called in the thread, when it begins with the task. */
export function tellBegun(port: MessagePort): void {
  let thread: Begun = null;
  try {
    thread = readlinkSync("/proc/thread-self").split("/").at(-1) ?? null;
  } catch {
    // Not Linux: the time that passes is counted.
  }
  port.postMessage(thread);
  port.close();
}

/** Milliseconds that a thread of this process has had a processor; null where the system does not tell. */
function workedMs(thread: Begun): number | null {
  if (thread === null) return null;
  try {
    const stat = readFileSync(`/proc/self/task/${thread}/stat`, "utf8");
    // The name in brackets may hold spaces; the fields after it are counted from 3 on, 14 and 15 are the times.
    const fields = stat.slice(stat.lastIndexOf(")") + 2).split(" ");
    return (Number(fields[11]) + Number(fields[12])) * TICK_MS;
  } catch {
    return null;
  }
}
