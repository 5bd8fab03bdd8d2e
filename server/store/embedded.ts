/** The embedded database (PGlite, a folder), for one process at a time. */
import { execFile } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { PGlite, types } from "@electric-sql/pglite";
import { Problem } from "../../src/take/index.ts";
import { lockFolder } from "./folder-lock.ts";
import type { Database, Queryable } from "./queryable.ts";
import { DiskFull, LEAST_ROOM, NEW_STORE_ROOM, roomOn, STOP_ROOM } from "./room.ts";

const run = promisify(execFile);
const CREATE = fileURLToPath(new URL("./create-embedded.js", import.meta.url));

/**
 * Pages that the embedded store keeps of its own. By default it would take 128 MB at the first touch; the system keeps
 * the files in its cache anyhow. Pieces of the log are not used again, since they hold what was deleted until they are
 * written over.
 */
const START = [
  ...PGlite.defaultStartParams,
  "-c",
  "shared_buffers=16MB",
  "-c",
  "wal_buffers=1MB",
  "-c",
  "wal_recycle=off",
];

/** Bytes go to and fro as text. Node's own conversion is many times as fast as the store's, which goes digit by digit. */
const BYTES = {
  parsers: { [types.BYTEA]: (text: string) => Buffer.from(text.slice(2), "hex") },
  serializers: {
    [types.BYTEA]: (bytes: Uint8Array) =>
      `\\x${Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("hex")}`,
  },
};

/**
 * Opens the store in a folder, made when it is missing; null: in memory.
 *
 * @param given free bytes on its disk, for tests
 * @throws Problem `folder-in-use`, `folder-unusable`, `folder-of-other-version`; DiskFull
 */
export async function openEmbedded(folder: string | null, given?: () => number): Promise<Database> {
  const release = folder === null ? () => {} : await takeFolder(folder);
  const room = folder === null ? () => null : (given ?? (() => roomOn(folder)));
  try {
    if (folder !== null) checkVersion(folder);
    if (folder !== null && !existsSync(join(folder, "PG_VERSION"))) {
      if (room()! < NEW_STORE_ROOM) throw new DiskFull();
      await run(process.execPath, [CREATE, folder], { env: { ...process.env, NODE_OPTIONS: "" } });
    }
    const pglite = new PGlite({
      ...(folder === null ? {} : { dataDir: folder }),
      startParams: START,
      ...BYTES,
    });
    await pglite.waitReady;
    return overEmbedded(pglite, room, release);
  } catch (error) {
    release();
    throw error;
  }
}

/** The version of PostgreSQL that the embedded store is; files of another one cannot be read. */
const EMBEDDED_VERSION = "18";

function checkVersion(folder: string): void {
  const file = join(folder, "PG_VERSION");
  const version = existsSync(file) ? readFileSync(file, "utf8").trim() : EMBEDDED_VERSION;
  if (version === EMBEDDED_VERSION) return;
  throw new Problem(
    "folder-of-other-version",
    `The data folder ${folder} is of version ${version} of the database; this program reads version ${EMBEDDED_VERSION}`,
    "DATA_DIR",
    "Make a backup with the program that wrote it (ledgerline backup FILE) and restore it with this one.",
  );
}

/** Makes the folder when it is missing, and takes it for this process. */
async function takeFolder(folder: string): Promise<() => void> {
  try {
    await mkdir(folder, { recursive: true });
    return await lockFolder(folder);
  } catch (error) {
    if (error instanceof Problem) throw error;
    throw new Problem(
      "folder-unusable",
      `The data folder ${folder} cannot be made or written (${(error as { code?: string }).code ?? error})`,
      "DATA_DIR",
      "Give a folder that this user may write.",
    );
  }
}

/** SQLSTATE read_only_sql_transaction. */
const READ_ONLY = "25006";

function overEmbedded(pglite: PGlite, room: () => number | null, release: () => void): Database {
  let readOnly = false;
  /** Lets the store be read alone while little room is left, and written again when there is. */
  const mind = async () => {
    const little = (room() ?? LEAST_ROOM) < LEAST_ROOM;
    if (little === readOnly) return;
    await pglite.exec(`set default_transaction_read_only = ${little ? "on" : "off"}`);
    readOnly = little;
  };
  const guarded = async <T>(work: () => Promise<T>): Promise<T> => {
    await mind();
    try {
      return await work();
    } catch (error) {
      if ((error as { code?: unknown } | null)?.code === READ_ONLY) throw new DiskFull();
      throw error;
    }
  };
  const over = (client: Client): Queryable => ({
    query: async <Row>(text: string, values: readonly unknown[] = []) =>
      (await client.query(text, [...values])).rows as Row[],
  });
  const plain = over(pglite);
  const inTransaction = (client: Client): Queryable => ({
    query: (text, values) => {
      if (!readOnly && (room() ?? STOP_ROOM) < STOP_ROOM) throw new DiskFull();
      return over(client).query(text, values);
    },
  });
  return {
    kind: "embedded",
    query: (text, values) => guarded(() => plain.query(text, values)),
    script: (text) =>
      guarded(async () => ((await pglite.exec(text)).at(-1)?.rows ?? []) as Record<string, unknown>[]),
    transaction: <T>(work: (inside: Queryable) => Promise<T>) =>
      guarded(() => pglite.transaction((inside) => work(inTransaction(inside))) as Promise<T>),
    room,
    close: async () => {
      await pglite.close();
      release();
    },
  };
}

interface Client {
  query(text: string, values?: unknown[]): Promise<{ rows: unknown[] }>;
}
