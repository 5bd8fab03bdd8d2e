/**
 * Figures of the running service, in the text format that Prometheus reads. They count requests by route and status;
 * no label holds a name, an id or an address.
 */
import { Counter, collectDefaultMetrics, Gauge, Histogram, Registry } from "prom-client";
import type { Database } from "./store/database.ts";

/** Bounds of the times of answers, in seconds: from a row of a list to a whole table. */
const SECONDS = [0.005, 0.02, 0.1, 0.3, 1, 3, 10, 30, 120];

export interface Metrics {
  /** All figures as they are now; what is counted in the store is left out while the store does not answer. */
  text(): Promise<string>;
  /** Counts an answer. @param seconds from the first byte of the request to the end of the answer */
  answered(method: string, route: string, status: number, seconds: number): void;
}

/** What the store counts when it is asked. */
const COUNTED = `select
    (select count(*)::int from takes where deleted_at is null) as takes,
    (select count(*)::int from items where state = 'waiting') as waiting,
    (select count(*)::int from items where state = 'failed') as failed,
    pg_database_size(current_database())::float8 as bytes`;

/** @param ready whether the service can work, as `GET /ready` has it */
export function createMetrics(database: Database, ready: () => Promise<boolean>): Metrics {
  const registry = new Registry();
  const registers = [registry];
  collectDefaultMetrics({ register: registry });
  const requests = new Counter({
    name: "ledgerline_http_requests_total",
    help: "Requests that were answered, by method, route and status.",
    labelNames: ["method", "route", "status"],
    registers,
  });
  const times = new Histogram({
    name: "ledgerline_http_request_duration_seconds",
    help: "Seconds from a request to the end of its answer, by method and route.",
    labelNames: ["method", "route"],
    buckets: SECONDS,
    registers,
  });
  const gauge = (name: string, help: string) => new Gauge({ name: `ledgerline_${name}`, help, registers });
  const counted = {
    takes: gauge("takes", "Takes that are kept, deleted ones left out."),
    waiting: gauge("items_waiting", "Files of jobs that wait to be analysed."),
    failed: gauge("items_failed", "Files of jobs that could not be analysed."),
    bytes: gauge("store_bytes", "Bytes that the store takes."),
  };
  const room = gauge("store_room_bytes", "Bytes that are free on the disk of the embedded store.");
  const isReady = gauge("ready", "1 while the store answers and a worker is alive, else 0.");
  return {
    text: async () => {
      const free = database.room();
      if (free !== null) room.set(free);
      isReady.set((await ready()) ? 1 : 0);
      try {
        const [row] = await database.query<Record<keyof typeof counted, number>>(COUNTED);
        for (const [name, one] of Object.entries(counted)) one.set(row![name as keyof typeof counted]);
      } catch {
        for (const one of Object.values(counted)) one.remove();
      }
      return registry.metrics();
    },
    answered: (method, route, status, seconds) => {
      requests.inc({ method, route, status });
      times.observe({ method, route }, seconds);
    },
  };
}
