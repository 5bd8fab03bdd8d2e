/**
 * Starts one of the programs of this folder: `node server/run.js main|worker|cli|token ...`. Plain JavaScript, since it
 * is read before anything that reads TypeScript. Where the tools of development are installed, the sources run as they
 * stand (and `main` builds the pages when they are older than their sources); without them, what `npm run build` made.
 */
import { execFileSync } from "node:child_process";
import { existsSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const ROOT = fileURLToPath(new URL("..", import.meta.url));
const [program] = process.argv.splice(2, 1);

if (existsSync(join(ROOT, "node_modules/tsx")) && existsSync(join(ROOT, "node_modules/vite"))) {
  if (program === "main") buildPages();
  await import("tsx");
  await import(`./${program}.ts`);
} else if (existsSync(join(ROOT, `dist/server/${program}.mjs`))) {
  await import(`../dist/server/${program}.mjs`);
} else {
  console.error(
    "Ledgerline is installed without the tools that build it, and it has not been built. Build it where they are (npm ci && npm run build) and bring the folder dist along.",
  );
  process.exitCode = 1;
}

function buildPages() {
  const built = statSync(join(ROOT, "dist/client/index.html"), { throwIfNoEntry: false })?.mtimeMs ?? 0;
  if (Math.max(newest("client"), newest("src")) < built) return;
  execFileSync(
    process.execPath,
    ["node_modules/vite/bin/vite.js", "build", "client", "--logLevel", "error"],
    {
      cwd: ROOT,
      stdio: "inherit",
    },
  );
}

/** Time of the youngest file below a folder, in milliseconds. */
function newest(folder) {
  const files = readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true });
  return files.reduce(
    (latest, file) =>
      file.isFile() ? Math.max(latest, statSync(join(file.parentPath, file.name)).mtimeMs) : latest,
    0,
  );
}
