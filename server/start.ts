/** Opens the store, loads the demo corpus into a new one, and listens. */
import { randomBytes } from "node:crypto";
import { once } from "node:events";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import type { Express } from "express";
import type { Logger } from "pino";
import { Problem } from "../src/take/index.ts";
import { createAnalyst } from "./analysis/analyst.ts";
import { makeThreadFiles, type ThreadKind } from "./analysis/thread-file.ts";
import { threadsOf } from "./analysis/threads.ts";
import { createApp } from "./app.ts";
import { createAudit } from "./audit.ts";
import { createSearch } from "./corpus/search.ts";
import { createUnfolder } from "./corpus/unfolder.ts";
import { loadDemo } from "./demo.ts";
import { openQueue } from "./jobs/queue.ts";
import { startWorker, type Worker } from "./jobs/work.ts";
import { createListener } from "./listen/listener.ts";
import { createMetrics } from "./metrics.ts";
import { isLoopback } from "./origin.ts";
import { readinessOf } from "./readiness.ts";
import type { Services } from "./services.ts";
import { logOf, tellError } from "./settings.ts";
import { endStalled } from "./stalled.ts";
import { createAccounts } from "./store/accounts.ts";
import { forgetAudit } from "./store/audit.ts";
import { type Database, openDatabase } from "./store/database.ts";
import { eraseDeleted } from "./store/erase.ts";
import { tellWhereReached } from "./store/folder-lock.ts";
import { migrate } from "./store/migrations.ts";
import { deleteOld, purgeDeleted, UNDO_MINUTES } from "./store/purge.ts";
import type { Quota } from "./store/quota.ts";
import { refreshAnalyses } from "./store/takes.ts";
import { forgetEndedTokens, hasOwnerToken } from "./store/tokens.ts";
import { tellAlive } from "./store/workers.ts";
import { removeLeftUploads } from "./upload-folder.ts";

/** A heading is sent at once; the largest upload passes a slow line in five minutes; a reader may pause as long. */
const PATIENCE = { heading: 15_000, request: 300_000, taking: 300_000 };

/** Kinds of thread: those without which nothing begins, and those that wait for the first who needs them. */
const AT_THE_START: readonly ThreadKind[] = ["store", "analysis"];
const LATER: readonly ThreadKind[] = ["unfold", "table", "search", "proposal", "hear"];

export interface StartOptions {
  readonly host?: string;
  /** 0 takes any free port. */
  readonly port: number;
  /** Folder of the embedded database; null keeps everything in memory. */
  readonly dataDir: string | null;
  /** PostgreSQL server to use in place of the embedded database. */
  readonly databaseUrl?: string | undefined;
  /** Load the demo corpus into an empty store; true by default. */
  readonly demo?: boolean;
  /** Folder whose files may be analysed where they lie. */
  readonly corpusDir?: string | null;
  /** Work on jobs in this process too; true by default. */
  readonly worker?: boolean;
  /** Threads that analyse; as many as the machine has processors by default. */
  readonly threads?: number;
  /** Path of the network that hears; the one that comes along by default. */
  readonly network?: string | undefined;
  /** Proxies before the service, whose word on the caller's address and on TLS is taken; none by default. */
  readonly proxies?: number;
  /**
   * How long the heading of a request, and all of it, may take to come in, and how long nothing of an answer may be
   * taken; in milliseconds.
   */
  readonly patience?: { readonly heading: number; readonly request: number; readonly taking: number };
  /** Days after which what is held on players is deleted by itself; null, or left out, for never. */
  readonly keepDays?: number | null;
  /** How long a PostgreSQL server that does not answer is waited for, in seconds; not at all by default. */
  readonly databaseWait?: number;
  /** Days after which an entry of the audit goes; 365 by default. */
  readonly auditDays?: number;
  /** What a token may keep that has no bound of its own; no bound by default. */
  readonly quota?: Quota;
  /** Free bytes on the disk of the data folder, for tests; asked of the system by default. */
  readonly room?: () => number;
  readonly log?: Logger;
}

export interface RunningServer {
  readonly url: string;
  readonly services: Services;
  close(): Promise<void>;
}

