/** The embedded database (PGlite, a folder), for one process at a time; it works in a thread of its own. */
import { execFile } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { Problem } from "../../src/take/index.ts";
import { lockFolder } from "./folder-lock.ts";
import { freshStore } from "./fresh-store.ts";
import type { Database, Queryable } from "./queryable.ts";
import { DiskFull, LEAST_ROOM, NEW_STORE_ROOM, roomOn, STOP_ROOM } from "./room.ts";
import { openStoreThread, type StoreThread } from "./store-thread.ts";

const run = promisify(execFile);
const CREATE = fileURLToPath(new URL("./create-embedded.js", import.meta.url));

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
      const fresh = freshStore();
      await run(process.execPath, [CREATE, folder, ...(fresh === null ? [] : ["--from", fresh])], {
        env: { ...process.env, NODE_OPTIONS: "" },
      });
    }
    return overEmbedded(await openStoreThread(folder), room, release);
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

function overEmbedded(store: StoreThread, room: () => number | null, release: () => void): Database {
  let readOnly = false;
  /** Lets the store be read alone while little room is left, and written again when there is. */
  const mind = async () => {
    const little = (room() ?? LEAST_ROOM) < LEAST_ROOM;
    if (little === readOnly) return;
    await store.script(`set default_transaction_read_only = ${little ? "on" : "off"}`);
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
  const over = (ask: StoreThread["query"]): Queryable => ({
    query: async <Row>(text: string, values: readonly unknown[] = []) => (await ask(text, values)) as Row[],
  });
  const plain = over(store.query);
  const inTransaction = (ask: StoreThread["query"]): Queryable => ({
    query: (text, values) => {
      if (!readOnly && (room() ?? STOP_ROOM) < STOP_ROOM) throw new DiskFull();
      return over(ask).query(text, values);
    },
  });
  return {
    kind: "embedded",
    query: (text, values) => guarded(() => plain.query(text, values)),
    script: (text) => guarded(async () => (await store.script(text)) as Record<string, unknown>[]),
    transaction: <T>(work: (inside: Queryable) => Promise<T>) =>
      guarded(() => store.transaction((ask) => work(inTransaction(ask)))),
    room,
    close: async () => {
      await store.close();
      release();
    },
  };
}
