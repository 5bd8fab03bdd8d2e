/** The script and the styles that a page in a file of its own carries; they are built with the other pages. */
import { execFile } from "node:child_process";
import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";

export interface StandaloneAssets {
  readonly script: string;
  readonly styles: string;
}

const BUILT = fileURLToPath(new URL("../../dist/standalone/", import.meta.url));
const CONFIG = fileURLToPath(new URL("../../client/standalone/vite.config.ts", import.meta.url));

let frame: Promise<StandaloneAssets> | null = null;

/** Read once; where the pages have not been built, these two files are built first. */
export function standaloneAssets(): Promise<StandaloneAssets> {
  frame ??= open().catch((error: unknown) => {
    frame = null;
    throw error;
  });
  return frame;
}

async function open(): Promise<StandaloneAssets> {
  const files = [join(BUILT, "page.js"), join(BUILT, "page.css")] as const;
  if (!files.every(existsSync)) await build();
  const [script, styles] = await Promise.all(files.map((file) => readFile(file, "utf8")));
  return { script: script!, styles: styles! };
}

/** In a process of its own, so that the bundler does not stay in this one. */
async function build(): Promise<void> {
  const vite = join(dirname(createRequire(import.meta.url).resolve("vite/package.json")), "bin/vite.js");
  await promisify(execFile)(process.execPath, [vite, "build", dirname(CONFIG), "--config", CONFIG], {
    env: { ...process.env, NODE_ENV: "production" },
  });
}
