import { describe, expect, it } from "vitest";
import { killAtRandom } from "./killing.ts";
import { postgresIsInstalled, startPostgres } from "./postgres.ts";

describe("killed at random moments, nothing is lost and nothing is done twice", () => {
  it("the embedded store, its server killed", async () => {
    const outcome = await killAtRandom({ takes: 60, kills: 3, seed: 1, postgres: null });
    expect(outcome).toMatchObject({
      items: 60,
      takes: 60,
      done: 60,
      failed: 0,
      waiting: 0,
      accounts: 60,
      lines: 60,
    });
  }, 240_000);

  it.skipIf(!postgresIsInstalled())(
    "a PostgreSQL server with two workers: server, workers and database killed (skipped without PostgreSQL)",
    async () => {
      const postgres = await startPostgres();
      try {
        const outcome = await killAtRandom({ takes: 60, kills: 4, seed: 2, postgres });
        expect(outcome).toMatchObject({
          items: 60,
          takes: 60,
          done: 60,
          failed: 0,
          waiting: 0,
          accounts: 60,
          lines: 60,
        });
      } finally {
        postgres.stop();
      }
    },
    240_000,
  );
});
