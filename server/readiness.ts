/** Whether the service can work: its store answers, and a worker is alive that would take jobs. */
import type { Database } from "./store/database.ts";
import { workersSeen } from "./store/workers.ts";

/** The store is given up for the moment when it has not answered for so long, in milliseconds. */
const PATIENCE_MS = 3000;

export type Readiness = "ready" | "no-store" | "no-worker";

/** @param own whether the worker of this process is alive; null when it has none */
export async function readinessOf(database: Database, own: () => boolean | null): Promise<Readiness> {
  try {
    await within(PATIENCE_MS, database.query("select 1"));
    const alive = own() ?? (await within(PATIENCE_MS, workersSeen(database))) > 0;
    return alive ? "ready" : "no-worker";
  } catch {
    return "no-store";
  }
}

function within<T>(ms: number, work: Promise<T>): Promise<T> {
  return new Promise((done, failed) => {
    const timer = setTimeout(() => failed(new Error("no answer in time")), ms);
    work.then(done, failed).finally(() => clearTimeout(timer));
  });
}
