/** Feedback of a take in two windows: what stands is not overwritten by what was written to something older. */
import { afterAll, beforeAll, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { callsTo, sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
let path: string;
const { call, json } = callsTo(() => server);
const put = (body: unknown) => call(path, sent("PUT", body));

beforeAll(async () => {
  server = await serve();
  const form = takeForm({ chart: FOUR_BARS, player: "Ada" }, smallMidi(ARPEGGIOS));
  const { take } = await json("/takes", { method: "POST", body: form });
  path = `/takes/${take.id}/feedback`;
});
afterAll(() => server.close());

it("counts how often it was kept, and refuses with what stands where something else was kept meanwhile", async () => {
  const empty = await json(path);
  expect(empty.version).toBe(0);
  const first = await (await put({ ...empty, signed: "One" })).json();
  expect(first).toMatchObject({ signed: "One", version: 1 });

  const late = await put({ ...empty, signed: "Two" });
  // RFC 9110, 15.5.10: a conflict, with enough for the user to recognise its source.
  expect(late.status).toBe(409);
  expect(late.headers.get("content-type")).toContain("application/problem+json");
  expect(await late.json()).toMatchObject({
    code: "changed-meanwhile",
    where: "body.version",
    stands: first,
  });
  expect(await json(path)).toEqual(first);

  expect((await put({ ...first, own: "Joined." })).status).toBe(200);
  expect(await json(path)).toMatchObject({ signed: "One", own: "Joined.", version: 2 });
});

it("lets one of two pass that are sent at the same moment", async () => {
  const stands = await json(path);
  const answers = await Promise.all(["a", "b", "c"].map((signed) => put({ ...stands, signed })));
  expect(answers.map(({ status }) => status).sort()).toEqual([200, 409, 409]);
});

it("overwrites without a version, as programs did before there were any, and raises it", async () => {
  const { version } = await json(path);
  expect(await (await put({ signed: "A program" })).json()).toMatchObject({
    ...{ signed: "A program", own: "", version: version + 1 },
  });
});

it("has another version once the player's own view is kept", async () => {
  const before = await json(path);
  await call(path.replace("feedback", "own-view"), sent("PUT", { own: "More room." }));
  expect((await put({ ...before, signed: "Late" })).status).toBe(409);
  expect(await json(path)).toMatchObject({ own: "More room.", version: before.version + 1 });
});

it("of a take that is not there is not found", async () => {
  expect((await call("/takes/none/feedback", sent("PUT", { version: 0 }))).status).toBe(404);
});
