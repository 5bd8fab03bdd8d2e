/** Logs tell what went wrong and where, and hold no names. */
import { Writable } from "node:stream";
import pino from "pino";
import { expect, it } from "vitest";
import { serve } from "./harness.ts";

it("an error of the database is logged without the values of its statement", async () => {
  let text = "";
  const sink = new Writable({
    write: (part, _encoding, done) => {
      text += String(part);
      done();
    },
  });
  const server = await serve({ log: pino({ level: "warn" }, sink) });
  const { database, log } = server.services;
  // A day that the calendar lacks is refused by the database, which is given the name with it.
  const error = await database
    .query("insert into players (id, name, created_at) values ($1, $2, $3::timestamptz)", [
      "an-id",
      "Secret Name",
      "2026-02-31",
    ])
    .catch((refused: unknown) => refused);
  log.error({ err: error }, "request failed");
  await server.close();
  expect(error).toBeInstanceOf(Error);
  expect(JSON.parse(text.trim())).toMatchObject({ msg: "request failed", err: { code: "22008" } });
  expect(text).not.toContain("Secret Name");
});
