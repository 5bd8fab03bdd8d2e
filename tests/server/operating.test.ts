/** What whoever operates the service asks of it: figures, whether it can work, and patience with a store that restarts. */
import { spawn } from "node:child_process";
import type { AddressInfo } from "node:net";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { createApp } from "../../server/app.ts";
import type { RunningServer } from "../../server/start.ts";
import { createToken } from "../../server/store/tokens.ts";
import { tellAlive } from "../../server/store/workers.ts";
import { callsTo } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";
import { postgresIsInstalled, startPostgres } from "./postgres.ts";

/**
 * A line of the text-based exposition format 0.0.4 of Prometheus: a comment, or a name, labels whose values are quoted,
 * and a number of Go's ParseFloat. [memory]
 */
const LINE =
  /^(# HELP [a-zA-Z_:][\w:]* .*|# TYPE [a-zA-Z_:][\w:]* (counter|gauge|histogram|summary|untyped)|[a-zA-Z_:][\w:]*(\{([a-zA-Z_]\w*="(\\[\\n"]|[^"\\\n])*",?)*\})? (-?[\d.]+(e[+-]?\d+)?|[+-]?Inf|NaN))$/;

// Two cores may be busy with other tests: none of these is about speed.
vi.setConfig({ testTimeout: 180_000 });

describe("GET /metrics", () => {
  let server: RunningServer;
  beforeAll(async () => {
    server = await serve();
  });
  afterAll(() => server.close());

  it("gives figures in the usual text format, under both its addresses, and no names", async () => {
    const { call, json, corpus, fill, ended } = callsTo(() => server);
    const form = () => takeForm({ chart: FOUR_BARS, player: "Wenzeslava" }, smallMidi(ARPEGGIOS));
    const { take } = await json("/takes", { method: "POST", body: form() });
    await call(`/takes/${take.id}`);
    await call(`/takes/${take.id}`);
    await call("/nothing");
    await ended((await fill(await corpus("c"), { "bad.mid": "no MIDI" })).id);
    const answer = await fetch(`${server.url}/metrics`);
    expect(answer.status).toBe(200);
    expect(answer.headers.get("content-type")).toMatch(/^text\/plain; version=0\.0\.4/);
    const text = await answer.text();
    const lines = text.trimEnd().split("\n");
    expect(lines.filter((line) => line !== "" && !LINE.test(line))).toEqual([]);
    const value = (name: string) =>
      Number(
        lines
          .find((line) => line.startsWith(`${name} `))!
          .split(" ")
          .at(-1),
      );
    expect(value('ledgerline_http_requests_total{method="GET",route="/api/takes/:id",status="200"}')).toBe(2);
    expect(value('ledgerline_http_requests_total{method="GET",route="other",status="404"}')).toBe(1);
    expect(value('ledgerline_http_request_duration_seconds_count{method="GET",route="/api/takes/:id"}')).toBe(
      2,
    );
    expect([value("ledgerline_takes"), value("ledgerline_items_failed"), value("ledgerline_ready")]).toEqual([
      1, 1, 1,
    ]);
    expect(value("ledgerline_store_bytes")).toBeGreaterThan(1e6);
    expect(value("process_resident_memory_bytes")).toBeGreaterThan(1e7);
    expect(text).not.toMatch(new RegExp(`Wenzeslava|${take.id}`));
    expect((await call("/metrics")).status).toBe(200);
  });

  it("is read with a monitor's token, which opens nothing else", async () => {
    const outer = createApp({ ...server.services, needsToken: true }).listen(0, "127.0.0.1");
    await new Promise((done) => outer.once("listening", done));
    const made = await createToken(server.services.database, { name: "watch", role: "monitor", scope: [] });
    const status = async (path: string, token = made.token) =>
      (
        await fetch(`http://127.0.0.1:${(outer.address() as AddressInfo).port}${path}`, {
          headers: { authorization: `Bearer ${token}` },
        })
      ).status;
    expect([await status("/metrics"), await status("/api/metrics")]).toEqual([200, 200]);
    for (const path of ["/takes", "/players", "/charts", "/tokens", "/forms", "/class", "/corpora"])
      expect([path, await status(`/api${path}`)]).toEqual([path, 403]);
    expect(await status("/metrics", "x".repeat(43))).toBe(401);
    outer.closeAllConnections();
    outer.close();
  });
});

describe("GET /ready", () => {
  it("says no while no worker is alive, here or elsewhere", async () => {
    const server = await serve({ worker: false });
    const { json } = callsTo(() => server);
    expect(await json("/ready")).toMatchObject({ status: 503, code: "no-worker" });
    expect(await json("/health")).toEqual({ status: "ok" });
    const { database } = server.services;
    const stop = await tellAlive(database, () => true);
    expect(await json("/ready")).toMatchObject({ status: "ready", worker: "alive" });
    // A worker that was killed takes nothing back.
    await database.query("update workers set seen_at = now() - interval '31 seconds'");
    expect(await json("/ready")).toMatchObject({ code: "no-worker" });
    await stop();
    expect(await database.query("select * from workers")).toEqual([]);
    await server.close();
  });

  it.skipIf(!postgresIsInstalled())(
    "says no while the store is away, and yes when it is back (skipped where PostgreSQL is not installed)",
    async () => {
      const postgres = await startPostgres();
      const server = await serve({ databaseUrl: await postgres.database() });
      const { call } = callsTo(() => server);
      const status = async () => (await call("/ready")).status;
      expect(await status()).toBe(200);
      process.kill(-postgres.pid(), "SIGKILL");
      await expect.poll(status).toBe(503);
      expect((await call("/health")).status).toBe(200);
      expect(await (await fetch(`${server.url}/metrics`)).text()).toMatch(/^ledgerline_ready 0$/m);
      await postgres.crash();
      await expect.poll(status).toBe(200);
      await server.close();
      postgres.stop();
    },
  );
});

describe.skipIf(!postgresIsInstalled())("a store that restarts (skipped without PostgreSQL)", () => {
  it("is waited for by a worker that starts meanwhile", async () => {
    const postgres = await startPostgres();
    const url = await postgres.database();
    process.kill(-postgres.pid(), "SIGKILL");
    const worker = spawn("node", ["server/run.js", "worker"], {
      env: { ...process.env, DATABASE_URL: url, DATABASE_WAIT: "60" },
      stdio: ["ignore", "pipe", "pipe"],
    });
    const said = (stream: NodeJS.ReadableStream) =>
      new Promise<string>((done, failed) => {
        stream.once("data", (part) => done(String(part)));
        worker.once("exit", () => failed(new Error("the worker ended")));
      });
    const open = said(worker.stdout);
    const waits = await said(worker.stderr);
    expect(waits).toContain("is waited for");
    expect(waits).not.toContain(url);
    await postgres.crash();
    expect(await open).toContain("waiting for jobs");
    const ended = new Promise((done) => worker.once("exit", done));
    worker.kill("SIGTERM");
    expect(await ended).toBe(0);
    postgres.stop();
  });
});
