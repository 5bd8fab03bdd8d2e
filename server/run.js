/**
 * Starts one of the programs of this folder: `node server/run.js main|worker|cli|token ...`. Plain JavaScript, since it
 * is read before anything that reads TypeScript. Where the tools of development are installed, a program is made into
 * one file when that is older than the sources (and for `main` the pages too); without them, what `npm run build` made
 * runs. Read as it stands, TypeScript would carry a compiler and a thread of its own along, some 130 MB.
 */
import { execFileSync } from "node:child_process";
import { existsSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const ROOT = fileURLToPath(new URL("..", import.meta.url));
const [program] = process.argv.splice(2, 1);

if (["tsx", "vite", "esbuild"].every((tool) => existsSync(join(ROOT, "node_modules", tool)))) {
  if (program === "main") makePages();
  const file = join(ROOT, `dist/run/${program}.mjs`);
  makeProgram(file);
  await import(pathToFileURL(file).href);
} else if (existsSync(join(ROOT, `dist/server/${program}.mjs`))) {
  await import(`../dist/server/${program}.mjs`);
} else {
  console.error(
    "Ledgerline is installed without the tools that build it, and it has not been built. Build it where they are (npm ci && npm run build) and bring the folder dist along.",
  );
  process.exitCode = 1;
}

function makePages() {
  if (Math.max(newest("client"), newest("src")) < timeOf(join(ROOT, "dist/client/index.html"))) return;
  runTool(["node_modules/vite/bin/vite.js", "build", "client", "--logLevel", "error"]);
}

function makeProgram(file) {
  const sources = Math.max(newest("server"), newest("src"), timeOf(join(ROOT, "package-lock.json")));
  if (sources < timeOf(file)) return;
  runTool(["--import", "tsx", "server/bundle-program.ts", program, file]);
}

function runTool(args) {
  // Whatever is set for others, the pages are built whole: without this they would lack what works without a network.
  const env = { ...process.env, NODE_ENV: "production" };
  execFileSync(process.execPath, args, { cwd: ROOT, stdio: "inherit", env });
}

/** When a file was written, in milliseconds; 0 for one that there is not. */
function timeOf(file) {
  return statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? 0;
}

/** Time of the youngest file below a folder, in milliseconds. */
function newest(folder) {
  const files = readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true });
  return files.reduce(
    (latest, file) => (file.isFile() ? Math.max(latest, timeOf(join(file.parentPath, file.name))) : latest),
    0,
  );
}
