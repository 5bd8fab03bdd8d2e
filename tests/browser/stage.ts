/** A headless browser on the built pages: with the real server's answers, or with given ones. */
import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { extname, join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { build } from "vite";
import type { Analysis } from "../../src/account.ts";

export const CHROMIUM = "/usr/bin/chromium";
export const hasChromium = existsSync(CHROMIUM);

const ROOT = join(import.meta.dirname, "../..");
const PAGES = join(ROOT, "dist/client");

export const POLICY =
  "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; worker-src 'self'; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

export async function buildPages(): Promise<void> {
  await build({ configFile: join(ROOT, "client/vite.config.ts"), logLevel: "error" });
}

export function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath: CHROMIUM,
    args: [
      "--no-sandbox",
      "--disable-gpu",
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

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".woff2": "font/woff2",
};

/** Answers every request of the page from the built files and one given account, without a server. */
export async function playServer(
  page: Page,
  analysis: Analysis,
  more: Record<string, unknown> = {},
): Promise<string> {
  const origin = "http://pages.test";
  const take = {
    id: "sample",
    title: "Sample take",
    player: "A. Player",
    playerId: "pl1",
    date: "2026-03-04",
    chartName: analysis.chart.name,
    key: analysis.chart.key,
    choruses: analysis.alignment.choruses,
    notes: analysis.notes.length,
    method: analysis.alignment.method,
    demo: true,
    tags: [],
  };
  const answers: Record<string, unknown> = {
    "/api/takes": { takes: [take] },
    "/api/takes/sample": take,
    "/api/takes/sample/analysis": analysis,
    "/api/forms": {
      forms: [
        { id: "blues", name: "12-bar blues", bars: 12, mode: "major" },
        { id: "minor-blues", name: "Minor blues", bars: 12, mode: "minor" },
      ],
    },
    "/api/players": { players: [{ id: "pl1", name: "A. Player" }] },
    ...more,
  };
  await page.route("**/*", async (route) => {
    const path = new URL(route.request().url()).pathname;
    const headers = { "content-security-policy": POLICY };
    if (path.startsWith("/api/")) {
      const body = answers[path];
      await route.fulfill(
        body === undefined
          ? {
              status: 404,
              contentType: "application/problem+json",
              body: JSON.stringify({ detail: "Not there" }),
            }
          : { status: 200, contentType: "application/json", body: JSON.stringify(body) },
      );
      return;
    }
    const file = join(PAGES, path === "/" ? "index.html" : path);
    await route.fulfill(
      existsSync(file)
        ? {
            status: 200,
            headers,
            contentType: TYPES[extname(file)] ?? "text/plain",
            body: await readFile(file),
          }
        : { status: 404, body: "" },
    );
  });
  return origin;
}
