/**
 * What a paper cites does not hang on chance: the same files give the same figures whatever the store, the number of
 * threads, the load of the machine and the order in which they came.
 */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import type { StartOptions } from "../../server/start.ts";
import { callsTo } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi } from "./harness.ts";
import { postgresIsInstalled, startPostgres } from "./postgres.ts";

const CLASS = ["tilda-week-1", "tilda-week-4", "tilda-week-8"].map(
  (name) =>
    [`${name}.mid`, readFileSync(new URL(`../../corpus/takes/${name}.mid`, import.meta.url))] as const,
);
const SMALL = Array.from(
  { length: 9 },
  (_, n) => [`small-${n}.mid`, smallMidi(ARPEGGIOS.map((pitch, i) => pitch + n + ((i * n) % 5)))] as const,
);
const FILES: readonly (readonly [string, Uint8Array])[] = [...CLASS, ...SMALL];

/** All that is said of the corpus, without the names that it was given. */
async function figures(
  options: Partial<StartOptions>,
  files: readonly (readonly [string, Uint8Array])[],
  busy: boolean,
): Promise<Record<string, unknown>> {
  const server = await serve(options);
  const { json, call, corpus, fill, ended, post } = callsTo(() => server);
  const id = await corpus("Class");
  const manifest = files.map(([file]) => ({
    file,
    ...(file.startsWith("small") ? { chart: FOUR_BARS } : { form: "blues-quick-change", key: "F" }),
    player: file.startsWith("small") ? "Ida" : "Tilda",
    title: file,
    tags: [Number(/\d/.exec(file)![0]) % 2 === 0 ? "even" : "odd"],
    date: "2026-03-01",
  }));
  const parts = busy ? [files.slice(0, 5), files.slice(5)] : [files];
  const jobs = [];
  for (const part of parts) {
    const names = new Set(part.map(([name]) => name));
    const text = JSON.stringify(manifest.filter(({ file }) => names.has(file)));
    jobs.push(await fill(id, Object.fromEntries(part), { manifest: text }));
  }
  // Others ask all the while.
  const asking = busy ? Array.from({ length: 20 }, () => json("/forms")) : [];
  for (const { id: job } of jobs) expect(await ended(job)).toMatchObject({ failed: 0, repeated: 0 });
  await Promise.all(asking);
  const at = `/corpora/${id}`;
  const table = async (name: string) => {
    const text = await (await call(`${at}/${name}?format=ndjson`)).text();
    return text
      .trim()
      .split("\n")
      .map((line) => ({ ...JSON.parse(line), take: null }));
  };
  const search = async (maxEdits: number, symbols: readonly number[], limit: number) => {
    const { found, hits } = await post(`${at}/search`, { symbols, maxEdits, limit });
    return { found, hits: hits.map((hit: object) => ({ ...hit, take: null })) };
  };
  const result = {
    citation: await json(`${at}/citation`),
    summary: await json(`${at}/summary?by=tag`),
    vocabulary: await json(`${at}/vocabulary`),
    compared: await post(`${at}/compare`, { a: { tag: "even" }, b: { tag: "odd" }, seed: 7 }),
    takes: await table("takes"),
    notes: await table("notes"),
    found: await search(0, [3, 3], 7),
    nearly: await search(1, [4, 3, 3], 12),
  };
  await server.close();
  return result;
}

it("is the same from the embedded store in order, and elsewhere in another order, in parts and under load", {
  timeout: 240_000,
}, async () => {
  const first = await figures({ threads: 1 }, FILES, false);
  expect((first.notes as unknown[]).length).toBeGreaterThan(500);
  // Plain ones, near ones, and more than are answered.
  const nearly = first.nearly as { found: number; hits: { edits: number }[] };
  expect(nearly.found).toBeGreaterThan(12);
  expect(new Set(nearly.hits.map(({ edits }) => edits))).toEqual(new Set([0, 1]));
  const postgres = postgresIsInstalled() ? await startPostgres() : null;
  const second = await figures(
    { threads: 2, databaseUrl: await postgres?.database() },
    FILES.toReversed(),
    true,
  );
  postgres?.stop();
  for (const [name, value] of Object.entries(first)) expect(second[name], name).toEqual(value);
});
