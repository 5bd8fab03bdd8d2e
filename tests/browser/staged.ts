import type { Browser } from "playwright-core";
import { afterAll, beforeAll } from "vitest";
import { buildPages, launch, type Served, serve } from "./stage.ts";

/** A server with the demo takes and a browser, for all tests of a `describe`. */
export interface Stage {
  readonly browser: Browser;
  readonly url: string;
}

/** Builds the pages, starts a server and a browser before the tests of a `describe`, and ends both after them. */
export function staged(): Stage {
  let browser: Browser | undefined;
  let server: Served | undefined;
  beforeAll(async () => {
    await buildPages();
    server = await serve();
    browser = await launch();
  });
  afterAll(async () => {
    await browser?.close();
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
