import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import autocannon, { type Result } from "autocannon";
import { ended, startProcess } from "../server/processes.ts";
import { generatedCorpus } from "../server/scale.ts";
import type { Bench } from "./types.ts";

const SECONDS = 6;
const CONNECTIONS = 8;
/** Enough that the job outlasts all readings. */
const TAKES = 400;

export const bench: Bench = {
  name: "reading while a job runs (embedded store, one process)",
  async run() {
    const dataDir = mkdtempSync(join(tmpdir(), "ledgerline-http-"));
    const server = await startProcess("server/main.ts", {
      ...process.env,
      DATA_DIR: dataDir,
      DATABASE_URL: "",
      PORT: "0",
      LOG_LEVEL: "silent",
    });
    const api = `${server.url}/api`;
    const lines: string[] = [];
    try {
      await read(`${api}/health`);
      const floor = await read(`${api}/health`);
      lines.push(line("floor, a route that reads nothing, no job", floor, floor));
      const quiet = await read(`${api}/takes`);
      lines.push(line("list of takes, no job", quiet, floor));
      const created = await fetch(`${api}/corpora`, {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: '{"name":"Load"}',
      });
      const corpus = (await created.json()).id;
      const form = new FormData();
      form.append("file", new Blob([generatedCorpus(TAKES)[0]!.zip as BlobPart]), "takes.zip");
      const answer = await fetch(`${api}/corpora/${corpus}/takes`, { method: "POST", body: form });
      const job = (await answer.json()).id;
      for (const [name, path] of [
        ["list of takes", "/takes"],
        ["an account", "/takes/maren-quick-change/analysis"],
        ["a player's progress", "/players/tilda/progress"],
        ["summary of the corpus", `/corpora/${corpus}/summary?by=player`],
      ] as const) {
        lines.push(line(`${name}, while a job runs`, await read(`${api}${path}`), floor));
      }
      const state = await (await fetch(`${api}/jobs/${job}`)).json();
      lines.push(`the job meanwhile: ${state.done} of ${state.total} takes, ${state.failed} failed`);
    } finally {
      server.process.kill("SIGTERM");
      await ended(server.process);
      rmSync(dataDir, { recursive: true, force: true });
    }
    return lines;
  },
};

function read(url: string): Promise<Result> {
  return autocannon({ url, connections: CONNECTIONS, duration: SECONDS });
}

function line(name: string, result: Result, floor: Result): string {
  const { latency, requests, errors, timeouts, non2xx } = result;
  return `${name}: ${requests.average.toFixed(0)} requests a second; ${latency.p50} ms at the median, ${latency.p97_5} at 97.5 and ${latency.p99} at 99 percent; ${(floor.requests.average / requests.average).toFixed(1)} times the floor's time for each; ${errors + timeouts} errors, ${non2xx} refused`;
}
