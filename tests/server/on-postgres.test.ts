/** The tests of the store, all of them once more on a PostgreSQL server. */
import { afterAll, beforeAll, describe } from "vitest";
import { store } from "./harness.ts";
import { type Postgres, postgresIsInstalled, startPostgres } from "./postgres.ts";

/** Files whose servers keep something; what they say holds on both stores. */
const FILES = [
  "access",
  "audit",
  "broken-table",
  "class",
  "client",
  "corpora",
  "deletion",
  "examples",
  "feedback",
  "fuzz",
  "injection",
  "jobs",
  "limits",
  "player-page",
  "reanalysis",
  "repeated",
  "repeats",
  "search",
  "take-list",
  "take-table",
  "takes",
] as const;

describe.skipIf(!postgresIsInstalled())("on PostgreSQL (skipped where it is not installed)", () => {
  let postgres: Postgres;
  beforeAll(async () => {
    postgres = await startPostgres();
    store.database = postgres.database;
  });
  afterAll(() => {
    store.database = null;
    postgres.stop();
  });
  for (const file of FILES) {
    describe(`${file}:`, async () => {
      await import(`./${file}.test.ts`);
    });
  }
});
