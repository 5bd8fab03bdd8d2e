/**
 * The embedded store is for one process: two that write to the same files each lose what the other wrote. Whoever
 * opens a folder leaves a file in it that says so.
 */
import { linkSync, readFileSync, realpathSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Problem } from "../../src/take/index.ts";

const NAME = "ledgerline.lock";
/** A file that is still empty is being written; it is read again this often before it counts as left behind. */
const LOOKS = 20;
const PAUSE_MS = 25;

interface Holder {
  readonly pid: number;
  /** Tells a process from a later one with the same number; null where the system does not say. */
  readonly started: string | null;
  /** Where the process is reached, when it is a server that is open. */
  readonly server?: Reached;
}

/** How a command of whoever may read the folder gets through to the server that holds it. */
export interface Reached {
  readonly url: string;
  /** What opens it as an owner's token does, for as long as it runs. */
  readonly key: string;
}

/** Locks that this process holds. */
const held = new Set<string>();

/**
 * Takes a folder that exists. A file that a dead process left is taken over.
 *
 * @returns what gives the folder free
 * @throws Problem `folder-in-use` while another process, or this one, has it open
 */
export async function lockFolder(folder: string): Promise<() => void> {
  const file = join(realpathSync(folder), NAME);
  const me: Holder = { pid: process.pid, started: startOf(process.pid) };
  for (let looks = 0; ; looks++) {
    if (held.has(file)) throw inUse(folder, process.pid);
    try {
      writeFileSync(file, `${JSON.stringify(me)}\n`, { flag: "wx", mode: 0o600 });
      held.add(file);
      return () => {
        held.delete(file);
        rmSync(file, { force: true });
      };
    } catch (error) {
      if ((error as { code?: string }).code !== "EEXIST") throw error;
    }
    const holder = readHolder(file);
    if (holder === null && looks < LOOKS) {
      await new Promise((done) => setTimeout(done, PAUSE_MS));
      continue;
    }
    if (holder !== null && lives(holder)) throw inUse(folder, holder.pid);
    setAside(file, holder);
  }
}

/** Tells whoever may read a folder that this process holds where it is reached. */
export function tellWhereReached(folder: string, server: Reached): void {
  const file = join(realpathSync(folder), NAME);
  if (!held.has(file)) return;
  const me: Holder = { pid: process.pid, started: startOf(process.pid), server };
  const next = `${file}.next`;
  writeFileSync(next, `${JSON.stringify(me)}\n`, { mode: 0o600 });
  renameSync(next, file);
}

/** Where the server is reached that holds a folder; null where none does, or does not say. */
export function holderOf(folder: string): Reached | null {
  try {
    const file = join(realpathSync(folder), NAME);
    const holder = readHolder(file);
    return holder !== null && (held.has(file) || lives(holder)) ? (holder.server ?? null) : null;
  } catch {
    return null;
  }
}

/** Takes away what a dead process left; what another has put in its place meanwhile is put back. */
function setAside(file: string, dead: Holder | null): void {
  const aside = `${file}.${process.pid}`;
  try {
    renameSync(file, aside);
    const found = readHolder(aside);
    if (found !== null && (found.pid !== dead?.pid || found.started !== dead.started)) linkSync(aside, file);
  } catch (error) {
    if (!["ENOENT", "EEXIST"].includes((error as { code?: string }).code ?? "")) throw error;
  } finally {
    rmSync(aside, { force: true });
  }
}

/** Null for a file that is gone, or holds nothing that tells of a process. */
function readHolder(file: string): Holder | null {
  try {
    const holder = JSON.parse(readFileSync(file, "utf8")) as Partial<Holder>;
    const { pid, started = null, server } = holder;
    if (typeof pid !== "number" || !Number.isInteger(pid) || pid <= 0) return null;
    return { pid, started, ...(server === undefined ? {} : { server }) };
  } catch {
    return null;
  }
}

function lives({ pid, started }: Holder): boolean {
  // In a container every start has the same number; this process would know of a lock of its own.
  if (pid === process.pid) return false;
  try {
    process.kill(pid, 0);
  } catch (error) {
    if ((error as { code?: string }).code !== "EPERM") return false;
  }
  const now = startOf(pid);
  return started === null || now === null || started === now;
}

/** When a process began, in ticks since the machine started (field 22 of proc(5) stat); null where not told. */
function startOf(pid: number): string | null {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, "utf8");
    return stat.slice(stat.lastIndexOf(")") + 2).split(" ")[19] ?? null;
  } catch {
    return null;
  }
}

function inUse(folder: string, pid: number): Problem {
  return new Problem(
    "folder-in-use",
    `The data folder ${folder} is in use by process ${pid}; two at once would lose what the other writes`,
    "DATA_DIR",
    "Stop that process first, choose another folder, or set DATABASE_URL to a PostgreSQL server, which many may share; a running server makes tokens by POST /api/tokens.",
  );
}
