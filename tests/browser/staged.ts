import type { Browser } from "playwright-core";
import { afterAll, beforeAll } from "vitest";
import { buildPages, launch, type Served, serve } from "./stage.ts";

/** A server with the demo takes and a browser, for all tests of a `describe`. */
export interface Stage {
  readonly browser: Browser;
  readonly url: string;
}

/** One browser for all files that a process tests: what a page leaves behind lies in its context, which is closed. */
let shared: Promise<Browser> | undefined;

/** Builds the pages and starts a server before the tests of a `describe`; ends it and closes all pages after them. */
export function staged(): Stage {
  let browser: Browser | undefined;
  let server: Served | undefined;
  beforeAll(async () => {
    await buildPages();
    server = await serve();
    shared ??= launch();
    browser = await shared;
  });
  afterAll(async () => {
    await Promise.all(browser?.contexts().map((context) => context.close()) ?? []);
    await server?.close();
  });
  return {
    get browser() {
      return browser!;
    },
    get url() {
      return server!.url;
    },
  };
}
