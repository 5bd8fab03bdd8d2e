/**
 * `npm run check`: formatter, linter, laws of the house, unused code and types, as many at a time as there are
 * processors, the longest first. What each has to say is told whole when it ends; one that fails does not stop the others.
 */
import { execFile } from "node:child_process";
import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));

const TYPES = "node_modules/typescript/bin/tsc";

/** What Node.js is started with. */
const CHECKS: readonly (readonly string[])[] = [
  [TYPES],
  ["node_modules/knip/bin/knip.js", "--no-progress"],
  ...["server", "client", "src"].map((project) => [TYPES, "-p", project]),
  ["node_modules/@biomejs/biome/bin/biome", "ci", "--error-on-warnings", "."],
  ["--import", "tsx", "tests/house/main.ts"],
];

async function runNext(left: (readonly string[])[]): Promise<void> {
  for (let check = left.shift(); check !== undefined; check = left.shift()) {
    const { failed, said } = await run(check);
    if (said !== "") process.stdout.write(said);
    if (!failed) continue;
    console.error(`failed: ${check.join(" ")}`);
    process.exitCode = 1;
  }
}

function run(check: readonly string[]): Promise<{ readonly failed: boolean; readonly said: string }> {
  return new Promise((done) => {
    execFile(process.execPath, [...check], { cwd: ROOT, maxBuffer: 2 ** 26 }, (error, out, err) =>
      done({ failed: error !== null, said: `${out}${err}` }),
    );
  });
}

const left = [...CHECKS];
await Promise.all(Array.from({ length: Math.max(1, availableParallelism()) }, () => runNext(left)));
