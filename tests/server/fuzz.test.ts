/** Requests made from the published document, most of them wrong in some way, on both stores. */
import { afterAll, beforeAll, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { fuzz } from "./fuzz/run.ts";
import { serveDemo } from "./harness.ts";

let server: RunningServer;
beforeAll(async () => {
  server = await serveDemo();
});
afterAll(() => server.close());

// RFC 9110, 15.6: a 5xx says that the server is at fault, and no request may bring that about.
it("nothing that is sent makes the server err, and it answers still", { timeout: 300_000 }, async () => {
  const outcome = await fuzz({ url: server.url, seed: 5, requests: 330, atOnce: 2 });
  expect(outcome.faults).toEqual([]);
  expect(outcome.statuses[0] ?? 0).toBe(0);
  expect((await fetch(`${server.url}/api/health`)).status).toBe(200);
});
