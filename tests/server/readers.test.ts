/** Many readers at once: the store is asked once for all of them, each gets what is so, and nobody holds up the others. */
import { gunzipSync, gzipSync } from "node:zlib";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { createAccounts } from "../../server/store/accounts.ts";
import type { Database } from "../../server/store/database.ts";
import { inBatches } from "../../server/store/in-batches.ts";
import { sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

async function keep(): Promise<string> {
  const form = takeForm({ chart: FOUR_BARS }, smallMidi(ARPEGGIOS));
  const response = await fetch(`${server.url}/api/takes`, { method: "POST", body: form });
  const { take, analysis } = await response.json();
  expect(analysis.notes).toHaveLength(ARPEGGIOS.length);
  return take.id;
}

/** As it is given to whoever takes it in this coding, and nothing else. */
function read(id: string, coding: string, headers: Record<string, string> = {}): Promise<Response> {
  return fetch(`${server.url}/api/takes/${id}/analysis`, {
    headers: { "accept-encoding": coding, ...headers },
  });
}

/** A store whose answers come when they are let. */
function slowStore(answer: (keys: readonly string[]) => ReadonlyMap<string, string>) {
  const asked: (readonly string[])[] = [];
  const waiting: (() => void)[] = [];
  const ask = (keys: readonly string[]) =>
    new Promise<ReadonlyMap<string, string>>((done, failed) => {
      asked.push(keys);
      waiting.push(() => {
        try {
          done(answer(keys));
        } catch (error) {
          failed(error);
        }
      });
    });
  return { asked, ask, answerNext: () => waiting.shift()!() };
}

it("questions that come while one is under way go together with the next, and are told what is so then", async () => {
  let state = "before";
  const { asked, ask, answerNext } = slowStore((keys) => new Map(keys.map((key) => [key, state])));
  const of = inBatches(ask, 2);
  const first = of("a");
  const later = ["a", "b", "b", "c"].map(of);
  expect(asked).toEqual([["a"]]);
  answerNext();
  expect(await first).toBe("before");
  state = "after";
  answerNext();
  expect(await Promise.all(later.slice(0, 3))).toEqual(["after", "after", "after"]);
  answerNext();
  expect(await later[3]).toBe("after");
  expect(asked).toEqual([["a"], ["a", "b"], ["c"]]);
});

it("a question that fails fails alone with those that went with it", async () => {
  const { ask, answerNext } = slowStore((keys) => {
    if (keys.includes("bad")) throw new Error("no answer");
    return new Map();
  });
  const of = inBatches(ask, 5);
  const bad = of("bad");
  const good = of("good");
  answerNext();
  await expect(bad).rejects.toThrow("no answer");
  answerNext();
  expect(await good).toBeNull();
});

it("two hundred readers of an account are two questions to the store and one copy of it", async () => {
  const account = gzipSync('{"notes":[]}');
  const statements: string[] = [];
  const query = async (text: string) => {
    statements.push(text);
    return text.includes("from takes") ? [{ id: "t", key: "k" }] : [{ key: "k", account }];
  };
  const accounts = createAccounts({ query } as unknown as Database);
  const readers = await Promise.all(Array.from({ length: 200 }, () => accounts.of("t")));
  // The first asks alone, since nobody waits yet.
  expect(statements.filter((text) => text.includes("from takes"))).toHaveLength(2);
  const opened = await Promise.all(readers.map((one) => one!.open()));
  expect(new Set(opened).size).toBe(1);
  expect(Buffer.from(opened[0]!).toString()).toBe('{"notes":[]}');
  const before = statements.length;
  await accounts.of("t");
  expect(statements.slice(before)).toEqual([expect.stringContaining("from takes")]);
  accounts.forget();
  await accounts.of("t");
  expect(statements.at(-1)).toContain("from analyses");
});

it("an account that goes between the two questions, because its take changed, is asked for again", async () => {
  const account = gzipSync("{}");
  let key = "old";
  const query = async (text: string, [keys]: [string[]]) => {
    if (text.includes("from takes")) return [{ id: "t", key }];
    if (keys[0] === "new") return [{ key: "new", account }];
    key = "new";
    return [];
  };
  const accounts = createAccounts({ query } as unknown as Database);
  expect((await accounts.of("t"))!.key).toBe("new");
});

it("an account is given packed to whoever takes it so, and is the same", async () => {
  const id = await keep();
  const packed = await read(id, "gzip");
  const plain = await read(id, "identity");
  expect(packed.headers.get("content-encoding")).toBe("gzip");
  expect(plain.headers.get("content-encoding")).toBeNull();
  expect(packed.headers.get("vary")).toMatch(/accept-encoding/i);
  const text = await plain.text();
  expect(await packed.text()).toBe(text);
  const kept = await server.services.accounts.of(id);
  expect(gunzipSync(kept!.packed).toString("utf8")).toBe(text);
  expect(Number(plain.headers.get("content-length"))).toBe(Buffer.byteLength(text));
});

it("whoever has an account is told whether it is still the one, and never of one that is gone", async () => {
  const id = await keep();
  const tag = (await read(id, "identity")).headers.get("etag")!;
  const again = await read(id, "identity", { "if-none-match": tag });
  expect(again.status).toBe(304);
  expect(await again.text()).toBe("");
  const other = (await read(id, "gzip")).headers.get("etag");
  expect(other).not.toBe(tag);

  const changed = await fetch(
    `${server.url}/api/takes/${id}`,
    sent("PATCH", { chart: FOUR_BARS.replace("C7", "C7alt") }),
  );
  expect(changed.status).toBe(200);
  const anew = await read(id, "identity", { "if-none-match": tag });
  expect(anew.status).toBe(200);
  expect(await anew.json()).toEqual((await changed.json()).analysis);

  await fetch(`${server.url}/api/takes/${id}`, { method: "DELETE" });
  expect((await read(id, "identity", { "if-none-match": anew.headers.get("etag")! })).status).toBe(404);
});
