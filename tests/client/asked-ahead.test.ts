/** What a page reads first, asked for while its code is on the way. */
import { afterEach, expect, test, vi } from "vitest";
import { askAhead, fetchJson } from "../../client/shell/api.ts";

afterEach(() => vi.unstubAllGlobals());

/** Answers each request with how many there were so far. */
function counted(): () => number {
  let requests = 0;
  vi.stubGlobal("fetch", async () => new Response(JSON.stringify(++requests)));
  return () => requests;
}

test("is asked for once, and read once", async () => {
  const requests = counted();
  askAhead(["/takes/a"]);
  expect(await fetchJson("/takes/a")).toBe(1);
  expect(requests()).toBe(1);
  expect(await fetchJson("/takes/a")).toBe(2);
});

test("is let go of when its page has opened, and nothing that the next page has asked for", async () => {
  const requests = counted();
  const forget = askAhead(["/takes/a", "/takes/b"]);
  askAhead(["/takes/b", "/takes/c"]);
  forget();
  // What both pages read is on the way already, and is not asked for again.
  expect(requests()).toBe(3);
  expect(await fetchJson("/takes/b")).toBe(2);
  expect(await fetchJson("/takes/c")).toBe(3);
  expect(await fetchJson("/takes/a")).toBe(4);
});
