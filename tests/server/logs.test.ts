/** Logs tell what happened and where, by ids, and hold no names. */
import { Writable } from "node:stream";
import pino from "pino";
import { expect, it } from "vitest";
import { callsTo } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

/** A server that logs from a level on, and what it has logged. */
async function logging(level: string) {
  let text = "";
  const sink = new Writable({
    write: (part, _encoding, done) => {
      text += String(part);
      done();
    },
  });
  const server = await serve({ log: pino({ level }, sink) });
  return { server, text: () => text };
}

it("an error of the database is logged without the values of its statement", async () => {
  const { server, text } = await logging("warn");
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
  // A value that is of no type stands in the message itself (SQLSTATE 22P02, 22007).
  const unlike = await database
    .query("select $1::text::date", ['Secret: "Name"'])
    .catch((refused: unknown) => refused);
  log.error({ err: unlike }, "request failed");
  await server.close();
  expect(error).toBeInstanceOf(Error);
  expect(String(unlike)).toContain("Secret");
  const [first, second] = text()
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line));
  expect(first).toMatchObject({ msg: "request failed", err: { code: "22008" } });
  expect(second.err.message).toContain("invalid input syntax");
  expect(text()).not.toContain("Secret");
});

it("every answer is logged by route, id, status and time, and what persons are called is not", async () => {
  const { server, text } = await logging("trace");
  const { call, json, post } = callsTo(() => server);
  const player = await post("/players", { name: "Wenzeslava", note: "Quittenbaum" });
  const { take } = await json("/takes", {
    method: "POST",
    body: takeForm(
      { chart: FOUR_BARS, player: "Wenzeslava", title: "Haselnussweg", tags: "Ebereschenlaub" },
      smallMidi(ARPEGGIOS),
      "Brombeerhecke.mid",
    ),
  });
  await call("/takes?q=Wenzeslava");
  await call("/players/Wenzeslava");
  await call(`/takes/${take.id}`);
  await call("/takes", { method: "POST", body: takeForm({}, Uint8Array.of(1), "Schlehenfeuer.mid") });
  await server.close();
  const lines = text()
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line))
    .filter(({ msg }) => msg === "answered");
  expect(lines.map(({ method, route, status }) => `${method} ${route} ${status}`)).toEqual([
    "POST /api/players 201",
    "POST /api/takes 201",
    "GET /api/takes 200",
    "GET /api/players/:id 404",
    "GET /api/takes/:id 200",
    "POST /api/takes 422",
  ]);
  expect(lines[4]).toMatchObject({ id: take.id, role: "owner", token: null });
  expect(typeof lines[4].ms).toBe("number");
  expect(player.name).toBe("Wenzeslava");
  for (const word of [
    "Wenzeslava",
    "Quittenbaum",
    "Haselnussweg",
    "Ebereschenlaub",
    "Brombeerhecke",
    "Schlehenfeuer",
  ])
    expect(text()).not.toContain(word);
});
