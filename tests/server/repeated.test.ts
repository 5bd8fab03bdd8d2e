/** A request that is sent again because its answer was lost must not do its work twice. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { purgeDeleted } from "../../server/store/purge.ts";
import { callsTo } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
const { call, json } = callsTo(() => server);

beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

const sentUnder = (key: string, title = "Once", pitches = ARPEGGIOS) =>
  call("/takes", {
    method: "POST",
    headers: { "Idempotency-Key": key },
    body: takeForm({ chart: FOUR_BARS, player: "Ida", title }, smallMidi(pitches)),
  });
const titles = async () => ((await json("/takes")).takes as { title: string }[]).map(({ title }) => title);

// The header, its syntax and the answers: IETF draft "The Idempotency-Key HTTP Header Field" (httpapi), 2.1 and 2.6.
describe("a take sent again under its Idempotency-Key", () => {
  const key = '"8e03978e-40d5-43e8-bc93-6894a57f9324"';

  it("is answered like the first time, and kept once", async () => {
    const [first, again] = [await sentUnder(key), await sentUnder(key)];
    expect([first.status, again.status]).toEqual([201, 201]);
    expect(again.headers.get("location")).toBe(first.headers.get("location"));
    expect(await again.json()).toEqual(await first.json());
    expect(await titles()).toEqual(["Once"]);
  });

  it("is kept once when it comes while the first is still at work", async () => {
    const higher = ARPEGGIOS.map((pitch) => pitch + 2);
    const answers = await Promise.all([1, 2, 3].map(() => sentUnder('"twice"', "At once", higher)));
    expect(answers.map(({ status }) => status)).toEqual([201, 201, 201]);
    expect(new Set(answers.map(({ headers }) => headers.get("location"))).size).toBe(1);
    expect((await titles()).filter((title) => title === "At once")).toHaveLength(1);
  });

  it("is refused when it is another take, and nothing changes", async () => {
    const refused = await sentUnder(key, "Another");
    expect(refused.status).toBe(422);
    expect(await refused.json()).toMatchObject({ code: "key-used", where: "Idempotency-Key" });
    expect(await titles()).not.toContain("Another");
  });

  it("is free again after a refusal, and once its take is deleted", async () => {
    const bad = await sentUnder('"retry"', "Mended", []);
    expect(bad.status).toBe(422);
    const good = await sentUnder('"retry"', "Mended");
    expect(good.status).toBe(201);
    const path = good.headers.get("location")!.replace("/api", "");
    await call(path, { method: "DELETE" });
    const again = await sentUnder('"retry"', "Mended");
    expect(again.headers.get("location")).not.toBe(good.headers.get("location"));
    await purgeDeleted(server.services.database, 0);
    expect((await sentUnder('"retry"', "Mended")).headers.get("location")).toBe(
      again.headers.get("location"),
    );
  });

  it("may be named without quotes; a key that is none is refused", async () => {
    expect((await sentUnder("plain-key_1", "Plain")).status).toBe(201);
    const refused = await sentUnder('"no" end', "None");
    expect(refused.status).toBe(400);
    expect((await refused.json()).where).toBe("Idempotency-Key");
  });

  it("is two takes without a key", async () => {
    const form = () => takeForm({ chart: FOUR_BARS, title: "Twice" }, smallMidi(ARPEGGIOS));
    for (let i = 0; i < 2; i++) await call("/takes", { method: "POST", body: form() });
    expect((await titles()).filter((title) => title === "Twice")).toHaveLength(2);
  });
});
