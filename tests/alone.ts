/** Work that one process of the tests does for all, such as building the pages, and how old what it works on is. */
import { mkdirSync, readdirSync, rmSync, statSync, utimesSync } from "node:fs";
import { join } from "node:path";

export const ROOT = join(import.meta.dirname, "..");

/** Runs `work` while no other process runs work of this name. */
export async function alone(name: string, work: () => void | Promise<void>): Promise<void> {
  const lock = join(ROOT, `dist/.${name}`);
  mkdirSync(join(ROOT, "dist"), { recursive: true });
  for (;;) {
    try {
      mkdirSync(lock);
      break;
    } catch {
      const since = statSync(lock, { throwIfNoEntry: false })?.mtimeMs ?? Date.now();
      // Work that was killed leaves its lock behind; work that lives says so.
      if (Date.now() - since > 120_000) rmSync(lock, { recursive: true, force: true });
      await new Promise((resolve) => setTimeout(resolve, 150));
    }
  }
  const alive = setInterval(() => utimesSync(lock, new Date(), new Date()), 5000);
  try {
    await work();
  } finally {
    clearInterval(alive);
    rmSync(lock, { recursive: true, force: true });
  }
}

/** When the youngest file below a folder was written, in milliseconds. */
export function newest(folder: string): number {
  return readdirSync(folder, { recursive: true, withFileTypes: true }).reduce(
    (latest, entry) =>
      entry.isFile() ? Math.max(latest, statSync(join(entry.parentPath, entry.name)).mtimeMs) : latest,
    0,
  );
}
