/**
 * The published document in the hands of others: a validator of OpenAPI documents reads it, a generator makes a client
 * of it, a compiler holds a program to that client, and the program calls every operation. (@apidevtools/swagger-parser
 * holds documents to the schema of the OpenAPI Initiative; oazapfts generates clients; both know nothing of this house.)
 */
import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import SwaggerParser from "@apidevtools/swagger-parser";
import { build } from "esbuild";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { piano, wave } from "../listen/sounds.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi } from "../server/harness.ts";
import { operationsOf } from "./checked-answers.ts";
import type { Given } from "./every-call.ts";
import { closed, type Json, validatorsOf } from "./published.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
/** Within the house, so that what was generated finds the packages that it imports. */
const FOLDER = join(ROOT, "dist/every-call");
const CLIENT = join(FOLDER, "client.ts");
/** The client, and of its runtime what a program needs. */
const INDEX = join(FOLDER, "index.ts");

let server: RunningServer;
let document: Json;
beforeAll(async () => {
  server = await serve();
  document = (await (await fetch(`${server.url}/api/openapi.json`)).json()) as Json;
  rmSync(FOLDER, { recursive: true, force: true });
  mkdirSync(FOLDER, { recursive: true });
  writeFileSync(join(FOLDER, "openapi.json"), JSON.stringify(document));
  const generator = join(ROOT, "node_modules/oazapfts/dist/cli.js");
  execFileSync(process.execPath, [generator, join(FOLDER, "openapi.json"), CLIENT], { stdio: "pipe" });
  writeFileSync(INDEX, 'export { ok } from "@oazapfts/runtime";\nexport * from "./client.ts";\n');
}, 120_000);
afterAll(async () => {
  await server.close();
  rmSync(FOLDER, { recursive: true, force: true });
});

it("is a valid document to a validator of others", async () => {
  await expect(SwaggerParser.validate(structuredClone(document) as never)).resolves.toBeDefined();
  const broken = structuredClone(document) as { info: { title?: string } };
  delete broken.info.title;
  await expect(SwaggerParser.validate(broken as never)).rejects.toThrow(/title/);
});

it("gives a client in which nothing is left open but sets of options, and which types every call", () => {
  const client = readFileSync(CLIENT, "utf8");
  // The sets of options of a citation are those of every version that wrote one.
  expect(
    client.match(/^.*\bany\b.*$/gm)?.filter((line) => !/^\s*(\/?\*|\[key: string\])/.test(line)),
  ).toEqual([]);
  cpSync(join(ROOT, "tests/contract/every-call.ts"), join(FOLDER, "every-call.ts"));
  writeFileSync(
    join(FOLDER, "wrong.ts"),
    `import * as api from "ledgerline-generated";
     // @ts-expect-error a number for a name
     api.postPlayers({ name: 3 });
     // @ts-expect-error a field that an answer has not
     api.ok(api.getTake("one")).then((take) => take.titel);
     // @ts-expect-error a take without its file
     api.postTakes({ chart: "| F7 |" });`,
  );
  compile(["every-call.ts", "wrong.ts"]);
});

it("calls every operation, and every answer is as it is published", async () => {
  const outfile = join(FOLDER, "every-call.mjs");
  await build({
    entryPoints: [join(ROOT, "tests/contract/every-call.ts")],
    alias: { "ledgerline-generated": INDEX },
    nodePaths: [join(ROOT, "node_modules")],
    bundle: true,
    format: "esm",
    outfile,
  });
  const { callEverything } = (await import(pathToFileURL(outfile).href)) as {
    callEverything: (given: Given) => Promise<void>;
  };
  const answers = checked(document);
  const struck = ARPEGGIOS.map((pitch, i) => ({ pitch, onset: 0.5 + i / 2, end: 0.95 + i / 2 }));
  const done = callEverything({
    url: server.url,
    long: readFileSync(join(ROOT, "corpus/takes/tilda-week-1.mid")),
    solo: smallMidi(ARPEGGIOS) as Uint8Array<ArrayBuffer>,
    other: smallMidi(ARPEGGIOS.toReversed()) as Uint8Array<ArrayBuffer>,
    sound: wave(piano(struck, 9)) as Uint8Array<ArrayBuffer>,
    chart: FOUR_BARS,
    fetch: answers.fetch,
  });
  await done.catch((error: unknown) => {
    throw new Error(`The last refusal: ${answers.refused.at(-1)}`, { cause: error });
  });
  const all = Object.values(document.paths as Record<string, Record<string, { operationId: string }>>)
    .flatMap((path) => Object.values(path))
    .map(({ operationId }) => operationId);
  expect(all.filter((name) => !answers.met.has(name))).toEqual([]);
  // A line a note at least: those of the take, and of both takes of the corpus.
  expect(answers.lines).toBeGreaterThan(3 * ARPEGGIOS.length);
}, 180_000);

/** Throws with what the compiler says. */
function compile(files: readonly string[]): void {
  const compilerOptions = {
    ...{ strict: true, noEmit: true, noUncheckedIndexedAccess: true, skipLibCheck: true, types: [] },
    ...{ target: "es2022", module: "esnext", moduleResolution: "bundler", allowImportingTsExtensions: true },
    lib: ["es2022", "dom", "dom.iterable"],
    paths: { "ledgerline-generated": ["./index.ts"] },
  };
  writeFileSync(join(FOLDER, "tsconfig.json"), JSON.stringify({ compilerOptions, files }));
  const tsc = join(ROOT, "node_modules/typescript/bin/tsc");
  const { stdout, status } = spawnSync(process.execPath, [tsc, "-p", FOLDER], { encoding: "utf8" });
  expect([stdout, status]).toEqual(["", 0]);
}

interface Answered {
  readonly schema: { readonly contentSchema?: { readonly $ref: string } };
}

/**
 * A `fetch` that holds every answer to the document: status and media type, JSON by its schema, and of NDJSON and
 * events each line. (What is JSON is checked by the server of every test as well.)
 */
function checked(published: Json) {
  const shut = closed(published);
  const at = validatorsOf(shut);
  const operationAt = operationsOf(shut);
  const met = new Set<string>();
  const told = { met, refused: [] as string[], lines: 0, fetch };
  told.fetch = async (input, init) => {
    const response = await fetch(input, init);
    const { pathname } = new URL(String(input));
    const method = (init?.method ?? "GET").toLowerCase();
    const found = operationAt(method, pathname)!;
    const { operationId, responses } = found.operation;
    const type = (response.headers.get("content-type") ?? "").replace(/;(?! ?charset).*/, "");
    const content = responses[response.ok ? response.status : "default"]?.content;
    const media = Object.keys(content ?? {}).find((name) => name.split(";")[0] === type.split(";")[0]);
    if (content === undefined && response.ok) expect([operationId, type]).toEqual([operationId, ""]);
    else expect(media, `${operationId} answered ${response.status} ${type}`).toBeDefined();
    if (response.ok) met.add(operationId);
    else told.refused.push(`${operationId} ${response.status} ${await response.clone().text()}`);
    const line = (content?.[media ?? ""] as Answered | undefined)?.schema.contentSchema;
    if (line !== undefined) {
      const validate = at(line.$ref.slice(1));
      const text = await response.clone().text();
      const lines = type.startsWith("text/event-stream")
        ? [...text.matchAll(/^data: (.*)$/gm)].map(([, data]) => data!)
        : text.split("\n").filter((one) => one !== "");
      for (const one of lines) expect(validate(JSON.parse(one)), `${operationId}: ${one}`).toBeNull();
      told.lines += lines.length;
    }
    return response;
  };
  return told;
}
