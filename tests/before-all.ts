/** Runs before the first test. On the machine that checks a submission (CI) nothing may be skipped for want of a program. */
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { FRESH_STORE } from "../server/store/fresh-store.ts";
import { missing } from "./programs.ts";

const CREATE = fileURLToPath(new URL("../server/store/create-embedded.js", import.meta.url));

export function setup(): void {
  const lines = missing();
  if (lines.length > 0 && process.env.CI) {
    throw new Error(`CI is set, so nothing may be left out, but:\n${lines.join("\n")}`);
  }
  if (!existsSync(FRESH_STORE)) makeFreshStore();
}

/** Some two hundred servers are started on new stores: that each makes its first tables took a fifth of all the time. */
function makeFreshStore(): void {
  const folder = mkdtempSync(join(tmpdir(), "ledgerline-fresh-"));
  execFileSync(process.execPath, [CREATE, join(folder, "store"), "--keep", FRESH_STORE]);
  rmSync(folder, { recursive: true });
}
