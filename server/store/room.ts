/**
 * Room on the disk of the embedded store. A database that cannot lengthen its log stops in the middle of its work and
 * does not come back, so it must never get there: while little room is left it is read and not written.
 */
import { statfsSync } from "node:fs";

const MB = 2 ** 20;

/** While less is free, nothing is written: three pieces of the log, which are of 16 MB. In bytes. */
export const LEAST_ROOM = 48 * MB;
/** A transaction that is under way is stopped when less is free. In bytes. */
export const STOP_ROOM = 32 * MB;
/** An empty store takes about 40 MB. In bytes. */
export const NEW_STORE_ROOM = LEAST_ROOM + 40 * MB;
/** What is sent is written to the log and to its table, and what comes of it too. */
export const TIMES_WRITTEN = 3;

/** Free bytes on the disk of a folder, as far as this process may use them. */
export function roomOn(folder: string): number {
  const { bavail, bsize } = statfsSync(folder);
  return bavail * bsize;
}

/** SQLSTATE disk_full, as PostgreSQL itself has it. */
const DISK_FULL = "53100";

/** What a write ends with that there is no room for; not the fault of what was to be written. */
export class DiskFull extends Error {
  readonly code = DISK_FULL;
  constructor() {
    super("no room is left on the disk of the store");
  }
}

export function isDiskFull(error: unknown): boolean {
  return (error as { code?: unknown } | null)?.code === DISK_FULL;
}
