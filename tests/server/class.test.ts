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
  expect(now.lens).toMatchObject({ since: "2026-03-15", takes: 1, before: null });
  await lens({ lens: null, since: "2026-03-20" });
  expect((await json("/class")).players[0].lens).toBeNull();
});

it("tells what moved through the lens, and how many lessons wait for a take", async () => {
  const takeOf = async (title: string, date: string) => {
    const body = takeForm({ chart: FOUR_BARS, player: "Cy", title, date }, smallMidi(ARPEGGIOS));
    return (await json("/takes", { method: "POST", body })) as {
      readonly take: { readonly playerId: string };
      readonly analysis: { readonly lens?: { readonly state: string } };
    };
  };
  const { take } = await takeOf("Before", "2026-03-01");
  await call(`/players/${take.playerId}/lens`, sent("PUT", { lens: "guide-tones", since: "2026-03-02" }));
  const handed = { chart: FOUR_BARS, handedOn: "2026-03-02", players: [take.playerId] };
  await post("/lessons", handed);
  await post("/lessons", { form: "blues-basic", key: "F", handedOn: "2026-03-03", players: [take.playerId] });
  const cy = async () =>
    (await json("/class")).players.find(({ name }: { readonly name: string }) => name === "Cy");
  expect(await cy()).toMatchObject({ waiting: 2, lens: { takes: 0, now: null, before: null } });

  // Two takes of the same notes: each shows through the lens what its own account says.
  const states = [];
  for (const [title, date] of [
    ["First", "2026-03-09"],
    ["Second", "2026-03-16"],
  ] as const)
    states.push((await takeOf(title, date)).analysis.lens?.state);
  expect(states.every(Boolean)).toBe(true);
  // The chords of the first lesson are those of both takes; the other one still waits.
  expect(await cy()).toMatchObject({ waiting: 1, lens: { takes: 2, now: states[1], before: states[0] } });
});
