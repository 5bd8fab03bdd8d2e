/** A headless browser on the built pages: with the real server's answers, or with given ones. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { startServer } from "../../server/start.ts";
import { alone, newest, ROOT } from "../alone.ts";
import { copyDemoStore } from "../demo-store.ts";
import { CHROMIUM } from "../programs.ts";
import { holdStore } from "../server/held-store.ts";

export const hasChromium = CHROMIUM.path !== null;

const PAGES = join(ROOT, "dist/client");

export const POLICY =
  "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; worker-src 'self'; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

/** Builds the pages when they are older than their sources; one test file builds, the others wait. */
export async function buildPages(): Promise<void> {
  await alone("building", () => {
    if (newest(join(ROOT, "client")) > built() || newest(join(ROOT, "src")) > built()) {
      // As `npm start` builds it: the test runner's own NODE_ENV would leave the service worker out.
      execFileSync("node", ["node_modules/vite/bin/vite.js", "build", "client", "--logLevel", "error"], {
        cwd: ROOT,
        env: { ...process.env, NODE_ENV: "production" },
        stdio: "inherit",
      });
    }
  });
}

const built = (): number => statSync(join(PAGES, "index.html"), { throwIfNoEntry: false })?.mtimeMs ?? 0;

export interface Served {
  readonly url: string;
  close(): Promise<void>;
}

/** Chooses what the chorus page of a take shows in its bars. */
export async function readBy(page: Page, reading: string): Promise<void> {
  await page.check(`#chorus-page .reading-choice [value="${reading}"]`);
  await page.waitForSelector(`svg.chorus-page[data-reading="${reading}"]`, { state: "attached" });
}

/** Starts the real server on a copy of a store that holds the analysed demo takes. */
export async function serve(): Promise<Served> {
  const folder = mkdtempSync(join(tmpdir(), "ledgerline-stage-"));
  await holdStore();
  await copyDemoStore(folder);
  const served = await startServer({ port: 0, dataDir: folder });
  return {
    url: served.url,
    async close() {
      await served.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath: CHROMIUM.path!,
    args: [
      "--no-sandbox",
      "--disable-gpu",
      // Without a process for drawing, and one to fork others from, all pages together take a tenth less.
      "--in-process-gpu",
      "--no-zygote",
      // The engraver is loaded some fifty times, and what is optimised of it is not used long enough to pay.
      "--js-flags=--wasm-tiering-budget=500000000",
      "--disable-background-networking",
      "--autoplay-policy=no-user-gesture-required",
    ],
  });
}

export interface Watched {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Errors of scripts, refusals of the security policy, and requests that left the origin. */
  readonly trouble: string[];
}

/** A page of `width` pixels that notes everything that should not happen. */
export async function openPage(
  browser: Browser,
  origin: string,
  options: { width?: number; height?: number; dark?: boolean } = {},
): Promise<Watched> {
  const context = await browser.newContext({
    viewport: { width: options.width ?? 1440, height: options.height ?? 900 },
    colorScheme: options.dark ? "dark" : "light",
    serviceWorkers: "block",
    reducedMotion: "reduce",
  });
  const page = await context.newPage();
  // The loader that runs the commands names functions by a helper that a page does not have.
  await page.addInitScript("globalThis.__name ??= (named) => named");
  const trouble: string[] = [];
  page.on("pageerror", (error) => trouble.push(`error: ${error.message}`));
  page.on("console", (message) => {
    if (message.type() === "error" && !/the server responded with a status of/.test(message.text())) {
      trouble.push(`console: ${message.text()}`);
    }
  });
  page.on("request", (request) => {
    const url = request.url();
    if (!url.startsWith(origin) && !url.startsWith("blob:") && !url.startsWith("data:"))
      trouble.push(`left: ${url}`);
  });
  return { page, context, trouble };
}

/** Waits until the page has its fonts and has drawn three frames in which nothing changed its size or its elements. */
export async function settled(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await document.fonts.ready;
    const look = () => {
      const { scrollWidth, scrollHeight } = document.documentElement;
      return `${scrollWidth} ${scrollHeight} ${document.getElementsByTagName("*").length}`;
    };
    for (let before = "", same = 0; same < 3; ) {
      await new Promise((drawn) => requestAnimationFrame(drawn));
      const now = look();
      same = now === before ? same + 1 : 0;
      before = now;
    }
  });
}

/** Opens the first page under its worker, and chooses there that the takes that are opened are kept. */
export async function keepOpenedTakes(page: Page, url: string): Promise<void> {
  await underWorker(page, url);
  await page.check("[name=keep-takes]");
  await page.waitForFunction(() => caches.has("ledgerline-takes"));
}

/** Opens the first page, and waits until its worker has taken it over. */
export async function underWorker(page: Page, url: string): Promise<void> {
  await page.goto(`${url}/#/`);
  await page.waitForFunction(async () => {
    await navigator.serviceWorker.ready;
    return navigator.serviceWorker.controller !== null;
  });
  await page.waitForSelector(".this-browser");
}
