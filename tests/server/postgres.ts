/** A PostgreSQL server of the test's own, from Debian's package, on a free port; null where it is not installed. */
import { execFileSync, spawn } from "node:child_process";
import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { POSTGRES } from "../programs.ts";

export interface Postgres {
  /** A fresh database on each call. */
  database(): Promise<string>;
  /** As a failing machine would: the server is killed, and started again on the same data. */
  crash(): Promise<void>;
  stop(): void;
  /** Its data folder. */
  readonly data: string;
  /** Of the process that starts all others of the server. */
  pid(): number;
}

export function postgresIsInstalled(): boolean {
  return POSTGRES.path !== null;
}

export async function startPostgres(): Promise<Postgres> {
  const bin = POSTGRES.path;
  if (bin === null) throw new Error(`No ${POSTGRES.name} here: ${POSTGRES.without}.`);
  const folder = mkdtempSync(join(tmpdir(), "ledgerline-pg-"));
  chmodSync(folder, 0o777);
  const data = join(folder, "data");
  const port = await freePort();
  run(bin, "initdb", ["-D", data, "-U", "ledgerline", "--auth=trust", "--no-sync"]);
  let server = start();
  await answering();
  let databases = 0;

  function start() {
    // What was written outlives the server in any case, and this machine is not switched off.
    const hasty = ["fsync", "synchronous_commit", "full_page_writes"].flatMap((name) => [
      "-c",
      `${name}=off`,
    ]);
    const place = ["-D", data, "-p", String(port), "-k", folder, "-h", "127.0.0.1"];
    const command = [join(bin!, "postgres"), ...place, ...hasty];
    const [program, args] = asPostgres(command);
    return spawn(program, args, { stdio: "ignore", detached: true });
  }

  async function answering(): Promise<void> {
    for (let tries = 0; ; tries++) {
      try {
        const client = new pg.Client({ connectionString: url("postgres") });
        client.on("error", () => {});
        await client.connect();
        await client.end();
        return;
      } catch (error) {
        if (tries > 200) throw error;
        await new Promise((done) => setTimeout(done, 100));
      }
    }
  }

  function url(name: string): string {
    return `postgres://ledgerline@127.0.0.1:${port}/${name}`;
  }

  function kill(): void {
    try {
      process.kill(-server.pid!, "SIGKILL");
    } catch {
      // It has ended already.
    }
  }

  return {
    data,
    pid: () => server.pid!,
    database: async () => {
      const name = `test${++databases}`;
      const client = new pg.Client({ connectionString: url("postgres") });
      await client.connect();
      await client.query(`create database ${name}`);
      await client.end();
      return url(name);
    },
    crash: async () => {
      kill();
      await new Promise((done) => setTimeout(done, 300));
      rmSync(join(data, "postmaster.pid"), { force: true });
      server = start();
      await answering();
    },
    stop: () => {
      kill();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** PostgreSQL refuses to run as root; the package brings a user for it. */
function asPostgres(command: string[]): [string, string[]] {
  return process.getuid?.() === 0
    ? ["setpriv", ["--reuid=postgres", "--regid=postgres", "--clear-groups", ...command]]
    : [command[0]!, command.slice(1)];
}

function run(bin: string, name: string, args: string[]): void {
  const [program, rest] = asPostgres([join(bin, name), ...args]);
  execFileSync(program, rest, { stdio: "ignore" });
}

function freePort(): Promise<number> {
  return new Promise((done) => {
    const server = createServer();
    server.listen(0, "127.0.0.1", () => {
      const address = server.address();
      server.close(() => done(typeof address === "object" && address !== null ? address.port : 0));
    });
  });
}
