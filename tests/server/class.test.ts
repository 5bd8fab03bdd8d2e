/** The class as rows: number of takes, the newest one, the lens of today. */
import { afterAll, beforeAll, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { callsTo, sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
const { call, json, post } = callsTo(() => server);

beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

it("has a row a player, with the newest take and the lens of today", async () => {
  await post("/players", { name: "bo" });
  for (const [title, date] of [
    ["New", "2026-04-02"],
    ["Old", "2026-03-01"],
  ] as const) {
    const body = takeForm({ chart: FOUR_BARS, player: "Ada", title, date }, smallMidi(ARPEGGIOS));
    await call("/takes", { method: "POST", body });
  }
  const [ada, bo] = (await json("/class")).players;
  expect(ada).toMatchObject({ name: "Ada", takes: 2, demo: false, lens: null });
  expect(ada.last).toMatchObject({ title: "New", date: "2026-04-02" });
  expect(bo).toMatchObject({ name: "bo", takes: 0, demo: false, lens: null, last: null });

  const lens = (body: unknown) => call(`/players/${ada.id}/lens`, sent("PUT", body));
  await lens({ lens: "rests-and-answers", since: "2026-03-15" });
  await lens({ lens: "register", since: "9999-01-01" });
  const [now] = (await json("/class")).players;
  expect(now.lens).toMatchObject({ since: "2026-03-15", takes: 1 });
  await lens({ lens: null, since: "2026-03-20" });
  expect((await json("/class")).players[0].lens).toBeNull();
});
