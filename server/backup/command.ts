/** `ledgerline backup FILE` and `ledgerline restore FILE`: all of a store into a file, and from it into a new store of either kind. */
import { createWriteStream, existsSync } from "node:fs";
import { rename, rm } from "node:fs/promises";
import { resolve } from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { createGzip } from "node:zlib";
import { Problem } from "../../src/take/index.ts";
import { databaseWaitOf } from "../settings.ts";
import { type Database, openDatabase } from "../store/database.ts";
import { holderOf } from "../store/folder-lock.ts";
import { migrate } from "../store/migrations.ts";
import { checkBackup, restoreBackup } from "./read.ts";
import { backupLines, type Counts } from "./write.ts";

/** Where a store is: a PostgreSQL server, or else a folder. */
export interface Place {
  readonly url: string | undefined;
  readonly folder: string;
}

/** The store that the environment names, as the service itself finds it. */
export function placeOfStore(): Place {
  const { DATABASE_URL, DATA_DIR } = process.env;
  return { url: DATABASE_URL === "" ? undefined : DATABASE_URL, folder: resolve(DATA_DIR ?? "data") };
}

/**
 * Writes the store to a file that must not exist yet, and reads it again. A server that holds the folder goes on
 * working, and is asked for what it holds.
 *
 * @returns what was written, in a sentence
 */
export async function backup(file: string, place: Place): Promise<string> {
  if (existsSync(file)) {
    throw new Problem("file-exists", `There is a file ${file} already`, null, "Give another name.");
  }
  const unfinished = `${file}.part`;
  const holder = place.url === undefined ? holderOf(place.folder) : null;
  try {
    const source = holder === null ? fromStore(place) : fromServer(holder);
    await pipeline(source, createWriteStream(unfinished, { mode: 0o600 }));
    const counts = await checkBackup(unfinished);
    await rename(unfinished, file);
    return `Backed up ${inWords(counts)}.`;
  } catch (error) {
    await rm(unfinished, { force: true });
    throw error;
  }
}

/** Puts a backup into a new store, and holds what the store then has against the hashes of the file. */
export async function restore(file: string, place: Place): Promise<string> {
  const counts = await checkBackup(file).catch((error) => {
    if ((error as { code?: string }).code !== "ENOENT") throw error;
    throw new Problem("no-such-file", "There is no such file", null, "Check its name.");
  });
  const database = await open(place);
  try {
    await restoreBackup(database, file, counts);
  } finally {
    await database.close();
  }
  return `Restored ${inWords(counts)}; all hashes agree.`;
}

function open({ url, folder }: Place): Promise<Database> {
  return openDatabase({ url, folder, waitSeconds: databaseWaitOf(process.env.DATABASE_WAIT) });
}

async function* fromStore(place: Place): AsyncGenerator<Buffer> {
  if (place.url === undefined && !existsSync(place.folder)) throw noStore(place.folder);
  const database = await open(place);
  try {
    await migrate(database);
    yield* Readable.from(backupLines(database)).pipe(createGzip());
  } finally {
    await database.close();
  }
}

async function* fromServer({ url, key }: { url: string; key: string }): AsyncGenerator<Uint8Array> {
  const answer = await fetch(`${url}/api/backup`, { headers: { authorization: `Bearer ${key}` } });
  if (!answer.ok || answer.body === null) {
    throw new Problem(
      "server-refused",
      `The server that holds the data folder answered ${answer.status}`,
      null,
      "Look into its log, and try again.",
    );
  }
  yield* answer.body;
}

function noStore(folder: string): Problem {
  return new Problem(
    "no-store",
    `There is no data folder ${folder}`,
    "DATA_DIR",
    "Name the folder that the service keeps its data in, or set DATABASE_URL.",
  );
}

function inWords(counts: Counts): string {
  const rows = (name: string) => counts[name]?.rows ?? 0;
  return `${rows("takes")} takes, ${rows("players")} players, ${rows("corpora")} corpora and ${rows("tokens")} tokens`;
}
