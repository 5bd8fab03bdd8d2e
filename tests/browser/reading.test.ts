/** The reader as a browser runs it: bundled, in a page and in a worker, with the same result as on the server. */
import { readdirSync, readFileSync } from "node:fs";
import { zipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { build, type Rollup } from "vite";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readTake } from "../../src/ingest/index.ts";
import { Problem } from "../../src/take/index.ts";
import { hasChromium, launch } from "./stage.ts";

const TAKES = new URL("../../corpus/takes/", import.meta.url);
const SCORE = "bram-lantern-yard.musicxml";

function demo(name: string): Uint8Array {
  return new Uint8Array(readFileSync(new URL(name, TAKES)));
}

/** Little-endian with a byte-order mark. */
function utf16(bytes: Uint8Array): Uint8Array {
  const text = `\ufeff${new TextDecoder().decode(bytes).replace("UTF-8", "UTF-16")}`;
  return new Uint8Array(Uint16Array.from(text, (letter) => letter.charCodeAt(0)).buffer);
}

const FILES: readonly (readonly [name: string, bytes: Uint8Array])[] = [
  ...readdirSync(TAKES)
    .filter((name) => /\.(mid|musicxml)$/.test(name))
    .map((name) => [name, demo(name)] as const),
  ["in UTF-16", utf16(demo(SCORE))],
  [
    "compressed.mxl",
    zipSync({
      "META-INF/container.xml": new TextEncoder().encode(
        '<container><rootfiles><rootfile full-path="a/score.xml"/></rootfiles></container>',
      ),
      "a/score.xml": demo(SCORE),
    }),
  ],
  ["cut off.mid", demo("tilda-week-1.mid").subarray(0, 700)],
  ["entities.xml", new TextEncoder().encode('<!DOCTYPE a [<!ENTITY x "y">]><a>&x;</a>')],
  ["a picture.png", Uint8Array.of(0x89, 0x50, 0x4e, 0x47)],
];

/** What reading ends in, as text: the take, or the code, place and advice of the problem. */
function ending(name: string, bytes: Uint8Array): string {
  try {
    return JSON.stringify(readTake(bytes, { name }));
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    const { code, message, where, todo } = error;
    return JSON.stringify({ code, message, where, todo });
  }
}

/** Runs in the page, in its window or in a worker of it. */
const IN_PAGE = `async ({ files, bundle, worker }) => {
  const read = (files, readTake) => files.map(([name, text]) => {
    const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
    try {
      return JSON.stringify(readTake(bytes, { name }));
    } catch ({ code, message, where, todo }) {
      return JSON.stringify({ code, message, where, todo });
    }
  });
  if (!worker) {
    const parser = window.DOMParser;
    const { readTake } = new Function(bundle + ";return Ingest;")();
    if (window.DOMParser !== parser) throw new Error("the page's DOMParser was not given back");
    return read(files, readTake);
  }
  const code = bundle + ";onmessage = ({ data }) => postMessage((" + read + ")(data, Ingest.readTake));";
  const thread = new Worker(URL.createObjectURL(new Blob([code])));
  return new Promise((resolve, reject) => {
    thread.onmessage = ({ data }) => resolve(data);
    thread.onerror = ({ message }) => reject(new Error(message));
    thread.postMessage(files);
  });
}`;

// Skipped by name where Chromium is not installed; the check of a submission installs it.
describe.skipIf(!hasChromium)("the reader in a browser", () => {
  let browser: Browser;
  let page: Page;
  let bundle: string;

  beforeAll(async () => {
    const built = (await build({
      configFile: false,
      logLevel: "error",
      build: {
        write: false,
        target: "es2022",
        lib: {
          entry: new URL("../../src/ingest/index.ts", import.meta.url).pathname,
          name: "Ingest",
          formats: ["iife"],
        },
      },
    })) as Rollup.RollupOutput[];
    bundle = built[0]!.output[0].code;
    browser = await launch();
    page = await browser.newPage();
  });
  afterAll(async () => {
    await browser?.close();
  });

  test("needs nothing of Node in its bundle", () => {
    expect(bundle).not.toMatch(/require\(|\bfrom ?["']node:|process\.versions|Buffer\.from/);
  });

  test.each([false, true])(
    "gives the same takes and problems as on the server (in a worker: %s)",
    async (worker) => {
      const files = FILES.map(([name, bytes]) => [name, Buffer.from(bytes).toString("base64")]);
      const there = (await page.evaluate(
        `(${IN_PAGE})(${JSON.stringify({ files, bundle, worker })})`,
      )) as string[];
      expect(there.length).toBe(FILES.length);
      FILES.forEach(([name, bytes], i) => {
        expect(there[i], name).toBe(ending(name, bytes));
      });
    },
  );
});