/** Throws a `Problem` when the address may not be served or is taken. */
export async function startServer(options: StartOptions): Promise<RunningServer> {
  const host = options.host ?? "127.0.0.1";
  const log = (options.log ?? logOf("warn")).child({}, { serializers: { err: tellError } });
  await makeThreadFiles(AT_THE_START);
  const database = await openDatabase({
    url: options.databaseUrl,
    folder: options.dataDir,
    waitSeconds: options.databaseWait,
    room: options.room,
    tell: (reason) => log.warn({ reason }, "the PostgreSQL server does not answer; it is waited for"),
  });
  await migrate(database);
  const needsToken = await tokensNeeded(database, host);
  const threads = options.threads ?? threadsOf(undefined);
  // Before there are threads, which would keep a process that cannot start.
  const queue = await openQueue(database, (error) => log.warn({ err: error }, "queue")).catch(
    async (error: unknown) => {
      await database.close();
      throw error;
    },
  );
  const analyst = createAnalyst(threads);
  const listener = createListener(options.network);
  const closeGround = async () => {
    for (const part of [queue, listener, analyst, database]) await part.close();
  };
  const own: { worker: Worker | null } = { worker: null };
  const readiness = () => readinessOf(database, () => own.worker?.alive() ?? null);
  const services: Services = {
    database,
    folderKey: randomBytes(32).toString("base64url"),
    readiness,
    audit: createAudit(database, (error) => log.warn({ err: error }, "the audit is not written yet")),
    quota: options.quota ?? { takes: null, megabytes: null },
    metrics: createMetrics(database, async () => (await readiness()) === "ready"),
    analyst,
    accounts: createAccounts(database),
    listener,
    queue,
    search: createSearch(database, threads),
    unfolder: createUnfolder(),
    log,
    needsToken,
    proxies: options.proxies ?? 0,
    corpusDir: options.corpusDir ?? null,
  };
  if (options.demo ?? true) await loadDemo(services);
  let server: Server;
  try {
    server = await listen(createApp(services), host, options.port, options.patience ?? PATIENCE);
  } catch (error) {
    await closeGround();
    throw error;
  }
  const background = keepHouse(services, options);
  const worker = (options.worker ?? true) ? startWorker(services, queue, threads) : null;
  own.worker = worker;
  const stopTelling =
    worker !== null && database.kind === "server" ? await tellAlive(database, worker.alive) : null;
  const { port } = server.address() as AddressInfo;
  if (database.kind === "embedded" && options.dataDir !== null) {
    tellWhereReached(options.dataDir, { url: addressOf(nearest(host), port), key: services.folderKey });
  }
  return {
    url: addressOf(host, port),
    services,
    close: async () => {
      clearInterval(background);
      await closeServer(server);
      await stopTelling?.();
      await worker?.stop();
      await services.audit.close();
      await services.search.close();
      await services.unfolder.close();
      await closeGround();
    },
  };
}

function addressOf(host: string, port: number): string {
  return `http://${host.includes(":") ? `[${host}]` : host}:${port}`;
}

/** The address by which this machine reaches what listens at all of its addresses. */
function nearest(host: string): string {
  return { "0.0.0.0": "127.0.0.1", "::": "::1" }[host] ?? host;
}

/** @throws Problem `port-taken`, `address-unusable` */
async function listen(
  app: Express,
  host: string,
  port: number,
  { heading, request, taking }: NonNullable<StartOptions["patience"]>,
): Promise<Server> {
  const server = createServer(
    {
      headersTimeout: heading,
      requestTimeout: request,
      connectionsCheckingInterval: Math.min(5000, heading / 2),
      keepAliveTimeout: 10_000,
    },
    app,
  ).listen(port, host);
  endStalled(server, taking);
  try {
    await once(server, "listening");
    return server;
  } catch (error) {
    throw addressProblem(error, host, port);
  }
}

/** Whether every request must carry a token. @throws Problem `no-token` where nobody has one */
async function tokensNeeded(database: Database, host: string): Promise<boolean> {
  const needsToken = !isLoopback(host);
  if (needsToken && !(await hasOwnerToken(database))) {
    await database.close();
    throw new Problem(
      "no-token",
      `The service does not listen on ${host} without tokens: anyone who reaches it could read and delete everything`,
      "HOST",
      "Make an owner's token first: npm run -s token -- YOUR-NAME.",
    );
  }
  return needsToken;
}

function keepHouse(services: Services, { keepDays = null, auditDays = 365 }: StartOptions): NodeJS.Timeout {
  const { database, analyst, accounts, log } = services;
  void makeThreadFiles(LATER).catch((error) => log.warn({ err: error }, "threads not made beforehand"));
  void removeLeftUploads().catch((error) => log.warn({ err: error }, "uploads of before not removed"));
  void refreshAnalyses(database, analyst, (id, error) =>
    log.warn({ err: error, take: id }, "not analysed anew"),
  ).catch((error) => log.warn({ err: error }, "analyses not refreshed"));
  const purge = async () => {
    try {
      if (keepDays !== null) await deleteOld(database, keepDays);
      await forgetAudit(database, auditDays);
      await forgetEndedTokens(database, auditDays);
      await purgeDeleted(database, UNDO_MINUTES);
      accounts.forget();
      await eraseDeleted(database, (error) => log.warn({ err: error }, "not all that was deleted is erased"));
    } catch (error) {
      log.warn({ err: error }, "deleted rows not purged");
    }
  };
  void purge();
  return setInterval(purge, 10 * 60_000).unref();
}

async function closeServer(server: Server): Promise<void> {
  server.closeAllConnections();
  await new Promise<void>((done) => server.close(() => done()));
}

/** Why it cannot be listened at an address, as the system tells it. */
function addressProblem(error: unknown, host: string, port: number): unknown {
  const { code = "", syscall } = error as { code?: string; syscall?: string };
  if (code === "EADDRINUSE") {
    return new Problem(
      "port-taken",
      `Port ${port} is in use by another program`,
      "PORT",
      "Stop that program, or start with another port: PORT=4001 npm start.",
    );
  }
  if (syscall !== "listen" && syscall !== "getaddrinfo") return error;
  return new Problem(
    "address-unusable",
    `The service cannot listen on port ${port} of "${host}" (${code})`,
    code === "EACCES" ? "PORT" : "HOST",
    "Give an address of this machine, and a port above 1023 unless you are its administrator.",
  );
}
