/**
 * Works on the items of jobs: takes messages, analyses in threads, stores each result once. A worker may be killed at
 * any moment: an item's take, its account and its state are written in one transaction, under the item's own id, and
 * the message is ended only after that.
 */
import { Problem } from "../../src/take/index.ts";
import { analysisKey, sha256 } from "../analysis/analyst.ts";
import { serialiseProblem } from "../serialise-problem.ts";
import type { Services } from "../services.ts";
import { hasAnalysis, storeAnalysis } from "../store/analyses.ts";
import { countFault, failItem, finishItem, type Item, strandedItems, takeItems } from "../store/jobs.ts";
import { playerNamed } from "../store/library.ts";
import { LEAST_ROOM } from "../store/room.ts";
import { replaceSource, wholeSource } from "../store/sources.ts";
import { insertTake } from "../store/takes.ts";
import { QUEUE, type Queue, type QueuedItem } from "./queue.ts";

/** What working on items needs; less than what routes do. */
type Workshop = Pick<Services, "database" | "analyst" | "listener" | "log">;

/** An item over which the analysis or listening broke off this often, out of memory for one, is failed. */
const MOST_FAULTS = 5;
/**
 * So is one that was begun this often without any end, and seems to take its worker down. Far more, because workers
 * are also stopped from outside, and always in the middle of something.
 */
const MOST_ATTEMPTS = 50;
const IDLE_MS = 250;
/** How often items without a message are looked for. */
const SWEEP_MS = 60_000;

/** A worker with nothing in hand that has not looked for messages for so long hangs, in milliseconds. */
const HANGS_MS = 30_000;

export interface Worker {
  /** Whether it works on something, or looked for messages lately. */
  alive(): boolean;
  /** Finishes what is begun and stops. */
  stop(): Promise<void>;
}

/** What is seen of the loop from outside, and how it is woken from a pause. */
interface Pulse {
  wake: () => void;
  /** When it last looked for messages, in milliseconds of the clock. */
  looked: number;
  /** Number of items in hand. */
  inHand: number;
  ended: boolean;
}

export function startWorker(services: Workshop, queue: Queue, threads: number): Worker {
  const abort = new AbortController();
  const pulse: Pulse = { wake: () => {}, looked: Date.now(), inHand: 0, ended: false };
  abort.signal.addEventListener("abort", () => pulse.wake());
  const done = loop(services, queue, threads * 2, abort.signal, pulse).finally(() => {
    pulse.ended = true;
  });
  return {
    alive: () => !pulse.ended && (pulse.inHand > 0 || Date.now() - pulse.looked < HANGS_MS),
    stop: async () => {
      abort.abort();
      await done;
    },
  };
}

async function loop(
  services: Workshop,
  queue: Queue,
  most: number,
  signal: AbortSignal,
  pulse: Pulse,
): Promise<void> {
  const running = new Set<Promise<void>>();
  let swept = 0;
  let waiting = false;
  while (!signal.aborted) {
    pulse.looked = Date.now();
    pulse.inHand = running.size;
    try {
      if (Date.now() - swept > SWEEP_MS) {
        swept = Date.now();
        await sweep(services, queue);
      }
      if ((services.database.room() ?? LEAST_ROOM) < LEAST_ROOM) {
        if (!waiting)
          services.log.warn("no room on the disk of the store; what waits in jobs goes on waiting");
        waiting = true;
        await pause(IDLE_MS * 4, pulse);
        continue;
      }
      waiting = false;
      const messages = running.size < most ? await queue.take(most - running.size + most) : [];
      if (messages.length > 0) {
        for (const task of await begin(services, queue, messages)) {
          const ended: Promise<void> = task.finally(() => running.delete(ended));
          running.add(ended);
        }
        pulse.inHand = running.size;
      }
      if (running.size >= most) await Promise.race(running);
      else if (messages.length === 0) await pause(IDLE_MS, pulse);
    } catch (error) {
      services.log.warn({ err: error }, "the worker could not reach the queue; it tries again");
      await pause(IDLE_MS * 4, pulse);
    }
  }
  await Promise.all(running);
}

async function begin(
  services: Workshop,
  queue: Queue,
  messages: readonly QueuedItem[],
): Promise<Promise<void>[]> {
  const items = new Map(
    (
      await takeItems(
        services.database,
        messages.map((message) => message.item),
      )
    ).map((item) => [item.id, item]),
  );
  return messages.map(async ({ message, item: id }) => {
    const item = items.get(id);
    try {
      if (item?.open) await analyseItem(services, item);
      await queue.done([message]);
    } catch (error) {
      services.log.warn({ err: error, item: id }, "an item was not finished; it will be tried again");
      await queue.again([message]).catch(() => {});
    }
  });
}

async function analyseItem(services: Workshop, item: Item): Promise<void> {
  const { database, analyst, listener } = services;
  if (item.attempts > MOST_ATTEMPTS) {
    await failItem(
      database,
      item.id,
      serialiseProblem(gaveUp(`The analysis was begun ${MOST_ATTEMPTS} times and never ended`)),
    );
    return;
  }
  if (item.kept === null || item.source === null) throw new Error(`item ${item.id} has lost its source`);
  const options = { ...item.options, name: item.fileName };
  try {
    const kept = await wholeSource(database, item.kept);
    // Read anew at the next attempt, so that a recording need not be held here while it is heard.
    const bytes = await listener
      .sourceOf(kept, item.fileName, { given: true })
      .catch((error) => countedFault(database, item, error, "Listening"));
    const source = bytes === kept ? item.source : sha256(bytes);
    const key = analysisKey(source, item.chartText, options);
    const made = (await hasAnalysis(database, key))
      ? null
      : await analyst
          .analyse({ bytes, chart: item.chartText, options })
          .catch((error) => countedFault(database, item, error, "The analysis"));
    await database.transaction(async (inside) => {
      if (!(await finishItem(inside, item.id))) return;
      if (made !== null) await storeAnalysis(inside, key, made);
      if (source !== item.source) await replaceSource(inside, item.id, source, bytes);
      const playerId = item.player === null ? null : await playerNamed(inside, item.player);
      await insertTake(inside, { ...item, source, playerId, options, demo: false, analysis: key });
    });
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    await failItem(database, item.id, serialiseProblem(error));
  }
}

/** Throws what an item's work ended with, or that it is given up when that was no fault of the file once too often. */
async function countedFault(
  database: Workshop["database"],
  item: Item,
  error: unknown,
  what: string,
): Promise<never> {
  if (!(error instanceof Problem) && (await countFault(database, item.id)) >= MOST_FAULTS) {
    throw gaveUp(`${what} broke off ${MOST_FAULTS} times`);
  }
  throw error;
}

function gaveUp(message: string): Problem {
  return new Problem("gave-up", message, null, "Send a shorter excerpt, or report the file.");
}

async function sweep(services: Workshop, queue: Queue): Promise<void> {
  const stranded = await strandedItems(services.database, QUEUE);
  if (stranded.length > 0) await services.database.transaction((inside) => queue.add(inside, stranded));
}

function pause(ms: number, pulse: Pulse): Promise<void> {
  return new Promise((done) => {
    const timer = setTimeout(done, ms);
    pulse.wake = () => {
      clearTimeout(timer);
      done();
    };
  });
}
