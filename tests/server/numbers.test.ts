/** Numbers and dates that cannot be are refused at once, naming the field. */
import { afterAll, beforeAll, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { callsTo, sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
const { call } = callsTo(() => server);
const MIDI = smallMidi(ARPEGGIOS);
const ANCHOR = { seconds: 0, chorus: 1, bar: 1, beat: 1 };

beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

it.each([
  [{ anchors: [{ ...ANCHOR, seconds: 1e308 }] }, "seconds"],
  [{ anchors: [{ ...ANCHOR, seconds: 1e5 }] }, "seconds"],
  [{ anchors: [{ ...ANCHOR, seconds: 80_000 }] }, "seconds"],
  [{ anchors: [{ ...ANCHOR, chorus: 1e9 }] }, "chorus"],
  [{ anchors: [{ ...ANCHOR, bar: 1e9 }] }, "bar"],
  [{ anchors: [{ ...ANCHOR, beat: 1e300 }] }, "beat"],
  [{ tempo: 1e9 }, "tempo"],
  [{ scales: [{ bar: 1e9, beat: 1, scale: "blues" }] }, "bar"],
])("options %j are refused", async (options, field) => {
  const begun = Date.now();
  const form = takeForm({ chart: FOUR_BARS, options: JSON.stringify(options) }, MIDI);
  const response = await call("/analyse", { method: "POST", body: form });
  expect([400, 422]).toContain(response.status);
  expect(((await response.json()) as { where: string }).where).toContain(field);
  expect(Date.now() - begun).toBeLessThan(10_000);
});

// ISO 8601: February has 28 or 29 days, a year 12 months.
it.each(["2026-02-31", "2026-13-45", "0000-01-01"])(
  "the date %s is refused, new and changed",
  async (date) => {
    const form = takeForm({ chart: FOUR_BARS, date }, MIDI);
    const kept = await call("/takes", { method: "POST", body: form });
    const changed = await call("/takes/any", sent("PATCH", { date }));
    for (const response of [kept, changed]) {
      expect(response.status).toBe(400);
      expect(await response.json()).toMatchObject({ where: "body.date", code: "invalid-request" });
    }
  },
);
